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
  await page.getByRole('textbox', { name: 'Notes' }).fill('Ask for the <b>case drain</b>.\nSoft ground.');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('link', { name: /Upper terrace/ })).toBeVisible();
  await expect(page.locator('.note')).toHaveText('Ask for the <b>case drain</b>.\nSoft ground.');
  // Opened again it knows its name and notes, and is saved in its own place.
  await page.getByRole('link', { name: /Upper terrace/ }).click();
  await expect(page.locator('.note')).toContainText('Soft ground.');
  await page.getByLabel('Save under a name').fill('Upper terrace, again');
  await page.getByRole('button', { name: 'Rename “Upper terrace” to this' }).click();
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

const DEMO = 'Demo table in use: its machines and attachments are invented.';
const real = (title: string, machines: object[] = []) => JSON.stringify({
  format: 'pairwright.table', version: 1, title, carriers: machines, heads: [],
});
const file = (text: string, name: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
const machine = (id: string, mass: string) => ({ id, model: id.toUpperCase(), class: 'mini-excavator', operating_mass: mass });
const kept = (page) => page.evaluate(() => localStorage.getItem('pairwright.table'));

test('invariant: whenever the demo table is in use every screen and paper says so, and no other table does', async ({ page }) => {
  for (const screen of [
    '', '#/attachments', '#/work', '#/machine/quern-q27', '#/machine/quern-q27/thistlecut-r60', '#/saved', '#/table',
    '#/compare/quern-q27/thistlecut-r60,wrackline-f80', '#/machine/quern-q27/thistlecut-r60/customer',
  ]) {
    await open(page, screen);
    await expect(page.getByText(DEMO).first(), screen).toBeVisible();
  }
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.paper').getByText(DEMO)).toBeVisible();
  await expect(page.getByText(DEMO).filter({ visible: true })).toHaveCount(1);
  await page.emulateMedia({ media: 'screen' });
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  await page.getByText('Send a link').click();
  await expect(page.locator('.letter').first()).toContainText('a demo table, whose machines and attachments are invented');
  await page.goto('./#/table');
  await page.getByLabel('From a file').setInputFiles(file(real('Our yard', [machine('m', '3 t')]), 'ours.json'));
  await expect(page.getByText('Loaded “Our yard”')).toBeVisible();
  await expect(page.getByText(DEMO)).toHaveCount(0);
  await page.getByRole('button', { name: 'Back to the table beside this app' }).click();
  await expect(page.getByText(DEMO)).toBeVisible();
});

test('invariant: a kept table of a newer version is told, and stays whatever is loaded', async ({ page }) => {
  const newer = JSON.stringify({ format: 'pairwright.kept-table', version: 9, table: { anything: 'else' } });
  await open(page, '#/table');
  await page.evaluate((text) => localStorage.setItem('pairwright.table', text), newer);
  await page.reload();
  await expect(page.locator('.notice.fault')).toContainText('The table that you loaded last is of version 9, newer than this app');
  await expect(page.locator('.notice.fault')).toContainText('Until then the table beside this app is in use');
  await expect(page.getByText(DEMO)).toBeVisible();
  expect(await kept(page)).toBe(newer);
  await page.getByLabel('From a file').setInputFiles(file(real('Our yard'), 'ours.json'));
  await expect(page.getByText('Loaded “Our yard”')).toBeVisible();
  expect(await page.evaluate(() => localStorage.getItem('pairwright.aside.pairwright.table.0'))).toBe(newer);
  expect(await kept(page)).toContain('Our yard');
});

test('invariant: a table that finds no room leaves the one that was kept, and says which is used next', async ({ page }) => {
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(file(real('First yard'), 'first.json'));
  await expect(page.getByText('Loaded “First yard”')).toBeVisible();
  await page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
  await page.getByLabel('From a file').setInputFiles(file(real('Second yard'), 'second.json'));
  await expect(page.getByText('it is used until this page is closed, and then the one that stays kept, first.json.')).toBeVisible();
  await expect(page.locator('main dl.block')).toContainText('Second yard');
  expect(await kept(page)).toContain('First yard');
  await page.reload();
  await expect(page.locator('main dl.block')).toContainText('First yard');
});

test('a table that took the place of a kept one can be put back, and so can a kept one that was left', async ({ page }) => {
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(file(real('First yard'), 'first.json'));
  await expect(page.getByText('Loaded “First yard”')).toBeVisible();
  const before = await kept(page);
  await page.getByLabel('From a file').setInputFiles(file(real('Second yard'), 'second.json'));
  await expect(page.getByText('It takes the place of the table that was kept, first.json.')).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).click();
  const block = page.locator('main dl.block');
  await expect(block).toContainText('First yard');
  expect(await kept(page)).toBe(before);
  await page.getByRole('button', { name: 'Back to the table beside this app' }).click();
  await expect(page.getByText(DEMO)).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(block).toContainText('First yard');
  expect(await kept(page)).toBe(before);
});

