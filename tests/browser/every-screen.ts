import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { expect, open, toItem, typeReading, unfold } from './helpers';

/** A screen of the app in one of its states, and the way there. */
export interface Screen {
  name: string;
  show: (page: Page) => Promise<void>;
}

// An address from a dealer's page, with a table that is not the one in use.
const STAMPED = '#/machine/quern-q27/thistlecut-r60?from=1/m08f44b07b5901a25~nYard_-u2014._spring~d20261125~ahttps-d-s-sdealer.example-syard.json-u3f.v-u3d.2/e0d2f1b69/c9e57940950f9535';

/** The list of all readings: behind a button on a phone, in sight at a desk. */
async function listOfAll(page: Page) {
  const all = page.getByRole('button', { name: /^All \d+ readings/ });
  if (await all.isVisible()) await all.click();
}

const HAND_OVER = '#/machine/quern-q56/thistlecut-r90/hand-over';

/** Waits until every circuit of a list is solved. */
async function solved(page: Page) {
  await expect(page.locator('.waiting, [aria-busy="true"]')).toHaveCount(0);
}

/** Opens an address and waits for what stands behind it. */
function at(fragment: string, then?: (page: Page) => Promise<void>) {
  return async (page: Page) => {
    await open(page, fragment);
    await solved(page);
    await then?.(page);
  };
}

