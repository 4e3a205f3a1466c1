import { readFileSync } from 'node:fs';
import { expect, notesAnswers, open, picture, test } from './helpers';

const table = (body: object) => ({
  name: 'yard.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(body)),
});

test('a wrong table is refused with place and remedy, and the one in use stays', async ({ page }) => {
  await open(page, '#/table');
  await expect(page.locator('main').getByText('Yard table of the island works', { exact: true })).toBeVisible();
  await page.getByLabel('From a file').setInputFiles({
    name: 'broken.json', mimeType: 'application/json', buffer: Buffer.from('{"format": "pairwright.table",\n "version": 1,,}'),
  });
  const notice = page.locator('.notice.fault');
  await expect(notice).toContainText('broken.json cannot be used');
  await expect(notice).toContainText('line 2, column');
  await expect(notice).toContainText('To fix it');
  await picture(page, '20-broken-table');
  await expect(page.locator('main').getByText('Yard table of the island works', { exact: true })).toBeVisible();
});

test('a table with one bad machine is used without it, and the problem is named', async ({ page }) => {
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(table({
    format: 'pairwright.table', version: 1, title: 'Two machines',
    carriers: [
      { id: 'good', model: 'Good one', class: 'mini-excavator', operating_mass: '3 t' },
      { id: 'bad', model: 'Bad one', class: 'mini-excavator', operating_mass: '3' },
    ],
    heads: [],
  }));
  await expect(page.getByText('Loaded “Two machines”. Machines: 1, attachments: 0.')).toBeVisible();
  await expect(page.locator('.problem')).toContainText('/carriers/1/operating_mass');
  await expect(page.locator('.problem')).toContainText('add the unit');
  await picture(page, '21-table-with-a-problem');
  await page.getByRole('link', { name: 'Machines', exact: true }).click();
  await expect(page.getByRole('link', { name: /Good one/ })).toBeVisible();
});

for (const [what, address, words] of [
  ['answers 404', '/test/404', 'answers with status 404'],
  ['is no table', '/test/html', 'cannot be used'],
] as const) {
  test(`an address that ${what}`, async ({ page }) => {
    await open(page, '#/table');
    await page.getByLabel('From an address').fill(address);
    await page.getByRole('button', { name: 'Load', exact: true }).click();
    await expect(page.locator('.notice.fault')).toContainText(words);
    await expect(page.locator('.notice.fault')).toContainText('The table in use stays.');
    await expect(page.locator('main').getByText('Yard table of the island works', { exact: true })).toBeVisible();
  });
}

test.describe(() => {
  // The one request to another origin that the app makes is to the address that the person gave.
  test.use({ expected: /^request to another origin: http:\/\/127\.0\.0\.1:9\/none\.json$/ });

  test('an address that does not exist', async ({ page }) => {
    await open(page, '#/table');
    await page.getByLabel('From an address').fill('http://127.0.0.1:9/none.json');
    await page.getByRole('button', { name: 'Load', exact: true }).click();
    await expect(page.locator('.notice.fault')).toContainText('cannot be reached: check the address');
    await expect(page.locator('main').getByText('Yard table of the island works', { exact: true })).toBeVisible();
  });
});

test('an address that does not answer gives up after a while', async ({ page }) => {
  await page.clock.install();
  await open(page, '#/table');
  await page.getByLabel('From an address').fill('/test/silent');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await expect(page.getByRole('button', { name: 'Loading …' })).toBeVisible();
  await page.clock.runFor(16_000);
  await expect(page.locator('.notice.fault')).toContainText('does not answer within 15 seconds');
});

test("the app's own table is missing: it says so and can be asked for again", async ({ page }) => {
  let missing = true;
  await page.route('**/table/demo.json', (route) => (missing ? route.fulfill({ status: 404 }) : route.continue()));
  await open(page);
  await expect(page.getByRole('alert')).toContainText('status 404');
  missing = false;
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
});

async function compareTwo(page) {
  await open(page, '#/compare/quern-q27/thistlecut-r60,wrackline-f80');
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
  await page.getByLabel('Save under a name').fill('Terrace');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
}

test('storage that is full: not saved, said so, offered as a file', async ({ page }) => {
  await page.addInitScript(() => {
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
  });
  await compareTwo(page);
  await expect(page.locator('.notice.fault')).toContainText('full');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download it as a file' }).click();
  expect((await download).suggestedFilename()).toBe('Terrace.json');
});

test('storage that is denied: the app works, saving says so', async ({ page }) => {
  await page.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('denied', 'SecurityError'); } });
  });
  await compareTwo(page);
  await expect(page.locator('.notice.fault')).toContainText('allow local storage');
});

test('invariant: a damaged saved value is put aside, the others stay', async ({ page }) => {
  await compareTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.evaluate(() => localStorage.setItem('pairwright.saved.x', '{"format":"pairwright.sav'));
  await page.goto('./#/saved');
  await page.reload();
  await expect(page.locator('.notice.fault')).toContainText('damaged');
  await expect(page.getByRole('link', { name: /Terrace/ })).toBeVisible();
  const kept = await page.evaluate(() => localStorage.getItem('pairwright.aside.pairwright.saved.x.0'));
  expect(kept).toBe('{"format":"pairwright.sav');
  expect(await page.evaluate(() => localStorage.getItem('pairwright.saved.x'))).toBeNull();
});

