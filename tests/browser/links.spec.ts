import { readFileSync } from 'node:fs';
import { expect, fewAttachments, fitsScreen, onPlate, open, picture, test } from './helpers';

const table = (body: object) => ({
  name: 'yard.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(body)),
});

/** The link that a screen offers. */
async function linkOf(page) {
  await page.getByText('Send a link').click();
  await expect(page.getByLabel('Link', { exact: true })).toHaveValue(/#\/link\/\d\//);
  return page.getByLabel('Link', { exact: true }).inputValue();
}

const kept = (page) => page.evaluate(() => JSON.stringify({ ...localStorage }));

test('invariant: a link opens the same sheet and changes nothing that is kept', async ({ page, context }) => {
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  const address = await linkOf(page);
  expect(address.length).toBeLessThanOrEqual(2000);
  await expect(page.locator('.qr')).toBeVisible();
  await page.locator('.send').last().scrollIntoViewIfNeeded();
  await picture(page, '40-send');
  await fitsScreen(page);
  const before = await kept(page);
  const other = await context.newPage();
  await other.goto(address);
  await expect(other.getByRole('heading', { level: 1, name: /Thistlecut TI 60/ })).toBeVisible();
  await expect(other.locator('.sent')).toContainText('Nothing of yours is changed by it.');
  await picture(other, '41-opened');
  await fitsScreen(other);
  expect(await kept(other)).toBe(before);
});

test('a comparison can be sent, and is copied', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await open(page, '#/compare/quern-q27/thistlecut-r60,wrackline-f80');
  const address = await linkOf(page);
  await page.getByRole('button', { name: 'Copy the link' }).click();
  await expect(page.getByText('The link is copied.')).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(address);
  await page.goto(address);
  await expect(page.locator('.sent')).toBeVisible();
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
});

test("the device's own way of sharing is used where there is one", async ({ page }) => {
  await page.addInitScript(() => {
    (navigator as any).share = async (what: unknown) => { (window as any).shared = what; };
  });
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  const address = await linkOf(page);
  await page.getByRole('button', { name: 'Share …' }).click();
  expect(await page.evaluate(() => (window as any).shared.url)).toBe(address);
});

test('a machine of my own goes along only when I ask, and is kept there only when the reader asks', async ({ page, browser }) => {
  await fewAttachments(page);
  await open(page, '#/own/new/mini-excavator');
  const mass = await onPlate(page, 'Operating mass');
  await mass.fill('2.7 t');
  await (await onPlate(page, 'Auxiliary flow, greatest')).fill('45 L/min');
  await page.getByLabel('Name').fill('Old digger');
  await page.getByLabel('Name').blur();
  await page.getByRole('link', { name: 'See what fits, with reasons' }).click();
  await page.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  const without = await linkOf(page);
  await page.getByRole('checkbox', { name: /With the figures of this machine/ }).check();
  await expect(page.getByLabel('Link', { exact: true })).not.toHaveValue(without);
  const address = await page.getByLabel('Link', { exact: true }).inputValue();
  expect(address.length).toBeGreaterThan(without.length);
  // Somebody else's browser.
  const theirs = await (await browser.newContext()).newPage();
  await fewAttachments(theirs);
  await theirs.goto(new URL(address, page.url()).href);
  await expect(theirs.getByRole('heading', { level: 1, name: /Old digger/ })).toBeVisible();
  expect(await theirs.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('.machine.')))).toEqual([]);
  await theirs.getByRole('button', { name: 'Keep “Old digger” with your own machines' }).click();
  await expect(theirs.getByRole('link', { name: /You keep this machine/ })).toBeVisible();
  expect(await theirs.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('.machine.')).length)).toBe(1);
  await theirs.getByRole('link', { name: /You keep this machine/ }).click();
  await expect(theirs.getByLabel('Operating mass', { exact: false }).first()).toHaveValue('2.7 t');
  await expect(theirs.getByLabel('Auxiliary flow, greatest')).toHaveValue('45 L/min');
  await theirs.context().close();
});

test('a link whose table has changed says so, and what comes out otherwise', async ({ page }) => {
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  const address = await linkOf(page);
  const demo = await page.evaluate(async () => (await fetch('table/demo.json')).json());
  // The machine is told to be much weaker than when the link was made.
  const machine = demo.carriers.find((one: any) => one.id === 'quern-q27');
  machine.circuits = machine.circuits.map((circuit: any) => ({ ...circuit, relief: '60 bar', relief_range: '50..60 bar' }));
  await page.goto('./#/table');
  await page.getByLabel('From a file').setInputFiles(table(demo));
  await expect(page.getByText(/^Loaded “/)).toBeVisible();
  await page.goto(address);
  await expect(page.locator('.sent')).toContainText('another state of the table');
  await expect(page.locator('.sent li')).toContainText('Thistlecut TI 60');
  await expect(page.locator('.sent')).toContainText('The table has changed since.');
  await picture(page, '42-other-table');
});

