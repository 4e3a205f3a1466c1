import { expect, fitsScreen, open, picture, test } from './helpers';

/** Looks for a machine from the start. */
async function search(page) {
  await open(page);
  await page.getByLabel('Search maker, model or class').fill('mini excavator');
  await expect(page.getByRole('status').filter({ hasText: 'machines' })).toBeVisible();
}

/** Waits for what fits a machine that has attachments of every verdict. */
async function listed(page) {
  await expect(page.getByRole('heading', { level: 1, name: 'Quern QU 27' })).toBeVisible();
  await expect(page.locator('.fit').first()).toBeVisible();
}

/** Goes from what was found to the list. */
async function choose(page) {
  await page.getByRole('link', { name: /Quern QU 27/ }).click();
  await listed(page);
}

/** Opens the list by its address. */
async function openList(page) {
  await open(page, '#/machine/quern-q27');
  await listed(page);
}

test('the main job: choose, read why, compare, save, reload, still there', async ({ page }) => {
  await search(page);
  await picture(page, '01-start-search');
  await choose(page);
  await fitsScreen(page);
  await picture(page, '02-what-fits');
  // The first of the list only might not fit as it is, and needs a change to be certain; this one fails today.
  await expect(page.locator('.fit', { hasText: 'fits after changes' }).first()).toContainText('Wrackline WN 22');
  const failing = page.locator('.fit', { hasText: 'fits after changes' }).filter({ hasText: 'Wrackline WN 12' });
  await failing.getByRole('link').click();

  // The sentence comes first, then the numbers.
  await expect(page.locator('.sentence')).toContainText(/Does not fit today; fits after \d+ change/);
  await expect(page.locator('.sentence')).toContainText(/\d+(\.\d+)? (bar|L\/min|rpm)/);
  await expect(page.getByRole('heading', { name: 'What the machine must get' })).toBeVisible();
  await expect(page.locator('.changes li').first()).toContainText(/without it|it settles|another change/i);
  await expect(page.getByRole('heading', { name: 'Checks on the changed machine, solved again' })).toBeVisible();
  // Nothing fails on the changed machine.
  const after = page.locator('section', { has: page.locator('#checks-after') });
  await expect(after.locator('.not-met')).toHaveCount(0);
  await expect(after.locator('.check').first()).toBeVisible();
  await expect(page.getByRole('row', { name: /working, 60 °C working/ }).first()).toBeVisible();
  await fitsScreen(page);
  await picture(page, '03-sheet');

  // Side by side with another.
  await page.getByRole('button', { name: 'Choose for comparison' }).click();
  await page.getByRole('link', { name: 'All attachments for this machine' }).click();
  await page.locator('.fit', { hasText: 'does not fit' }).first().getByRole('checkbox').check();
  await page.getByRole('link', { name: 'Compare 2 side by side' }).click();
  await expect(page.getByRole('rowheader', { name: 'Back pressure' })).toBeVisible();
  await expect(page.locator('thead th')).toHaveCount(2);
  await fitsScreen(page);
  await picture(page, '04-side-by-side');

  // Saved under a name, and there again after a reload.
  await page.getByLabel('Save under a name').fill('Flood bank, north');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText('Saved as “Flood bank, north”')).toBeVisible();
  await page.reload();
  await page.getByRole('link', { name: /^Saved/ }).click();
  await picture(page, '05-saved');
  await page.getByRole('link', { name: /Flood bank, north/ }).click();
  await expect(page.locator('thead th')).toHaveCount(2);
});

test('metric and US at one touch, kept after a reload', async ({ page }) => {
  await openList(page);
  await page.locator('.fit', { hasText: 'fits after changes' }).first().getByRole('link').click();
  await expect(page.locator('.figures').first()).toContainText(/bar|L\/min/);
  await page.getByRole('button', { name: /Units/ }).click();
  await expect(page.locator('.figures').first()).toContainText(/psi|gpm/);
  await page.reload();
  await expect(page.locator('.figures').first()).toContainText(/psi|gpm/);
});

test('light and dark', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await openList(page);
  await picture(page, '12-what-fits-dark');
  await page.locator('.fit', { hasText: 'fits after changes' }).first().getByRole('link').click();
  await expect(page.locator('.sentence')).toBeVisible();
  await picture(page, '13-sheet-dark');
  const ground = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const dark = await ground();
  await page.getByRole('button', { name: /Look: auto/ }).click();
  expect(await ground()).not.toBe(dark);
});