test('a saved value of a newer version is left as it is', async ({ page }) => {
  await open(page);
  await page.evaluate(() => localStorage.setItem('pairwright.saved.y', '{"format":"pairwright.saved","version":9,"saved":{}}'));
  await page.reload();
  await expect(page.locator('.notice.fault')).toContainText('version 9');
  expect(await page.evaluate(() => localStorage.getItem('pairwright.saved.y'))).not.toBeNull();
});

test('deleting can be undone, and another tab sees what is saved', async ({ page, context }) => {
  await compareTwo(page);
  const other = await context.newPage();
  await other.goto('./#/saved');
  await expect(other.getByRole('link', { name: /Terrace/ })).toBeVisible();
  await page.goto('./#/saved');
  await page.getByRole('button', { name: 'Delete Terrace' }).click();
  await expect(page.getByRole('link', { name: /Terrace/ })).toHaveCount(0);
  await expect(other.getByRole('link', { name: /Terrace/ })).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('link', { name: /Terrace/ })).toBeVisible();
  await expect(other.getByRole('link', { name: /Terrace/ })).toBeVisible();
});

test('a table that the person loads stays, even when the own one comes later', async ({ page }) => {
  let release = () => {};
  const held = new Promise<void>((resolve) => { release = resolve; });
  await page.route('**/table/demo.json', async (route) => { await held; await route.continue(); });
  const answered = await notesAnswers(page);
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(table({
    format: 'pairwright.table', version: 1, title: 'Mine', carriers: [], heads: [],
  }));
  await expect(page.locator('dd').first()).toHaveText('Mine');
  release();
  await answered('table/demo.json');
  await expect(page.locator('dd').first()).toHaveText('Mine');
});

test('invariant: markup in a table stays text', async ({ page }) => {
  await open(page, '#/table');
  await page.getByLabel('From a file').setInputFiles(table({
    format: 'pairwright.table', version: 1, title: '<img src=x onerror=alert(1)>',
    carriers: [{ id: 'm', model: '<b>M</b>', class: 'skid-steer' }], heads: [],
  }));
  await expect(page.locator('dd').first()).toHaveText('<img src=x onerror=alert(1)>');
});

test('without WebAssembly the page says what to do', async ({ page }) => {
  await page.addInitScript(() => { Object.defineProperty(window, 'WebAssembly', { value: undefined }); });
  await page.goto('./');
  await expect(page.locator('#starting')).toContainText('no WebAssembly');
});

test.describe(() => {
  test.use({ expected: /panicked at|unreachable|RuntimeError/ });

  // The next element that the app makes cannot be made: the browser does not do what it must.
  const breaks = async (page, then: () => void) => {
    await page.evaluate(() => {
      window.scrollTo(0, document.body.scrollHeight);
      const real = Document.prototype.importNode;
      const clone = Node.prototype.cloneNode;
      const broken = () => {
        Document.prototype.importNode = real;
        Node.prototype.cloneNode = clone;
        throw new Error('broken');
      };
      Document.prototype.importNode = broken as any;
      Node.prototype.cloneNode = broken as any;
    });
    await page.evaluate(then);
  };

  test("in somebody else's page the banner stands where the eye is, too", async ({ page }) => {
    await page.goto('/hosts/plain/');
    await expect(page.locator('pairwright-fit .fit').first()).toBeVisible();
    // What holds fixed things back in many a page.
    await page.addStyleTag({ content: 'pairwright-fit { transform: translateX(0); }' });
    await breaks(page, () => document.querySelector('pairwright-fit')!.setAttribute('head', 'thistlecut-r60'));
    await expect(page.locator('#fault')).toBeInViewport({ ratio: 1 });
    await expect(page.locator('#fault').getByRole('link', { name: 'Export everything' })).toBeVisible();
  });

  test('a fault of its own is told where the eye is, with everything as a file and a reload', async ({ page }) => {
    await compareTwo(page);
    await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
    await page.goto('./#/machine/quern-q27/thistlecut-r60');
    await expect(page.locator('.sentence')).toBeVisible();
    await breaks(page, () => { location.hash = '#/table'; });
    const banner = page.locator('#fault');
    await expect(banner).toContainText('a fault of its own');
    await expect(banner).toBeInViewport({ ratio: 1 });
    const download = page.waitForEvent('download');
    await banner.getByRole('link', { name: 'Export everything' }).click();
    expect(readFileSync(await (await download).path(), 'utf8')).toContain('Terrace');
    await banner.getByRole('button', { name: 'Reload' }).click();
    await expect(page.getByRole('heading', { level: 1, name: 'The table' })).toBeVisible();
    await expect(page.locator('#fault')).toHaveCount(0);
  });
});
