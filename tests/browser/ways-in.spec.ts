import type { Page } from '@playwright/test';
import { expect, fitsScreen, open, test, unfold } from './helpers';

const solved = (page: Page) => expect(page.locator('[aria-busy="true"]')).toHaveCount(0);

test('by the attachment: the machines that run it, the smallest first', async ({ page }) => {
  await open(page);
  await page.getByRole('link', { name: 'the attachment' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Which attachment?' })).toBeFocused();
  await page.getByLabel('Search maker, model, kind or material').fill('flail');
  await expect(page.getByRole('status').filter({ hasText: /^\d attachments$/ })).toBeVisible();
  await page.getByRole('link', { name: /Wrackline WN 80/ }).click();
  await solved(page);
  await expect(page.locator('p.answer')).toContainText(/The smallest machine here that runs it as it is: .+, [\d,]+ kg\./);
  // The first row is the machine that the sentence names, and the masses of a verdict go up.
  const named = (await page.locator('p.answer').innerText()).match(/: (.+), [\d,]+ kg/)![1];
  await expect(page.locator('.fit').first()).toContainText(named);
  await page.getByRole('button', { name: /^fits as it is/ }).click();
  const masses = (await page.locator('.fit .kind').allInnerTexts()).map((text) => Number(text.replace(/\D/g, '')));
  expect(masses.length).toBeGreaterThan(1);
  expect([...masses].sort((a, b) => a - b)).toEqual(masses);
  await fitsScreen(page);
  await page.locator('.fit').first().getByRole('link').click();
  await expect(page.locator('.sentence')).toContainText(/It fits( as it is\.|\. Before any work, prove \d+ points?\.)/);
  await page.goto('./#/attachment/no-such-thing');
  await page.getByRole('link', { name: 'Choose an attachment' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which attachment?');
});

test('by the work: what is made for it, and the smallest machine for each', async ({ page }) => {
  await open(page);
  await page.getByRole('link', { name: 'the work' }).click();
  await expect(page.getByText('Name the material, or the width that is wanted.')).toBeVisible();
  await page.getByLabel('Work: material').selectOption('stems');
  await expect(page.locator('.for-it')).not.toHaveCount(0);
  const all = await page.locator('.for-it').count();
  await page.getByLabel('Its diameter or thickness').fill('4 in');
  await expect(page.locator('.for-it')).not.toHaveCount(all);
  await expect(page.locator('.for-it', { hasText: 'Thistlecut TI 90' })).toHaveCount(0);
  await page.getByLabel('Its diameter or thickness').fill('100');
  await expect(page.locator('.for-it', { hasText: 'Thistlecut TI 90' })).toContainText(/the smallest after changes .+ kg/);
  await page.getByLabel('Its diameter or thickness').fill('thick');
  await expect(page.getByText('“thick” is no length. Write it like 80 mm.')).toBeVisible();
  await page.getByLabel('Its diameter or thickness').fill('100 mm');
  // What is asked stands in the address: back, a reload and a copy of it lead here again.
  await page.locator('.for-it', { hasText: 'Thistlecut TI 90' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Thistlecut TI 90');
  await page.goBack();
  await expect(page.getByLabel('Its diameter or thickness')).toHaveValue('100 mm');
  await page.reload();
  await expect(page.getByLabel('Work: material')).toHaveValue('stems');
  await expect(page.locator('.for-it', { hasText: 'Thistlecut TI 90' })).toBeVisible();
  // Of what has no thickness none is asked.
  await page.getByLabel('Work: material').selectOption('snow');
  await expect(page.getByLabel('Its diameter or thickness')).toBeHidden();
});

test('invariant: what narrows a list stands in the address and stays on the way back', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await solved(page);
  await page.getByText('Narrow the list').click();
  await page.getByLabel('Work: material').selectOption('concrete');
  await page.getByLabel('Changes, at most').selectOption('1');
  await page.getByRole('button', { name: 'In the yard' }).click();
  await expect(page.locator('.tally')).toHaveText(/^\d+ of 40 attachments shown$/);
  const shown = await page.locator('.fit .name').allTextContents();
  expect(shown).toContain('Wrackline WN 22');
  expect(shown).not.toContain('Wrackline WN 12');
  // Who names no material is not left out, but folded, and the row says so.
  await page.getByText(/^Not stated: \d+ attachments? whose makers do not say/).click();
  await expect(page.locator('.not-stated .fit', { hasText: 'Saltmarsh SA 42' })).toContainText('its maker does not say');
  expect(page.url()).toMatch(/material=concrete&changes=1&stock=yes/);
  await page.locator('.fit', { hasText: 'Wrackline WN 22' }).getByRole('link').click();
  await expect(page.locator('.sentence')).toBeVisible();
  await page.goBack();
  await expect(page.getByLabel('Changes, at most')).toHaveValue('1');
  await expect(page.locator('.fit .name')).toHaveText(shown);
  await page.getByRole('button', { name: 'Take all filters away' }).click();
  await expect(page.locator('.tally')).toHaveText('40 attachments');
  // The order goes with the address too.
  await page.getByLabel('Order').selectOption('lightest first');
  await expect(page).toHaveURL(/order=mass/);
  await expect(page.locator('.fit .name').first()).not.toHaveText('Pebblegate PB 65');
  await fitsScreen(page);
});

test('invariant: back stands where one left, with the focus on what was followed', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await solved(page);
  const row = page.locator('.fit').nth(25).getByRole('link');
  await row.scrollIntoViewIfNeeded();
  const name = await row.locator('.name').innerText();
  const before = await page.evaluate(() => scrollY);
  expect(before).toBeGreaterThan(500);
  await row.click();
  await expect(page.locator('.sentence')).toBeVisible();
  await expect.poll(() => page.evaluate(() => scrollY)).toBe(0);
  await page.goBack();
  await expect(page.getByRole('link', { name: new RegExp(name) })).toBeFocused();
  await expect.poll(() => page.evaluate(() => scrollY)).toBe(before);
  // A reload forgets the places, and begins at the top.
  await page.goForward();
  await expect(page.getByRole('heading', { level: 1, name: new RegExp(name) })).toBeVisible();
});

test('what was opened last is at hand, and can be forgotten', async ({ page }) => {
  await open(page, '#/machine/quern-q56');
  await solved(page);
  await page.goto('./#/machine/quern-q27/thistlecut-r60');
  await expect(page.locator('.sentence')).toBeVisible();
  await page.goto('./#/');
  const last = page.locator('section', { has: page.getByRole('heading', { name: 'Opened last' }) });
  await expect(last.getByRole('link')).toHaveText(['Thistlecut TI 60 on Quern QU 27', 'Quern QU 56']);
  await page.reload();
  await last.getByRole('link', { name: 'Quern QU 56' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Quern QU 56');
  await page.goBack();
  await page.getByRole('button', { name: 'Forget these' }).click();
  await expect(last).toHaveCount(0);
  await page.reload();
  await expect(page.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
  await expect(last).toHaveCount(0);
});

test('side by side over several machines: chosen from anywhere, taken out, added, sent, saved, and opened again', async ({ page, context }) => {
  await open(page, '#/attachment/thistlecut-r60');
  await solved(page);
  await page.getByRole('checkbox', { name: 'Compare Quern QU 27' }).check();
  await page.getByRole('checkbox', { name: 'Compare Quern QU 48' }).check();
  await page.goto('./#/machine/quern-q56/thistlecut-r90');
  await page.getByRole('button', { name: 'Choose for comparison' }).click();
  await page.getByRole('link', { name: 'Compare 3 side by side' }).click();
  await unfold(page, 'All rows as a table');
  await expect(page.locator('.compare thead th')).toHaveText(['Thistlecut TI 60 on Quern QU 27', 'Thistlecut TI 60 on Quern QU 48', 'Thistlecut TI 90 on Quern QU 56']);
  await expect(page.getByRole('row', { name: /^In all/ })).toContainText(/EUR/);
  await fitsScreen(page);
  const rows = await page.getByRole('row').count();
  await page.getByLabel('Only what differs').check();
  expect(await page.getByRole('row').count()).toBeLessThan(rows);
  await expect(page.getByRole('rowheader', { name: 'Verdict' })).toBeVisible();
  await page.getByLabel('Only what differs').uncheck();
  await page.getByText('Send a link').click();
  // It goes with its machines, and says of which table they are.
  const link = await page.getByLabel('Link', { exact: true }).inputValue();
  expect(link).toContain('#/compare/quern-q27/thistlecut-r60/quern-q48/thistlecut-r60/quern-q56/thistlecut-r90?');
  const theirs = await context.newPage();
  await theirs.goto(link);
  await expect(theirs.locator('.card-of-pairing')).toHaveCount(3);
  await theirs.close();
  await page.getByRole('button', { name: 'Take out Thistlecut TI 90' }).click();
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
  await page.getByRole('button', { name: 'Add an attachment on Quern QU 27' }).click();
  await solved(page);
  await expect(page.getByRole('checkbox', { name: 'Compare Thistlecut TI 60' })).toBeChecked();
  await page.getByRole('checkbox', { name: 'Compare Wrackline WN 80' }).check();
  await page.getByRole('link', { name: 'Compare 3 side by side' }).click();
  await page.getByLabel('Save under a name').fill('Two machines');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText('Saved as “Two machines”')).toBeVisible();
  await page.goto('./#/saved');
  await expect(page.locator('.kept')).toContainText('Quern QU 27, Quern QU 48');
  await page.getByRole('link', { name: /Two machines/ }).click();
  await expect(page.locator('.card-of-pairing')).toHaveCount(3);
  await expect(page.getByText('Saved as “Two machines”.')).toBeVisible();
});

test('six stand side by side and no more', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await solved(page);
  for (let place = 0; place < 6; place += 1) await page.locator('.fit').nth(place).getByRole('checkbox').check();
  await expect(page.locator('.fit').nth(6).getByRole('checkbox')).toBeDisabled();
  await page.getByRole('link', { name: 'Compare 6 side by side' }).click();
  await expect(page.locator('.card-of-pairing')).toHaveCount(6);
  await unfold(page, 'All rows as a table');
  // The first column stays in sight however far one goes.
  await page.locator('.scroll', { has: page.locator('.compare') }).evaluate((region) => { region.scrollLeft = 10_000; });
  const box = await page.getByRole('rowheader', { name: 'Verdict' }).boundingBox();
  expect(box!.x).toBeGreaterThanOrEqual(0);
  expect(box!.x).toBeLessThan(160);
  await expect(page.getByRole('button', { name: /^Add an attachment/ })).toHaveCount(0);
});
