import { readFileSync } from 'node:fs';
import { expect, test } from '../../helpers';

// A dealer whose machine has the id of one of the demo table, and is another machine.
const demo = JSON.parse(readFileSync('../../public/table/demo.json', 'utf8'));
const machine = { ...demo.carriers.find((one: any) => one.id === 'quern-q27'), maker: 'Dealer', model: 'Their 27', operating_mass: '2901 kg' };
const head = demo.heads.find((one: any) => one.id === 'thistlecut-r60');
const yard = { ...demo, title: "The dealer's yard", dealer: { name: 'Yard behind the dunes', address: '1 Dune Road' }, invented: false, carriers: [machine], heads: [head] };
const SHEET = 'a[href*="#/machine/quern-q27/thistlecut-r60"]';
const serve = (context: any, table: object) => context.route('**/hosts/dealer/yard.json', (route: any) => route.fulfill({ json: table }));

/** The app in a new tab, opened from a link of the element, and which tables it has asked for. */
async function opened(context: any, click: () => Promise<void>) {
  const asked: string[] = [];
  context.on('request', (request: any) => {
    if (/\.json$/.test(new URL(request.url()).pathname)) asked.push(new URL(request.url()).pathname);
  });
  const coming = context.waitForEvent('page');
  await click();
  const app = await coming;
  await expect(app.getByRole('heading', { level: 1 }).first()).toBeVisible();
  return { app, asked };
}

test("invariant: a dealer's sheet does not open with another table, and nothing of his is fetched before one asks", async ({ page, context }) => {
  await serve(context, yard);
  await page.goto('/hosts/dealer/');
  const element = page.locator('#yard');
  await element.locator(SHEET).first().click();
  await expect(element.getByRole('heading', { level: 1 })).toContainText('Dealer Their 27');
  for (const paper of ["Fitter's sheet", 'Quotation']) {
    const { app, asked } = await opened(context, () => element.getByRole('link', { name: paper }).click());
    await expect(app.getByRole('heading', { level: 1 })).toHaveText('Made with another table');
    await expect(app.locator('.sent')).toContainText("another table, “The dealer's yard”");
    await expect(app.locator('.sent')).toContainText('another machine or attachment under the same id');
    await expect(app.locator('.paper')).toHaveCount(0);
    expect(asked).toEqual(['/table/demo.json']);
    await app.getByRole('button', { name: /Load its table, in place of the one in use: http:.*\/hosts\/dealer\/yard\.json/ }).click();
    await expect(app.getByRole('heading', { level: 1 })).toContainText(`${paper}: `);
    await expect(app.getByRole('heading', { level: 1 })).toContainText('Dealer Their 27');
    expect(asked).toEqual(['/table/demo.json', '/hosts/dealer/yard.json']);
    // It is his paper, with his name where he offers, and prints by itself: the margins are those of a page.
    if (paper === 'Quotation') await expect(app.locator('.letterhead')).toContainText('Yard behind the dunes');
    await expect(app.locator('.paper .block').first()).toContainText('Dealer Their 27');
    expect(await app.evaluate(() => [...document.styleSheets[0].cssRules].at(-1)!.cssText)).toContain('Dealer Their 27 · serial');
    await app.evaluate(() => localStorage.clear());
    await app.close();
  }
});

test('whoever wants the table in use all the same is asked first, and the same entries need no asking', async ({ page, context }) => {
  await serve(context, yard);
  await page.goto('/hosts/dealer/');
  const link = page.locator('#yard').locator(SHEET).first();
  const address = await link.getAttribute('href');
  expect(address).toMatch(/#\/machine\/quern-q27\/thistlecut-r60\?from=1\/m[0-9a-f]{16}~n[^/]*~ahttp[^/]*\/e[0-9a-f]{8}\/[0-9a-f]{16}$/);
  const app = await context.newPage();
  await app.goto(address!);
  await app.getByRole('button', { name: 'Show it with the table in use' }).click();
  await expect(app.locator('.sentence')).toBeVisible();
  await expect(app.getByRole('heading', { level: 1 })).not.toContainText('Dealer');
  // Of a dealer who has just these entries in a table of his own.
  await context.unroute('**/hosts/dealer/yard.json');
  await serve(context, { ...demo, title: 'The same, elsewhere' });
  await page.reload();
  await expect(page.locator('#yard').locator(SHEET).first()).toBeVisible();
  const same = await page.locator('#yard').locator(SHEET).first().getAttribute('href');
  await app.goto('about:blank');
  await app.goto(same!);
  await expect(app.locator('.sentence')).toBeVisible();
  // One that was cut says so.
  await app.goto('about:blank');
  await app.goto(same!.slice(0, -3));
  await expect(app.getByRole('heading', { level: 1 })).toHaveText('This link cannot be opened');
  // One of an earlier version opens as it always did.
  await app.goto('about:blank');
  await app.goto('/#/machine/quern-q27/thistlecut-r60');
  await expect(app.locator('.sentence')).toBeVisible();
});

test('an element that shows nothing more leads nowhere', async ({ page, context }) => {
  await serve(context, yard);
  await page.goto('/hosts/dealer/');
  const bare = page.locator('#bare');
  await expect(bare.locator('.sentence')).toBeVisible();
  await expect(bare.getByRole('heading', { name: 'Danger' })).toBeVisible();
  await expect(bare.getByRole('link')).toHaveCount(0);
  await expect(bare.getByRole('heading', { name: 'Checks' })).toHaveCount(0);
  await page.evaluate(() => document.querySelector('#bare')!.setAttribute('show', 'papers'));
  await expect(bare.getByRole('link', { name: "Fitter's sheet" })).toBeVisible();
});

test.describe(() => {
  test.use({ expected: /^pairwright-fit: / });

  test("the faults of a dealer's table stand in the console of his page, one line a problem", async ({ page, context }) => {
    const lines: string[] = [];
    page.on('console', (message) => { if (/^pairwright-fit: /.test(message.text())) lines.push(`${message.type()} ${message.text()}`); });
    await serve(context, { ...yard, carriers: [machine, { ...machine, id: 'other', operating_mass: '3' }], partz: [] });
    await page.goto('/hosts/dealer/');
    await expect(page.locator('#bare .sentence')).toBeVisible();
    await expect.poll(() => lines.length).toBe(4);
    const of = (type: string) => lines.filter((line) => line.startsWith(type));
    expect(of('error')).toHaveLength(2);
    expect(of('error')[0]).toMatch(/\/hosts\/dealer\/yard\.json: error: .*\/carriers\/1\/operating_mass: found "3"; expected .*; to fix it: add the unit/);
    expect(of('warning')[0]).toMatch(/did you mean "parts"/);
    expect(lines.every((line) => !line.includes('\n'))).toBe(true);
  });
});