/** Every screen, with its empty and faulty states. */
export const screens: Screen[] = [
  { name: 'start', show: at('') },
  { name: 'start-search', show: at('', (page) => page.getByLabel('Search maker, model, class, mass or power').fill('mini excavator')) },
  { name: 'start-nothing-found', show: at('', (page) => page.getByLabel('Search maker, model, class, mass or power').fill('no such thing')) },
  { name: 'attachments', show: at('#/attachments') },
  { name: 'runs-on', show: at('#/attachment/thistlecut-r60') },
  { name: 'runs-on-none', show: at('#/attachment/wrackline-n200') },
  { name: 'work-nothing-named', show: at('#/work') },
  { name: 'work', show: at('#/work?material=stems&thickness=80', async (page) => {
    await expect(page.locator('.for-it .answer').filter({ hasText: '…' })).toHaveCount(0);
  }) },
  { name: 'what-fits', show: at('#/machine/quern-q27') },
  { name: 'what-fits-narrowed', show: at('#/machine/quern-q27?kind=breaker&changes=1&stock=yes') },
  { name: 'what-fits-nothing', show: at('#/machine/quern-q27?name=nosuchthing') },
  { name: 'what-fits-chosen', show: at('#/machine/quern-q27', async (page) => {
    for (const place of [0, 3]) await page.locator('.fit').nth(place).getByRole('checkbox').check();
  }) },
  { name: 'class-only', show: at('#/machine/any-mini-excavator') },
  { name: 'sheet-fits', show: at('#/machine/quern-q27/wrackline-b22') },
  { name: 'sheet-changes', show: at('#/machine/quern-q56/thistlecut-r90') },
  // Whatever is folded is unfolded, parts within parts too.
  { name: 'sheet-unfolded', show: at('#/machine/quern-q56/thistlecut-r90', async (page) => {
    for (let left = -1; left !== 0;) left = await page.evaluate(async () => {
      for (const fold of document.querySelectorAll<HTMLDetailsElement>('.pairing details:not([open])')) fold.open = true;
      await new Promise((done) => { setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(done))); });
      return document.querySelectorAll('.pairing details:not([open])').length;
    });
    await page.evaluate(() => { document.querySelector<HTMLDetailsElement>('.jump')!.open = false; });
  }) },
  { name: 'sheet-cannot-say', show: at('#/machine/quern-q27/saltmarsh-g25') },
  { name: 'sheet-does-not-fit', show: at('#/machine/quern-q27/wrackline-b45') },
  { name: 'sheet-reasoning', show: at('#/machine/quern-q27/thistlecut-r60', (page) => page.locator('.sentence button.number').first().click()) },
  { name: 'sheet-setting', show: at('#/machine/quern-q56/thistlecut-r90', async (page) => {
    await page.locator('.fold.change > summary').last().click();
    await page.locator('.fold.change .number').last().click();
  }) },
  { name: 'side-by-side-reasoning', show: at('#/compare/quern-q27/wrackline-b12,thistlecut-r60,pebblegate-a15', async (page) => {
    await unfold(page, 'All rows as a table');
    await page.locator('.compare tbody .number').first().click();
  }) },
  { name: 'side-by-side', show: at('#/compare/quern-q27/wrackline-b12,thistlecut-r60,pebblegate-a15') },
  { name: 'side-by-side-machines', show: at('#/compare/quern-q27/thistlecut-r60/quern-q56/thistlecut-r60') },
  { name: 'own', show: at('#/own') },
  { name: 'plate', show: at('#/own/new/mini-excavator') },
  { name: 'saved', show: async (page) => {
    await at('#/compare/quern-q27/wrackline-b12,thistlecut-r60')(page);
    await page.getByRole('button', { name: 'Save', exact: true }).click();
    await page.goto('./#/saved');
    await expect(page.locator('.kept')).toHaveCount(1);
  } },
  { name: 'start-again', show: async (page) => {
    await at('#/machine/quern-q27/thistlecut-r60')(page);
    await at('#/machine/quern-q56')(page);
    await page.goto('./#/');
    await expect(page.getByText('Opened last')).toBeVisible();
  } },
  { name: 'saved-empty', show: at('#/saved') },
  { name: 'table', show: at('#/table') },
  { name: 'import', show: at('#/table', async (page) => {
    await page.getByLabel('From a file').setInputFiles('../../public/table/workbook.xlsx');
    await expect(page.locator('.import .lead')).toContainText('nothing is open');
  }) },
  { name: 'import-asked', show: at('#/table', async (page) => {
    const rows = ['Make;Model;Type;Weight (kg);Aux flow;Relief (bar);Last checked;Colour;Hydraulic flow', 'Marram;OB 36;mini excavator;3640;62;215;3/4/2026;red;60',
      'Marram;OB 40;mini excavator;ask Bo;70;230;5/6/2026;blue;65'];
    await page.getByLabel('From a file').setInputFiles({ name: 'our machines.csv', mimeType: 'text/csv', buffer: Buffer.from(rows.join('\n')) });
    await page.getByRole('button', { name: 'L/min', exact: true }).first().click();
    await expect(page.locator('.answered li')).toHaveCount(1);
    await page.getByText(/columns as their headers say/).click();
  }) },
  { name: 'import-of-no-use', show: at('#/table', async (page) => {
    await page.getByLabel('From copied cells, with their headers').fill('Month\tSum\nMay\t12\nJune\t14\n');
    await page.getByRole('button', { name: 'Read the cells' }).click();
    await expect(page.locator('.import')).toBeVisible();
  }) },
  { name: 'import-no-file', show: at('#/table/import') },
  { name: 'table-file-refused', show: at('#/table', async (page) => {
    await page.getByLabel('From a file').setInputFiles({ name: 'old.xls', mimeType: 'application/octet-stream', buffer: Buffer.from('d0cf11e0a1b11ae1', 'hex') });
    await expect(page.locator('.notice.fault')).toBeVisible();
  }) },
  { name: 'entry-attachment', show: at('#/table/attachment/thistlecut-r60') },
  { name: 'entry-wrong', show: at('#/table/attachment/thistlecut-r60?fields=carrier_mass.least,carrier_mass.greatest', async (page) => {
    await page.getByLabel('Mass', { exact: true }).fill('310');
    await page.getByLabel('Flow, at least').fill('900 L/min');
    await page.getByLabel('Write another figure').selectOption({ label: 'What it demands, kinds of oil' });
    await expect(page.getByText(/changes not saved yet/)).toBeVisible();
  }) },
  { name: 'entry-machine', show: at('#/table/machine/quern-q27', (page) => page.locator('.fold.more > summary').filter({ hasText: 'Guards fitted' }).click()) },
  { name: 'entry-new', show: at('#/table/attachment', (page) => page.getByLabel('Model', { exact: true }).fill('Test 70')) },
  { name: 'entry-none', show: at('#/table/attachment/no-such-thing') },
  { name: 'snippet', show: at('#/snippet') },
  { name: 'fitters-sheet', show: at('#/machine/quern-q27/thistlecut-r60/fitter') },
  { name: 'fitters-sheet-cannot-say', show: at('#/machine/quern-q27/saltmarsh-g25/fitter') },
  { name: 'parts-list', show: at('#/machine/quern-q27/thistlecut-r60/parts') },
  { name: 'quotation', show: at('#/machine/quern-q27/thistlecut-r60/customer', (page) => page.getByText('Who offers').click()) },
  { name: 'card-for-the-cab', show: at('#/machine/quern-q27/thistlecut-r60/cab') },
  { name: 'quotation-of-several', show: at('#/quotation/quern-q27/wrackline-b12,thistlecut-r60') },
  { name: 'hand-over', show: at(HAND_OVER) },
  { name: 'hand-over-reading', show: at(HAND_OVER, (page) => toItem(page, 'Flow, loaded as at work, while a function moves')) },
  { name: 'hand-over-trial', show: at(HAND_OVER, async (page) => {
    await toItem(page, 'Stop without operator or current');
    await page.getByRole('button', { name: 'No', exact: true }).click();
  }) },
  { name: 'hand-over-caution', show: at(HAND_OVER, async (page) => {
    await listOfAll(page);
    await page.getByRole('button', { name: /^List B/ }).click();
    await page.getByText(/^First start: \d+ steps/).click();
  }) },
  // Off, over a limit and as it should be, with what may be wrong under it and the list of all.
  { name: 'hand-over-stop', show: at(HAND_OVER, async (page) => {
    const typed = { 'Oil at the start of the readings': '45', 'Flow, unloaded': '64', 'Flow, loaded as at work': '50', 'Back pressure, at work': '6,2', 'Case pressure, at work': '3.1' };
    for (const [name, text] of Object.entries(typed)) await typeReading(page, name, text);
    await expect(page.locator('.behind .fold').first()).toBeVisible({ timeout: 30_000 });
  }) },
  { name: 'hand-over-list', show: at(HAND_OVER, async (page) => {
    for (const [name, text] of Object.entries({ 'Flow, unloaded': '64', 'Case pressure, at work': '3.1' })) await typeReading(page, name, text);
    await listOfAll(page);
    await expect(page.locator('.suspects .fold').first()).toBeVisible({ timeout: 30_000 });
  }) },
  { name: 'hand-over-end', show: at(HAND_OVER, async (page) => {
    await typeReading(page, 'Flow, unloaded', '64');
    await listOfAll(page);
    await page.getByRole('button', { name: 'Who stands for it' }).click();
    await expect(page.getByText('Kept in this browser.')).toBeVisible();
  }) },
  ...[['paper', 'The whole record', 'Hand-over record'], ['customer', "Customer's page, to sign", 'Hand-over']].map(([whose, link, heading]) => ({
    name: `hand-over-${whose}`, show: async (page: Page) => {
      await at(HAND_OVER)(page);
      await typeReading(page, 'Flow, unloaded', '64');
      await listOfAll(page);
      await page.getByRole('link', { name: link }).click();
      await expect(page.getByRole('heading', { level: 1 })).toContainText(`${heading}: `);
    },
  })),
  { name: 'of-another-table', show: async (page) => {
    await open(page, STAMPED);
    await expect(page.getByRole('heading', { level: 1, name: 'Made with another table' })).toBeVisible();
  } },
  { name: 'link-of-another-table', show: async (page) => {
    const { link } = JSON.parse(readFileSync('../frozen/links.json', 'utf8'))[0];
    await open(page, `#${link}`);
    await expect(page.getByRole('heading', { level: 1, name: 'A link from another table' })).toBeVisible();
  } },
  { name: 'not-in-table', show: at('#/machine/no-such-machine') },
  { name: 'nothing-here', show: at('#/nowhere/at/all/here') },
];
