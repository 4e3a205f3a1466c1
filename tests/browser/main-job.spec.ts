import { expect, fitsScreen, open, picture, test, unfold } from './helpers';

/** Looks for a machine from the start. */
async function search(page) {
  await open(page);
  await page.getByLabel('Search maker, model, class, mass or power').fill('mini excavator');
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
  await expect(page.locator('.stay')).toContainText(/Fits after \d+ change/);
  await expect(page.locator('.sentence')).toContainText(/Do not run it as it stands\. With .* below it fits\./);
  await expect(page.locator('.sentence')).toContainText(/\d+(\.\d+)? (bar|L\/min|rpm)/);
  await expect(page.locator('.sums')).toContainText(/EUR [\d,]+/);
  await expect(page.getByRole('heading', { name: 'What the machine must get' })).toBeVisible();
  await page.locator('.fold.change > summary').first().click();
  await expect(page.locator('.fold.change').first()).toContainText(/without it|it settles|another change/i);
  await unfold(page, 'Checks');
  // Nothing fails on the changed machine.
  const checks = page.locator('#checks-checks');
  await expect(checks.locator('.fold.not-met')).toHaveCount(0);
  await expect(checks.locator('.fold.met').first()).toBeVisible();
  await expect(checks.getByText(/^not met today · met after changes$/).first()).toBeVisible();
  await unfold(page, 'What arrives');
  await expect(page.locator('.card', { hasText: 'working, 60 °C' }).first()).toBeVisible();
  await fitsScreen(page);
  await picture(page, '03-sheet');

  // Side by side with another.
  await page.getByRole('button', { name: 'Choose for comparison' }).click();
  await page.locator('.path').getByRole('link', { name: 'Quern QU 27' }).click();
  await page.locator('.fit', { hasText: 'does not fit' }).first().getByRole('checkbox').check();
  await page.getByRole('link', { name: 'Compare 2 side by side' }).click();
  await unfold(page, 'All rows as a table');
  await expect(page.getByRole('rowheader', { name: 'Back pressure' })).toBeVisible();
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
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
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
});

test('invariant: a sheet is short until it is unfolded', async ({ page }) => {
  test.skip(test.info().project.name !== 'phone', 'its length counts on a phone');
  // 2 500 px with five changes and seven points to prove, 60 more for each change or point more; one that cannot be said yet 2 000.
  for (const [pair, most] of [['quern-q27/thistlecut-r60', 2500], ['quern-q56/thistlecut-r90', 2500], ['any-mini-excavator/thistlecut-r60', 2000]] as const) {
    await page.goto('about:blank');
    await open(page, `#/machine/${pair}`);
    await expect(page.locator('.sentence')).toBeVisible();
    await expect(page.locator('[aria-busy="true"]')).toHaveCount(0);
    const { height, changes, points } = await page.evaluate(() => ({
      height: document.documentElement.scrollHeight,
      changes: document.querySelectorAll('.fold.change').length,
      points: Number(document.querySelector('#checks-checks .sum')!.textContent!.match(/(\d+) to prove/)?.[1] ?? 0),
    }));
    const more = most === 2500 ? Math.max(0, 60 * (changes - 5 + points - 7)) : 0;
    expect(height, `${pair}: ${changes} changes, ${points} points to prove`).toBeLessThanOrEqual(most + more);
  }
});

test('the line that stays in sight leads to each part, unfolded, with the focus there', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  const menu = page.locator('.jump');
  await menu.locator('summary').click();
  await page.keyboard.press('Escape');
  await expect(menu.getByRole('button', { name: 'Checks' })).toBeHidden();
  await expect(menu.locator('summary')).toBeFocused();
  await menu.locator('summary').click();
  await menu.getByRole('button', { name: 'Oil, day of work, lift' }).click();
  await expect(menu.getByRole('button', { name: 'Checks' })).toBeHidden();
  await expect(page.locator('.thermometer')).toBeInViewport();
  await expect(page.locator('#oil-part > summary')).toBeFocused();
  // Still in sight, and over nothing that was gone to.
  await expect(page.locator('.stay')).toBeInViewport();
  const below = await page.evaluate(() => {
    const [line, there] = ['.stay', '#oil-part > summary'].map((name) => document.querySelector(name)!.getBoundingClientRect());
    return there.top - line.bottom;
  });
  expect(below).toBeGreaterThanOrEqual(-1);
});