test('invariant: a link of another table is told before anything of it is shown, and its table is fetched only when asked', async ({ page, browser }) => {
  const asked: string[] = [];
  await page.route('**/theirs.json', async (route) => {
    const demo = await (await fetch(new URL('table/demo.json', page.url()))).json();
    const theirs = demo.carriers.map((one: any) => (one.id === 'quern-q27' ? { ...one, model: 'Another 27', operating_mass: '2901 kg' } : one));
    await route.fulfill({ json: { ...demo, title: 'Theirs', invented: false, carriers: theirs } });
  });
  await open(page, '#/table');
  await page.getByLabel('From an address').fill('/theirs.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await expect(page.getByText('Loaded “Theirs”')).toBeVisible();
  await page.goto('./#/machine/quern-q27/thistlecut-r60');
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Another 27');
  const address = await linkOf(page);
  const context = await browser.newContext({ baseURL: test.info().project.use.baseURL });
  const reader = await context.newPage();
  reader.on('request', (request) => { if (request.url().includes('theirs.json')) asked.push(request.url()); });
  await reader.goto(new URL(address, page.url()).href);
  await expect(reader.getByRole('heading', { level: 1, name: 'A link from another table' })).toBeVisible();
  await expect(reader.locator('.sent')).toContainText('Made with another table, “Theirs”');
  await expect(reader.locator('.sentence')).toHaveCount(0);
  expect(asked).toEqual([]);
  await reader.getByRole('button', { name: 'Show it with the table in use' }).click();
  await expect(reader.locator('.sentence')).toBeVisible();
  await expect(reader.getByRole('heading', { level: 1 })).not.toContainText('Another 27');
  expect(asked).toEqual([]);
  await context.close();
});

test('a machine that came in a link is marked wherever its verdict stands, until somebody has checked it', async ({ page, browser }) => {
  const words = 'came in a link and are somebody else';
  await fewAttachments(page);
  await open(page, '#/own/new/mini-excavator');
  await (await onPlate(page, 'Operating mass')).fill('2,7 t');
  await page.getByLabel('Name').fill('Old digger');
  await page.getByLabel('Name').blur();
  await page.getByRole('link', { name: 'See what fits, with reasons' }).click();
  await expect(page.getByText(words)).toHaveCount(0);
  await page.locator('.fit a.row').first().click();
  await page.getByText('Send a link').click();
  await page.getByRole('checkbox', { name: /With the figures of this machine/ }).check();
  const address = await page.getByLabel('Link', { exact: true }).inputValue();
  const context = await browser.newContext({ baseURL: test.info().project.use.baseURL });
  const theirs = await context.newPage();
  await fewAttachments(theirs);
  await theirs.goto(new URL(address, page.url()).href);
  await expect(theirs.locator('.sentence .whose')).toContainText(words);
  await theirs.getByRole('link', { name: 'Quotation' }).click();
  await expect(theirs.locator('.paper .whose')).toContainText(words);
  await theirs.goBack();
  await theirs.locator('.path').getByRole('link', { name: 'Old digger' }).click();
  await expect(theirs.locator('.whose')).toContainText(words);
  await theirs.goBack();
  await theirs.getByRole('button', { name: 'Keep “Old digger” with your own machines' }).click();
  await theirs.getByRole('link', { name: /You keep this machine/ }).click();
  await expect(theirs.getByText(words)).toBeVisible();
  const fits = theirs.getByRole('link', { name: 'See what fits, with reasons' });
  await fits.click();
  await expect(theirs.locator('.whose')).toContainText(words);
  await theirs.getByRole('link', { name: 'Edit its spec plate' }).click();
  await theirs.getByRole('button', { name: 'I have checked them at the machine' }).click();
  await expect(theirs.getByText(words)).toHaveCount(0);
  await fits.click();
  await expect(theirs.locator('.fit').first()).toBeVisible();
  await expect(theirs.getByText(words)).toHaveCount(0);
  await context.close();
});

test('an address that hides where it leads is shown as what it is, and one with unseen signs is not asked', async ({ page }) => {
  const asked: string[] = [];
  await open(page, '#/table');
  await expect(page.locator('main dl.block')).toBeVisible();
  // The app may still be fetching something of its own.
  const { origin } = new URL(page.url());
  page.on('request', (request) => { if (!request.url().startsWith(origin)) asked.push(request.url()); });
  for (const address of ['https://yard.exam\u202eple/t.json', 'https://yard.example\\@other.example/t.json', 'javascript:alert(1)']) {
    await page.getByLabel('From an address').fill(address);
    await page.getByRole('button', { name: 'Load', exact: true }).click();
    await expect(page.locator('.notice.fault')).toContainText('is no address of a table');
  }
  expect(asked).toEqual([]);
  // The browser itself asks no address with a name before the host.
  await page.getByLabel('From an address').fill('http://known.example@127.0.0.1:9/t.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await expect(page.locator('.notice.fault')).toContainText('(this leads to 127.0.0.1:9, whatever stands before the @)');
});

test('invariant: every link of an earlier version opens', async ({ page }) => {
  for (const { name, link, holds } of JSON.parse(readFileSync('../frozen/links.json', 'utf8'))) {
    await page.goto(`./#${link}`);
    await expect(page.locator('.sent'), name).toContainText('From a link. Nothing of yours is changed by it.');
    if (holds.machine.own) await expect(page.locator('.sent'), name).toContainText(holds.machine.own.name);
  }
});

for (const [what, spoil] of [
  ['cut', (address: string) => address.slice(0, -4)],
  ['altered', (address: string) => address.replace(/quern/, 'querm')],
  ['of a newer app', (address: string) => address.replace(/\/link\/\d\//, '/link/9/')],
] as const) {
  test(`a link that is ${what} says so`, async ({ page }) => {
    await open(page, '#/machine/quern-q27/thistlecut-r60');
    const address = await linkOf(page);
    const spoilt = spoil(address);
    expect(spoilt).not.toBe(address);
    await page.goto(spoilt);
    await expect(page.getByRole('heading', { level: 1, name: 'This link cannot be opened' })).toBeVisible();
    await expect(page.getByRole('link', { name: 'Choose a machine' })).toBeVisible();
  });
}

test('an enquiry is written to be read before, and nothing is sent from here', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  await page.getByText('Ask your dealer').click();
  await expect(page.locator('.letter')).toContainText('Quern QU 27');
  await expect(page.locator('.letter')).toContainText('#/link/3/');
  await expect(page.getByRole('link', { name: 'Write it as a mail' })).toHaveCount(0);
  await page.getByLabel("Your dealer's mail address").fill('no address');
  await expect(page.getByText('This is no mail address')).toBeVisible();
  await page.getByLabel("Your dealer's mail address").fill('yard@dealer.example');
  const mail = await page.getByRole('link', { name: 'Write it as a mail' }).getAttribute('href');
  expect(mail).toMatch(/^mailto:yard@dealer\.example\?subject=[^&]+&body=[^&]+$/);
  expect(mail!.length).toBeLessThan(1900);
  await page.getByRole('button', { name: 'Copy the text' }).click();
  await expect(page.getByText('The text is copied.')).toBeVisible();
  expect(await page.evaluate(() => navigator.clipboard.readText())).toContain('Quern QU 27');
  await picture(page, '43-enquiry');
  await fitsScreen(page);
  // The address is there the next time.
  await page.reload();
  await page.getByText('Ask your dealer').click();
  await expect(page.getByLabel("Your dealer's mail address")).toHaveValue('yard@dealer.example');
});

test('the lines to paste are those of what is shown', async ({ page, context }) => {
  await context.grantPermissions(['clipboard-read', 'clipboard-write']);
  await open(page, '#/table');
  await page.getByRole('link', { name: 'Put it into your own page' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'In your own page' })).toBeVisible();
  const live = page.locator('.live pairwright-fit');
  await expect(live.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
  await page.getByLabel('Machine', { exact: true }).selectOption('quern-q27');
  await expect(live.getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeVisible();
  await page.getByLabel('Units', { exact: true }).selectOption({ index: 2 });
  await page.getByLabel('Mail address for enquiries').fill('yard@dealer.example');
  await page.getByLabel('Mail address for enquiries').blur();
  await page.getByRole('checkbox', { name: 'Filters above the list' }).uncheck();
  await expect(live.locator('.filters')).toHaveCount(0);
  const lines = page.locator('.lines');
  await expect(lines).toContainText('carrier="quern-q27"');
  await expect(lines).toContainText('enquiry="yard@dealer.example"');
  await expect(lines).toContainText('show="machines own compare');
  await page.getByRole('button', { name: 'Copy the lines' }).click();
  await expect(page.getByText('The lines are copied.')).toBeVisible();
  const pasted = await page.evaluate(() => navigator.clipboard.readText());
  expect(pasted).toBe(await lines.innerText());
  await picture(page, '44-snippet');
  await fitsScreen(page);
  // Pasted into a page they do what was shown.
  await page.route('**/hosts/pasted/', (route) => route.fulfill({
    contentType: 'text/html', body: `<!doctype html><meta charset="utf-8"><title>Theirs</title><body>${pasted}`,
  }));
  await page.goto('/hosts/pasted/');
  await expect(page.locator('pairwright-fit').getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeVisible();
  await expect(page.locator('pairwright-fit').locator('.filters')).toHaveCount(0);
});