test('back and forward, titles, and the focus on the heading', async ({ page }) => {
  await search(page);
  await choose(page);
  await expect(page).toHaveTitle('Quern QU 27 · Pairwright');
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
  await page.goBack();
  await expect(page.getByRole('heading', { level: 1, name: 'Which machine?' })).toBeVisible();
  await page.goForward();
  await expect(page.getByRole('heading', { level: 1, name: 'Quern QU 27' })).toBeVisible();
});

test('a machine or address that is not there says what to do', async ({ page }) => {
  await open(page, '#/machine/no-such-machine');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Not in this table');
  await page.getByRole('link', { name: 'Choose a machine' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which machine?');
  await page.goto('./#/nowhere/at/all/here');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Nothing here');
});

test('the order is by verdict, and the filters work', async ({ page }) => {
  await openList(page);
  // What is open and can hurt people is said with the verdict: "fits; 1 point to prove before work".
  const rank = [/^fits( as it is$|; \d+ points? to prove before work$)/, /^fits after changes(; \d+ points? to prove before work)?$/, /^cannot say yet$/, /^does not fit$/];
  const seen = (await page.locator('.fit .verdict').allTextContents()).map((text) => rank.findIndex((verdict) => verdict.test(text)));
  expect(seen.length).toBeGreaterThan(13);
  expect(seen).not.toContain(-1);
  expect([...seen].sort((a, b) => a - b)).toEqual(seen);
  await page.getByRole('button', { name: /^fits after changes/ }).click();
  for (const text of await page.locator('.fit .verdict').allTextContents()) expect(text).toMatch(rank[1]);
  await page.getByText('Narrow the list').click();
  await page.getByLabel('Kind').selectOption('cold-planer');
  await expect(page.getByText('Nothing passes these filters.')).toBeVisible();
  await page.getByRole('button', { name: 'Show all' }).click();
  await expect(page.locator('.fit')).toHaveCount(seen.length);
});

test('everything to press is large enough for a thumb', async ({ page }) => {
  await openList(page);
  await page.locator('.fit').first().getByRole('checkbox').check();
  const things = page.locator('button:visible, .row:visible, select:visible, .tick:visible, nav a:visible, summary:visible');
  const heights = await things.evaluateAll((all: HTMLElement[]) => all.map((one) => ({ name: one.innerText, height: one.getBoundingClientRect().height })));
  expect(heights.length).toBeGreaterThan(40);
  expect(heights.filter(({ height }) => height < 47.5)).toEqual([]);
});

test('in another folder of the same host', async ({ page }) => {
  await page.goto('/yard/tools/');
  await expect(page.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
});

test('the brochure against the circuit, and the oil thermometer moves what arrives', async ({ page }) => {
  await openList(page);
  await page.locator('.fit', { hasText: 'Thistlecut TI 60' }).getByRole('link').click();
  await expect(page.getByRole('heading', { name: 'Brochure says, circuit gives' })).toBeVisible();
  const brochure = page.locator('.brochure');
  await expect(brochure).toContainText(/The brochure says 46 L\/min and 210 bar/);
  await expect(brochure).toContainText(/way back [−-]/);

  const thermometer = page.locator('.thermometer');
  const slider = thermometer.getByLabel('Temperature of the oil');
  const backPressure = thermometer.locator('dd').nth(2);
  const mark = thermometer.locator('.marks .check', { hasText: 'Back pressure' });
  await expect(thermometer).toContainText('Oil at 60 °C');
  const warm = parseFloat((await backPressure.textContent())!);
  await expect(mark).toHaveClass(/ met/);
  // Cold, the changed machine does not do: it has to idle itself warm first.
  await slider.fill('-10');
  await expect(thermometer).toContainText('too thick to start a pump with');
  await expect(mark).toHaveClass(/not-met/);
  expect(parseFloat((await backPressure.textContent())!)).toBeGreaterThan(3 * warm);
  await expect(slider).toHaveAttribute('aria-valuetext', /10 °C/);
  // One step by the keyboard; and the machine as it is fails warm too.
  await slider.focus();
  await page.keyboard.press('ArrowRight');
  await expect(thermometer).toContainText(/Oil at [−-]9 °C/);
  await slider.fill('60');
  await thermometer.getByRole('button', { name: 'as it is' }).click();
  await expect(mark).toHaveClass(/not-met/);
  await expect(thermometer).toContainText('of heat on average');
  // The operating points follow: one machine is shown at a time.
  await expect(page.locator('section', { has: page.locator('#points') }).getByRole('button', { name: 'as it is' })).toHaveAttribute('aria-pressed', 'true');
  await expect(slider).toHaveAttribute('aria-valuetext', /not met: .*Back pressure/);
  await fitsScreen(page);
  await picture(page, '06-thermometer');
});
