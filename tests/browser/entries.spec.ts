import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { expect, fitsScreen, open, test, worked } from './helpers';

const DEMO = readFileSync('../../public/table/demo.json', 'utf8');

/** A file of the demo's entries, as a dealer's own. */
function yard(change: (table: any) => void = () => {}) {
  const table = JSON.parse(DEMO);
  table.title = 'Another yard';
  change(table);
  return { name: 'yard.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(table, null, 2)) };
}

async function load(page: Page, file: ReturnType<typeof yard>) {
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(file);
  await expect(page.getByText('Loaded “Another yard”')).toBeVisible();
}

/** The text of the table that is kept. */
const kept = (page: Page) => page.evaluate(() => JSON.parse(localStorage.getItem('pairwright.table') ?? 'null')?.table ?? null);

const attachment = (table: any, id: string) => table.heads.find((head: any) => head.id === id);

const save = (page: Page) => page.getByRole('button', { name: 'Save', exact: true });

test('an attachment of a loaded table is edited, checked as one types, and all else in the kept text stays', async ({ page }) => {
  const file = yard();
  await load(page, file);
  await page.goto('./#/attachment/thistlecut-r60');
  await page.getByRole('link', { name: 'Edit this entry' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('TI 60');
  await expect(page.getByText('The table “yard.json” is kept in this browser')).toBeVisible();
  const mass = page.getByLabel('Mass', { exact: true });
  await expect(mass).toHaveValue(attachment(JSON.parse(DEMO), 'thistlecut-r60').mass);
  await expect(save(page)).toBeDisabled();
  await mass.fill('310');
  await expect(save(page)).toBeDisabled();
  await expect(page.getByText('1 change not saved yet, 1 thing to put right first.')).toBeVisible();
  await page.getByRole('button', { name: '310 kg' }).click();
  await expect(mass).toHaveValue('310 kg');
  await save(page).click();
  await expect(page.locator('.notice')).toContainText('is changed in the table');
  const after = await kept(page);
  const before = file.buffer.toString();
  expect(after.origin).toBe('yard.json');
  expect(after.text).toBe(before.replace(new RegExp(`("id": "thistlecut-r60"[^]*?"mass": )"[^"]*"`), '$1"310 kg"'));
  await expect(save(page)).toBeDisabled();
  await page.reload();
  await expect(mass).toHaveValue('310 kg');
  await fitsScreen(page);
});

test('what is saved is taken back by Undo', async ({ page }) => {
  const file = yard();
  await load(page, file);
  await page.goto('./#/table/machine/quern-q27');
  const mass = page.getByLabel('Operating mass', { exact: true });
  const stood = await mass.inputValue();
  await mass.fill('2810 kg');
  await save(page).click();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(mass).toHaveValue(stood);
  expect((await kept(page)).text).toBe(file.buffer.toString());
});

test('the demo becomes a copy of its own with the first change, which is said before', async ({ page }) => {
  await open(page, '#/table/machine/quern-q27');
  await expect(page.getByText('With the first change you save, a copy of it is kept in this browser')).toBeVisible();
  await page.getByLabel('Circuit, greatest flow').fill('40 L/min');
  expect(await kept(page)).toBeNull();
  await save(page).click();
  await expect(page.locator('.notice')).toContainText('The table in use is a copy of your own now');
  expect((await kept(page)).origin).toBe('my-table.json');
  await page.goto('./#/table');
  await expect(page.locator('main dl.block')).toContainText('my-table.json');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download this table' }).click();
  const text = readFileSync(await (await download).path(), 'utf8');
  expect(JSON.parse(text).carriers.find((machine: any) => machine.id === 'quern-q27').circuits[0].flow).toBe('40 L/min');
});

test('an attachment is added, found in the lists, and deleted again', async ({ page }) => {
  await load(page, yard());
  await page.getByRole('link', { name: 'Add an attachment' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('A new attachment');
  await page.getByLabel('Model', { exact: true }).fill('Test 70');
  await expect(page.getByText('It must be there: the table cannot use the entry without it.')).toBeVisible();
  await page.getByLabel('Kind', { exact: true }).selectOption({ label: 'Flail mower' });
  await page.getByLabel('Flow, at least').fill('40 L/min');
  await page.getByLabel('Flow, at most').fill('30 L/min');
  await expect(page.getByText('expected is least ≤ rated ≤ greatest')).toBeVisible();
  await page.getByLabel('Flow, at most').fill('70 L/min');
  await save(page).click();
  await expect(page).toHaveURL(/#\/table\/attachment\/test-70$/);
  await page.getByRole('link', { name: 'What runs it' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Test 70');
  await worked(page);
  await page.getByRole('link', { name: 'Edit this entry' }).click();
  await page.getByRole('button', { name: 'Delete it from the table' }).click();
  await expect(page.locator('.notice')).toContainText('Test 70 is deleted from the table.');
  expect(attachment(JSON.parse((await kept(page)).text), 'test-70')).toBeUndefined();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.goto('./#/table/attachment/test-70');
  await expect(page.getByLabel('Flow, at most')).toHaveValue('70 L/min');
});

test('any other field of the format is written, of lists too', async ({ page }) => {
  await load(page, yard());
  await page.goto('./#/table/machine/quern-q27');
  const other = page.getByLabel('Write another figure');
  await other.selectOption({ label: 'Circuit 2, greatest flow' });
  await expect(other).toHaveValue('');
  await page.getByLabel('Circuit 2, greatest flow').fill('25 L/min');
  await other.selectOption({ label: 'Tank, spare return port, size' });
  await page.getByLabel('Tank, spare return port, size').fill('M27x2');
  // What goes with it is asked for where it stands.
  const thread = page.getByLabel('Tank, spare return port, thread or flange');
  await expect(page.getByText('It must be there')).toBeVisible();
  await thread.selectOption({ label: 'ISO 6149' });
  await save(page).click();
  const machine = JSON.parse((await kept(page)).text).carriers.find((one: any) => one.id === 'quern-q27');
  expect(machine.circuits[1]).toEqual({ id: 'aux-2', flow: '25 L/min' });
  expect(machine.tank.spare_port).toEqual({ size: 'M27x2', standard: 'iso-6149' });
});

test('what is typed and not saved stands there again when one comes back', async ({ page }) => {
  await open(page, '#/table/attachment/thistlecut-r60');
  await page.getByLabel('Mass', { exact: true }).fill('333 kg');
  await page.goto('./#/attachments');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which attachment?');
  await page.goBack();
  await expect(page.getByText('What you typed here before is not saved yet.')).toBeVisible();
  await expect(page.getByLabel('Mass', { exact: true })).toHaveValue('333 kg');
  await page.getByRole('button', { name: 'Drop it' }).click();
  await expect(page.getByLabel('Mass', { exact: true })).not.toHaveValue('333 kg');
  expect(await kept(page)).toBeNull();
});

test('where one thing about the attachment is to be found out, the sheet leads to its field', async ({ page }) => {
  await load(page, yard((table) => { delete attachment(table, 'thistlecut-r60').carrier_mass; }));
  await page.goto('./#/machine/quern-q27/thistlecut-r60');
  await expect(page.locator('.settling')).toContainText('the machine weight for which the attachment is made');
  await page.getByRole('link', { name: 'Write it into the table' }).click();
  const least = page.locator('.asked-for').getByLabel('Mass of the machine, at least');
  await least.fill('2 t');
  await page.locator('.asked-for').getByLabel('Mass of the machine, at most').fill('4,5 t');
  await save(page).click();
  await page.goto('./#/machine/quern-q27/thistlecut-r60');
  await worked(page);
  await expect(page.locator('.pairing')).not.toContainText('the machine weight for which the attachment is made');
});

test('an entry that is left out for an error is opened and put right', async ({ page }) => {
  await load(page, yard((table) => { attachment(table, 'thistlecut-r60').mass = 'heavy'; }));
  await page.locator('section').filter({ has: page.getByRole('heading', { name: 'Its machines and attachments' }) }).getByRole('link', { name: /TI 60/ }).click();
  await expect(page.getByLabel('Mass', { exact: true })).toHaveAttribute('aria-invalid', 'true');
  await page.getByLabel('Mass', { exact: true }).fill('280 kg');
  await save(page).click();
  await page.goto('./#/table');
  await expect(page.getByText('Left out for an error')).toHaveCount(0);
});

test('invariant: what another tab has saved meanwhile stays', async ({ page, context }) => {
  await load(page, yard());
  await page.goto('./#/table/attachment/thistlecut-r60');
  await page.getByLabel('Mass', { exact: true }).fill('311 kg');
  const other = await context.newPage();
  await open(other, '#/table/attachment/thistlecut-r60');
  await other.getByLabel('Stock').fill('two in the yard');
  await save(other).click();
  await expect(other.locator('.notice')).toContainText('is changed in the table');
  await save(page).click();
  await expect(page.locator('.notice')).toContainText('is changed in the table');
  const entry = attachment(JSON.parse((await kept(page)).text), 'thistlecut-r60');
  expect([entry.mass, entry.stock]).toEqual(['311 kg', 'two in the yard']);
});

test('what finds no room is used and handed out as a file', async ({ page }) => {
  await page.addInitScript(() => {
    const keep = Storage.prototype.setItem;
    Storage.prototype.setItem = function setItem(key: string, text: string) {
      if (key === 'pairwright.table') throw new DOMException('full', 'QuotaExceededError');
      keep.call(this, key, text);
    };
  });
  await open(page, '#/table/attachment/thistlecut-r60');
  await page.getByLabel('Mass', { exact: true }).fill('312 kg');
  await save(page).click();
  await expect(page.locator('.notice.fault')).toContainText('This browser has no room to keep it');
  await expect(page.getByLabel('Mass', { exact: true })).toHaveValue('312 kg');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download it as a file' }).click();
  expect(attachment(JSON.parse(readFileSync(await (await download).path(), 'utf8')), 'thistlecut-r60').mass).toBe('312 kg');
});