test('the address of a kept table is asked anew at each opening, and what differs is told', async ({ page }) => {
  let text = real('Their yard', [machine('a', '3 t'), machine('b', '4 t')]);
  let asked = 0;
  await page.route('**/theirs.json', (route) => { asked += 1; return route.fulfill({ contentType: 'application/json', body: text }); });
  await open(page, '#/table');
  await page.getByLabel('From an address').fill('/theirs.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await expect(page.getByText('Loaded “Their yard”')).toBeVisible();
  await page.reload();
  await expect(page.locator('main dl.block')).toContainText('2 machines');
  expect(asked).toBe(2);
  await expect(page.locator('.notice')).toHaveCount(0);
  text = real('Their yard', [machine('a', '3.5 t'), machine('c', '5 t')]);
  await page.reload();
  await expect(page.locator('.notice')).toContainText('/theirs.json has changed since');
  await expect(page.locator('.notice')).toContainText('Machines: new C; gone B; changed A.');
  expect(await kept(page)).toContain('3.5 t');
  // What cannot be used any more does not take its place.
  text = '{';
  await page.reload();
  await expect(page.locator('.notice.fault')).toContainText('cannot be used');
  await expect(page.locator('main dl.block')).toContainText('Their yard');
  expect(await kept(page)).toContain('3.5 t');
});

test('where its address gives no answer within three seconds the kept table is used, and it is said', async ({ page }) => {
  let answers = true;
  await page.route('**/theirs.json', (route) => (
    answers ? route.fulfill({ contentType: 'application/json', body: real('Their yard') }) : undefined
  ));
  await page.clock.install();
  await open(page, '#/table');
  await page.getByLabel('From an address').fill('/theirs.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await expect(page.getByText('Loaded “Their yard”')).toBeVisible();
  answers = false;
  await page.reload();
  await expect(page.getByText('Loading the table …').first()).toBeAttached();
  await page.clock.runFor(3_100);
  await expect(page.locator('main dl.block')).toContainText('Their yard');
  await expect(page.locator('main dl.block')).toContainText('its address gave no answer at this opening');
  await expect(page.locator('footer')).toContainText('its address gave no answer at this opening');
});

test('what to fill in next is told by column and by machine or attachment, with where it is found', async ({ page }) => {
  test.slow();
  await open(page, '#/table');
  const part = page.locator('#fill-next');
  await part.locator('summary').click();
  await expect(part.getByRole('status')).toContainText(/^Of 1\D?440 pairings, \d+ cannot be said yet\./, { timeout: 90_000 });
  const columns = part.locator('ol.next-facts').first().locator('li');
  await expect(columns).toHaveCount(8);
  await expect(columns.first()).toContainText(/not stated of \d+ (machine|attachment)s?; \d+ pairings? waits? for it/);
  await expect(columns.first()).toContainText('Where: ');
  await part.getByRole('button', { name: /^Show \d+ more$/ }).first().click();
  expect(await columns.count()).toBeGreaterThan(8);
  await picture(page, '22-fill-next');
});
