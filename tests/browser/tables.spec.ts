import { readFileSync } from 'node:fs';
import { expect, open, picture, test } from './helpers';

const yard = (price: string) => {
  const demo = JSON.parse(readFileSync('../../public/table/demo.json', 'utf8'));
  demo.title = 'Another yard';
  for (const part of demo.parts) part.price = price;
  return { name: 'yard.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(demo)) };
};

test('a loaded table is kept for the next time with where it is from and when, until one goes back', async ({ page }) => {
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(yard('10.00'));
  await expect(page.getByText('Loaded “Another yard”')).toBeVisible();
  await page.reload();
  const block = page.locator('main dl.block');
  await expect(block).toContainText('Another yard');
  await expect(block).toContainText('yard.json');
  await expect(block).toContainText(String(new Date().getFullYear()));
  await picture(page, '22-kept-table');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download this table' }).click();
  expect(JSON.parse(readFileSync(await (await download).path(), 'utf8')).title).toBe('Another yard');
  await page.getByRole('button', { name: 'Back to the table beside this app' }).click();
  await expect(block).toContainText('Yard table of the island works');
  await page.reload();
  await expect(block).toContainText('Yard table of the island works');
});

test('a table from an address is kept too, and a newer one can be asked for', async ({ page }) => {
  let title = 'First edition';
  await page.route('**/elsewhere.json', (route) => route.fulfill({
    json: { format: 'pairwright.table', version: 1, title, carriers: [], heads: [] },
  }));
  await open(page, '#/table');
  await page.getByLabel('From an address').fill('/elsewhere.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  const block = page.locator('main dl.block');
  await expect(block).toContainText('First edition');
  await page.reload();
  await expect(block).toContainText('First edition');
  await expect(block).toContainText('/elsewhere.json');
  title = 'Second edition';
  await page.getByRole('button', { name: 'Look there for a newer one' }).click();
  await expect(block).toContainText('Second edition');
});

test('a kept table that is damaged is put aside, and the own one is used', async ({ page }) => {
  await page.addInitScript(() => {
    if (!sessionStorage.getItem('once')) localStorage.setItem('pairwright.table', '{"format":"pairwright.kept');
    sessionStorage.setItem('once', 'yes');
  });
  await open(page, '#/table');
  await expect(page.locator('.notice.fault')).toContainText('The table that you loaded last is damaged');
  await expect(page.locator('main dl.block')).toContainText('Yard table of the island works');
  expect(await page.evaluate(() => localStorage.getItem('pairwright.aside.pairwright.table.0'))).toContain('kept');
});

test('a table that finds no room is used all the same, and it is said', async ({ page }) => {
  await page.addInitScript(() => {
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  });
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(yard('10.00'));
  await expect(page.getByText('This browser has no room to keep it')).toBeVisible();
  await expect(page.locator('main dl.block')).toContainText('Another yard');
});

test('the schema of the format is published beside the table', async ({ request }) => {
  const schema = await (await request.get('./table/schema.json')).json();
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
});

test('a saved comparison: renamed, noted upon, and what has changed since is said', async ({ page }) => {
  await open(page, '#/compare/quern-q56/thistlecut-r90,wrackline-f125');
  await page.getByLabel('Save under a name').fill('Terrace');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.goto('./#/saved');
  await expect(page.getByRole('link', { name: /Terrace/ })).toBeVisible();
  await expect(page.locator('.since')).toHaveCount(0);
  await page.getByRole('button', { name: 'Edit Terrace: name and notes' }).click();
  await page.getByLabel('Name', { exact: true }).fill('Upper terrace');
  await page.getByRole('textbox', { name: 'Notes' }).fill('Ask for the <b>case line</b>.\nSoft ground.');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('link', { name: /Upper terrace/ })).toBeVisible();
  await expect(page.locator('.note')).toHaveText('Ask for the <b>case line</b>.\nSoft ground.');
  // Opened again it knows its name and notes, and is saved in its own place.
  await page.getByRole('link', { name: /Upper terrace/ }).click();
  await expect(page.locator('.note')).toContainText('Soft ground.');
  await page.getByLabel('Save under a name').fill('Upper terrace, again');
  await page.getByRole('button', { name: 'Save it anew' }).click();
  await expect(page.getByText('Saved as “Upper terrace, again” in this browser.')).toBeVisible();
  await page.goto('./#/saved');
  await expect(page.locator('.kept')).toHaveCount(1);
  await expect(page.locator('.note')).toContainText('Soft ground.');
  await page.goto('./#/table');
  await page.getByLabel('From a file').setInputFiles(yard('9999.00'));
  await expect(page.getByText('Loaded “Another yard”')).toBeVisible();
  await page.goto('./#/saved');
  await expect(page.locator('.since')).toContainText('The table has changed since.');
  await expect(page.locator('.since')).toContainText('price EUR');
  await picture(page, '23-saved-changed');
});

test('a comparison whose attachment is gone says so', async ({ page }) => {
  await open(page, '#/compare/quern-q27/thistlecut-r60,wrackline-f80');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await page.goto('./#/table');
  await page.getByLabel('From a file').setInputFiles({
    name: 'small.json', mimeType: 'application/json',
    buffer: Buffer.from(JSON.stringify({ format: 'pairwright.table', version: 1, title: 'Small', carriers: [], heads: [] })),
  });
  await page.goto('./#/saved');
  await expect(page.locator('.since')).toContainText('Quern QU 27 is not here any more');
  // The machine is there, its attachments are not.
  await page.goto('./#/table');
  const demo = await page.evaluate(async () => (await fetch('table/demo.json')).json());
  await page.getByLabel('From a file').setInputFiles({
    name: 'machines.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify({ ...demo, heads: [] })),
  });
  await page.goto('./#/saved');
  await expect(page.locator('.since')).toContainText('is not in the table in use');
});
