import { expect, fitsScreen, open, picture, test } from './helpers';

/** Opens a sheet of the first machine that has an attachment with this verdict. */
async function sheetThat(page, verdict: string, machine: string, attachment?: string) {
  await open(page);
  await page.getByLabel('Search maker, model or class').fill(machine);
  await page.getByRole('link', { name: new RegExp(machine) }).first().click();
  const rows = page.locator('.fit', { hasText: verdict });
  const row = attachment ? rows.filter({ hasText: attachment }) : rows;
  await row.first().getByRole('link').click();
  await expect(page.locator('.sentence')).toBeVisible();
}

test('a figure of the sentence opens its reasoning by keyboard, and closes again where it was', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern Q27', 'Wrackline B12');
  const figure = page.locator('.sentence .number').first();
  // By the tab key alone, from the heading on.
  await page.getByRole('heading', { level: 1 }).focus();
  for (let i = 0; i < 4 && !(await figure.evaluate((it) => it === document.activeElement)); i += 1) await page.keyboard.press('Tab');
  await expect(figure).toBeFocused();
  await expect(figure).toHaveAttribute('aria-expanded', 'false');
  await page.keyboard.press('Enter');
  await expect(figure).toHaveAttribute('aria-expanded', 'true');
  const panel = page.locator(`#${await figure.getAttribute('aria-controls')}`);
  await expect(panel).toBeVisible();
  await expect(panel).toContainText('Source:');
  await expect(panel.locator('.formulas li').first()).toContainText(/[=≤≥−]/);
  await expect(panel.locator('.inputs li').first()).toContainText(/published|not stated|worked out|as stated|nobody states/);
  await expect(panel).toContainText('What came out');
  await expect(figure).toBeFocused();
  await fitsScreen(page);
  await picture(page, '40-reasoning');
  await page.keyboard.press('Enter');
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
  // From inside: by Escape, and by its own button.
  await page.keyboard.press('Enter');
  await panel.getByRole('button', { name: 'Close' }).focus();
  await page.keyboard.press('Escape');
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
  await page.keyboard.press('Enter');
  await panel.getByRole('button', { name: 'Close' }).click();
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
});

test('another figure of the sentence takes the panel over', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern Q27', 'Wrackline B12');
  const figures = page.locator('.sentence .number');
  await figures.first().click();
  await figures.last().click();
  await expect(figures.first()).toHaveAttribute('aria-expanded', 'false');
  await expect(figures.last()).toHaveAttribute('aria-expanded', 'true');
  await expect(page.locator('.sentence + .why:visible')).toHaveCount(1);
});

test('every check says how it was worked out, figures or not', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern Q27', 'Wrackline B12');
  for (const summary of await page.locator('details.more > summary').all()) await summary.click();
  const rows = page.locator('section', { has: page.locator('#checks-today') }).locator('.check');
  expect(await rows.count()).toBeGreaterThan(30);
  for (const row of await rows.all()) {
    const how = row.getByRole('button', { name: /How this was worked out/ });
    expect((await how.boundingBox())!.height).toBeGreaterThanOrEqual(47.5);
    await how.click();
    await expect(row.locator('.why')).toContainText('Source:');
    await how.click();
    await expect(row.locator('.why')).toBeHidden();
  }
  await fitsScreen(page);
});

test('figures are large enough to press, and stand in the units that are chosen', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern Q27', 'Wrackline B12');
  for (const figure of await page.locator('.number:visible').all()) {
    const box = (await figure.boundingBox())!;
    expect(box.height).toBeGreaterThanOrEqual(24);
    expect(box.width).toBeGreaterThanOrEqual(24);
  }
  await page.locator('.sentence .number').first().click();
  await expect(page.locator('#why-sentence')).toContainText(/bar|L\/min/);
  await page.getByRole('button', { name: /Units/ }).click();
  await expect(page.locator('#why-sentence')).toContainText(/psi|gpm/);
});

test('a heading of the operating points and a figure of the brochure open theirs', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern Q27', 'Wrackline B12');
  await page.getByRole('columnheader', { name: 'Flow' }).getByRole('button').click();
  const points = page.locator('#why-points');
  await expect(points).toContainText('Q(p)');
  await expect(points).toContainText('Flow of the auxiliary circuit');
  // What was opened belongs to the machine that was shown.
  await page.locator('section', { has: page.locator('#points') }).getByRole('button', { name: 'as it is' }).click();
  await expect(points).toBeHidden();
  await page.locator('.brochure .number').first().click();
  await expect(page.locator('#why-brochure')).toContainText('Source:');
  await fitsScreen(page);
});

test('a sheet prints as it stands: no panel that is shut, no button', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern Q27', 'Wrackline B12');
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.why:visible')).toHaveCount(0);
  await expect(page.locator('.how:visible')).toHaveCount(0);
  const looks = await page.locator('.sentence .number').first().evaluate((it) => getComputedStyle(it).textDecorationLine);
  expect(looks).toBe('none');
});

test('where nothing can be said yet, one thing comes first, with its place', async ({ page }) => {
  await sheetThat(page, 'cannot say yet', 'Quern Q27');
  const box = page.locator('.settling');
  await expect(box).toContainText(/Read one figure first:|Find out one thing first:/);
  await expect(box).toContainText('Where:');
  await picture(page, '41-settle');
  const more = box.locator('summary');
  if (await more.count()) {
    await more.click();
    await expect(box.locator('li').first()).toBeVisible();
  }
  await fitsScreen(page);
});