test('metric and US at one touch, kept after a reload', async ({ page }) => {
  await openList(page);
  await page.locator('.fit', { hasText: 'fits after changes' }).first().getByRole('link').click();
  await expect(page.locator('.prove .fig').first()).toContainText(/bar|L\/min/);
  await page.getByRole('button', { name: /Units/ }).click();
  await expect(page.locator('.prove .fig').first()).toContainText(/psi|gpm/);
  await page.reload();
  await expect(page.locator('.prove .fig').first()).toContainText(/psi|gpm/);
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

test('names above and beside the table of a comparison stay in sight, whatever it is scrolled to', async ({ page }) => {
  await open(page, '#/compare/quern-q27/wrackline-b12,thistlecut-r60,pebblegate-a15');
  await unfold(page, 'All rows as a table');
  const frame = page.getByRole('region', { name: 'Comparison' });
  await frame.scrollIntoViewIfNeeded();
  const box = (await frame.boundingBox())!;
  expect(box.height, 'no higher than the screen').toBeLessThan(page.viewportSize()!.height);
  await frame.evaluate((it) => { it.scrollTop = it.scrollHeight / 2; it.scrollLeft = it.scrollWidth; });
  // What is on top at a place of the frame: a name, and no figure of a cell that has gone below it.
  const there = (x: number, y: number) => page.evaluate(([x, y]) => document.elementFromPoint(x, y)!.closest('th, td')!.outerHTML.slice(0, 20), [box.x + x, box.y + y]);
  for (const x of [box.width - 20, box.width - 60]) expect(await there(x, 20)).toMatch(/^<th scope="col"/);
  for (let y = 80; y < box.height - 20; y += 40) expect(await there(30, y)).toMatch(/^<th scope="row"/);
  await fitsScreen(page);
});

test('at a desk what a list is narrowed by stands beside it and stays in sight', async ({ page }) => {
  await openList(page);
  const wide = page.viewportSize()!.width > 1000;
  const [sieve, rows] = [page.locator('.sieve'), page.locator('.fits').first()];
  const [left, right] = [(await sieve.boundingBox())!, (await rows.boundingBox())!];
  expect(left.x + left.width < right.x, 'beside each other').toBe(wide);
  await page.evaluate(() => scrollTo(0, 1500));
  if (wide) await expect(page.getByRole('button', { name: /^does not fit/ })).toBeInViewport();
  else await expect(page.getByRole('button', { name: /^does not fit/ })).not.toBeInViewport();
});

test('in another folder of the same host', async ({ page }) => {
  await page.goto('/yard/tools/');
  await expect(page.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
});

test('the brochure against the circuit, and the oil thermometer moves what arrives', async ({ page }) => {
  await openList(page);
  await page.locator('.fit', { hasText: 'Thistlecut TI 60' }).getByRole('link').click();
  await expect(page.locator('#brochure-part')).toContainText('brochure 46 L/min, circuit');
  for (const part of ['Brochure against circuit', 'Oil, day of work, lift', 'What arrives']) await unfold(page, part);
  await expect(page.getByRole('heading', { name: 'Brochure says, circuit gives' })).toBeVisible();
  const brochure = page.locator('.brochure');
  await expect(brochure).toContainText(/The brochure says 46 L\/min and 210 bar/);
  await expect(brochure).toContainText(/return [−-]/);

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
  await expect(page.locator('#arrives-part').getByRole('button', { name: 'as it is' })).toHaveAttribute('aria-pressed', 'true');
  await expect(slider).toHaveAttribute('aria-valuetext', /not met: .*Back pressure/);
  await fitsScreen(page);
  await picture(page, '06-thermometer');
});
