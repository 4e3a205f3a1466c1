import type { APIRequestContext, BrowserContext, Page } from '@playwright/test';
import { expect, onPlate, open, picture, test } from './helpers';

test.use({ serviceWorkers: 'allow' });

const KEPT = 'Kept on this device: the app opens without a signal.';
const NEWER = 'A newer version of the app is ready.';

/** A host of this test alone. */
const site = () => `site/${test.info().testId}-${test.info().project.name}/`;
const change = (request: APIRequestContext, what: object) => request.put(`./test/${site().slice(0, -1)}`, { data: what });
const asked = async (request: APIRequestContext): Promise<string[]> => (await request.get(`./test/${site().slice(0, -1)}`)).json();
const build = (page: Page) => page.evaluate(() => document.documentElement.dataset.build);
const cacheNames = (page: Page) => page.evaluate(() => caches.keys());

/** Visits the app once, until it is kept. */
async function visit(page: Page, fragment = '') {
  await open(page, `${site()}#/table`);
  await expect(page.getByText(KEPT)).toBeVisible();
  if (fragment) await page.goto(`./${site()}${fragment}`);
}

/** Workers of a newer version, on their way or waiting. */
const coming = (page: Page) => page.evaluate(async () => {
  const { installing, waiting } = (await navigator.serviceWorker.getRegistration())!;
  return [installing, waiting].flatMap((worker) => worker?.state ?? []);
});

/** The notice with the newer version. */
const offered = (page: Page) => page.locator('.notice', { hasText: NEWER });

async function useIt(page: Page) {
  await offered(page).getByRole('button', { name: 'Use it now' }).click();
  await expect.poll(() => build(page).catch(() => '')).toBe('2');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}

test('what reads spreadsheets is kept when there is time, or when it is first used, and then works without a signal', async ({ page, context, request }) => {
  await visit(page);
  await page.waitForLoadState('networkidle');
  const program = async () => (await asked(request)).filter((path) => path.startsWith('pairwright-importer-'));
  // The visit itself does not pay for it.
  expect(await program()).toEqual([]);
  await page.evaluate(() => navigator.serviceWorker.controller!.postMessage({ keep: 'the rest' }));
  const names = () => page.evaluate(async () => (await Promise.all((await caches.keys()).map(async (name) => (await (await caches.open(name)).keys()).map((kept) => kept.url)))).flat());
  await expect.poll(async () => (await names()).filter((url) => url.includes('pairwright-importer-')).length).toBe(2);
  await context.setOffline(true);
  const before = (await program()).length;
  await page.reload();
  await page.getByLabel('From a file').setInputFiles({ name: 'yard.csv', mimeType: 'text/csv', buffer: Buffer.from('Model;Class;Weight (kg)\nOB 36;mini excavator;3640\n') });
  await expect(page.locator('.import .lead')).toContainText('1 machine');
  expect((await program()).length).toBe(before);
});

test('invariant: after one visit all but loading another table works without a signal', async ({ page, context, request }) => {
  await visit(page);
  // What the opening still asks, by its worker too, is no part of this.
  await page.waitForLoadState('networkidle');
  await expect.poll(() => coming(page)).toEqual([]);
  await context.setOffline(true);
  const before = (await asked(request)).length;
  await page.goto(`./${site()}`);
  await page.reload();
  // Machine, list and sheet.
  await page.getByLabel('Search maker, model, class, mass or power').fill('mini excavator');
  await page.getByRole('link', { name: /Quern QU 27/ }).click();
  await expect(page.locator('.fit').first()).toContainText(/fits( as it is|; \d+ points? to prove before work)/);
  await page.locator('.fit', { hasText: 'fits after changes' }).first().getByRole('link').click();
  await expect(page.locator('.stay')).toContainText('Fits after');
  await page.reload();
  await expect(page.locator('.stay')).toContainText('Fits after');
  // Side by side, saved.
  await page.goto(`./${site()}#/compare/quern-q27/thistlecut-r60,wrackline-f80`);
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
  await page.getByLabel('Save under a name').fill('Terrace');
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  // A machine of one's own.
  await page.goto(`./${site()}#/own/new/mini-excavator`);
  await (await onPlate(page, 'Auxiliary flow, greatest')).fill('62 L/min');
  await expect(page.getByText('Kept in this browser.')).toBeVisible();
  await page.reload();
  await page.goto(`./${site()}#/saved`);
  await page.reload();
  await page.getByRole('link', { name: /Terrace/ }).click();
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
  await page.goto(`./${site()}#/`);
  await expect(page.getByRole('link', { name: /^My mini excavator/ }).first()).toBeVisible();
  // The signal was truly cut: nothing of all this has come to the host. The browser itself may look for a newer worker: that is
  // not the app's asking, and goes past a signal that is cut for pages only.
  const since = (await asked(request)).slice(before);
  expect(since.filter((path) => !path.endsWith('worker.js'))).toEqual([]);
  await page.goto(`./${site()}#/table`);
  await page.getByLabel('From an address').fill('/table/demo.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await expect(page.locator('.notice.fault')).toContainText('cannot be reached');
  await expect(page.getByText(KEPT)).toBeVisible();
  await picture(page, '40-without-a-signal');
});

test('invariant: a first visit fetches program, script and style once, though they are kept as well', async ({ page, context, request }) => {
  await change(request, { mayKeep: true });
  await visit(page);
  const all = (await asked(request)).filter((name) => /^(pairwright-(app|finder)|app)-[0-9a-f]+/.test(name));
  expect(all.length).toBeGreaterThanOrEqual(5);
  expect(all.sort()).toEqual([...new Set(all)].sort());
  await context.setOffline(true);
  await page.reload();
  await expect(page.getByText(KEPT)).toBeVisible();
});

test('invariant: a newer version is offered, waits, and is used on a click; another tab goes on as it is', async ({ page, context, request }) => {
  await visit(page);
  const other = await context.newPage();
  await other.goto(`./${site()}#/`);
  await expect(other.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
  await other.evaluate(() => { document.documentElement.dataset.untouched = 'yes'; });
  await change(request, { version: 2 });
  await page.reload();
  await expect(offered(page)).toBeVisible();
  await picture(page, '41-newer-version');
  await page.reload();
  await expect(offered(page)).toBeVisible();
  expect(await build(page)).toBe('1');
  expect(await cacheNames(page)).toHaveLength(2);
  await useIt(page);
  await expect(offered(page)).toHaveCount(0);
  // The other tab still runs the old version, whose files are kept for it.
  expect(await other.evaluate(() => ({ ...document.documentElement.dataset }))).toMatchObject({ build: '1', untouched: 'yes' });
  await other.getByRole('link', { name: /Quern QU 27/ }).click();
  await expect(other.locator('.fit').first()).toContainText(/fits( as it is|; \d+ points? to prove before work)/);
  await page.reload();
  expect(await cacheNames(page)).toHaveLength(2);
  const old = await other.evaluate(() => document.querySelector<HTMLElement>('script[data-app]')!.dataset.app!);
  expect(await other.evaluate(async (address) => (await fetch(address)).status, old)).toBe(200);
  // It changes when it is asked to, and nothing of the old version stays.
  await useIt(other);
  await page.reload();
  await expect.poll(() => cacheNames(page)).toHaveLength(1);
  await context.setOffline(true);
  await page.reload();
  expect(await build(page)).toBe('2');
  await expect(page.getByText(KEPT)).toBeVisible();
});

test('a newer version takes over by itself once no tab is open', async ({ page, context, request }) => {
  await visit(page);
  await change(request, { version: 2 });
  await page.reload();
  await expect(offered(page)).toBeVisible();
  // Another page holds the window open while no tab of the app is.
  await context.newPage();
  await page.close();
  let later = await context.newPage();
  await expect.poll(async () => {
    await later.close();
    later = await context.newPage();
    await later.goto(`./${site()}`);
    return build(later);
  }).toBe('2');
  await expect.poll(() => cacheNames(later)).toHaveLength(1);
});

test('invariant: caches of other apps and of a copy in a folder below stay', async ({ page, context, request }) => {
  await visit(page);
  const foreign = ['other-app', 'pairwright:', 'pairwright:1', `pairwright:${new URL(page.url()).origin}/other/ 1`];
  await page.evaluate(async (names) => {
    for (const name of names) await (await caches.open(name)).put('/thing', new Response('theirs'));
  }, foreign);
  const copy = await context.newPage();
  await copy.goto(`./${site()}yard/tools/#/table`);
  await expect(copy.getByText(KEPT)).toBeVisible();
  const before = await cacheNames(page);
  expect(before).toHaveLength(6);
  await change(request, { version: 2 });
  await page.reload();
  await useIt(page);
  await expect.poll(async () => (await cacheNames(page)).length).toBe(6);
  const after = await cacheNames(page);
  const gone = before.filter((name) => !after.includes(name));
  expect(gone).toEqual([expect.stringMatching(new RegExp(`^pairwright:http.*/${site()} 1-`))]);
  await context.setOffline(true);
  await copy.reload();
  await expect(copy.getByText(KEPT)).toBeVisible();
  expect(await build(copy)).toBe('1');
});

test('invariant: only the start page is the app, with a query or as index.html; another page of the folder is never', async ({ page, context }) => {
  await visit(page);
  await page.goto(`./${site()}other.html`);
  await expect(page.getByRole('heading')).toHaveText('Another page of this folder');
  await context.setOffline(true);
  for (const address of ['other.html', 'nothing/', 'index.htm', 'table/']) {
    // In a tab of its own: the browser's page about the error comes when it likes.
    const lost = await context.newPage();
    await expect(lost.goto(`./${site()}${address}`), address).rejects.toThrow(/ERR_INTERNET_DISCONNECTED/);
    await lost.close();
  }
  for (const address of ['?from=mail', 'index.html', 'index.html?from=mail#/table']) {
    await page.goto(`./${site()}${address}`);
    await expect(page.getByRole('heading', { level: 1 }), address).toBeVisible();
  }
});

for (const [what, fault] of [
  ['lacks a file', { missing: ['icon-512.png'] }],
  ['still has the start page of the version before', { page: 1 }],
] as const) {
  test(`invariant: a host that ${what} leaves the version in use as it is`, async ({ page, context, request }) => {
    await visit(page);
    await change(request, { version: 2, asked: [], ...fault });
    await page.reload();
    // The newer worker has asked for all that there is, and has given up.
    await expect.poll(async () => (await asked(request)).filter((name) => name === 'icon-512.png').length).toBe(1);
    await expect.poll(() => coming(page)).toEqual([]);
    await expect(offered(page)).toHaveCount(0);
    expect(await cacheNames(page)).toHaveLength(1);
    await context.setOffline(true);
    await page.reload();
    await expect(page.getByText(KEPT)).toBeVisible();
    expect(await build(page)).toBe('1');
    await context.setOffline(false);
    await change(request, { missing: [], page: 0 });
    await page.reload();
    await expect(offered(page)).toBeVisible();
  });
}

test('a table that the host puts in the place of its own is used at the next opening, and kept', async ({ page, context, request }) => {
  await visit(page);
  const block = page.locator('main dl.block');
  await expect(block).toContainText('Yard table of the island works');
  await change(request, { table: 'Mended edition' });
  await page.reload();
  await expect(block).toContainText('Mended edition');
  // Neither a host that does not answer nor a page in its place takes it away.
  await change(request, { silent: ['table/demo.json'] });
  await page.reload();
  await expect(block).toContainText('Mended edition');
  await change(request, { silent: [], asPage: ['table/demo.json'] });
  await page.reload();
  await expect(block).toContainText('Mended edition');
  await context.setOffline(true);
  await page.reload();
  await expect(block).toContainText('Mended edition');
});

test('a newer version is looked for once an hour, when the tab is seen', async ({ page, request }) => {
  await page.clock.install();
  // What the app itself asks for is counted as it asks.
  await page.addInitScript(() => {
    (window as any).asks = 0;
    const update = ServiceWorkerRegistration.prototype.update;
    ServiceWorkerRegistration.prototype.update = function () { (window as any).asks += 1; return update.call(this); };
  });
  await visit(page);
  const looked = async () => (await asked(request)).filter((name) => name === 'worker.js').length;
  await change(request, { asked: [] });
  await page.reload();
  await expect(page.getByText(KEPT)).toBeVisible();
  // The browser's own look, at the opening, is over.
  await expect.poll(looked).toBeGreaterThan(0);
  await change(request, { version: 2, asked: [] });
  const seen = () => page.evaluate(() => document.dispatchEvent(new Event('visibilitychange', { bubbles: true })));
  const asks = () => page.evaluate(() => (window as any).asks);
  await page.clock.fastForward('30:00');
  await seen();
  expect(await asks()).toBe(0);
  expect(await looked()).toBe(0);
  await page.clock.fastForward('31:00');
  await seen();
  await expect(offered(page)).toBeVisible();
  await seen();
  expect(await asks()).toBe(1);
  expect(await looked()).toBe(1);
  expect(await build(page)).toBe('1');
});

test('a browser that keeps no app works as before', async ({ page }) => {
  await page.addInitScript(() => { delete (Navigator.prototype as { serviceWorker?: unknown }).serviceWorker; });
  await open(page, `${site()}#/table`);
  await expect(page.getByText('This browser does not keep the app')).toBeVisible();
  await expect(page.locator('.notice')).toHaveCount(0);
});

test('the browser is asked once, at the first save, not to throw away what is kept', async ({ page }) => {
  await page.addInitScript(() => {
    StorageManager.prototype.persist = async () => {
      document.documentElement.dataset.persist = `${Number(document.documentElement.dataset.persist ?? 0) + 1}`;
      return false;
    };
  });
  await open(page, `${site()}#/compare/quern-q27/thistlecut-r60,wrackline-f80`);
  const count = () => page.evaluate(() => document.documentElement.dataset.persist);
  expect(await count()).toBeUndefined();
  await page.getByRole('button', { name: 'Save', exact: true }).click();
  await expect.poll(count).toBe('1');
  await page.getByLabel('Save under a name').fill('Again');
  await page.getByRole('button', { name: /^Save/ }).first().click();
  await expect(page.getByText('Saved as “Again”')).toBeVisible();
  expect(await count()).toBe('1');
});

test('the app can be put on a home screen', async ({ page, context, request, baseURL }) => {
  await visit(page);
  const session = await context.newCDPSession(page);
  const { errors, url, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(url).toBe(`${baseURL}${site()}manifest.webmanifest`);
  const icons: { src: string; sizes: string; type: string }[] = JSON.parse(data!).icons;
  expect(icons).toHaveLength(4);
  for (const { src, sizes } of [...icons, { src: 'apple-touch-icon.png', sizes: '180x180' }]) {
    const picture = await request.get(`./${site()}${src}`);
    expect(picture.status()).toBe(200);
    if (!src.endsWith('.png')) continue;
    const bytes = await picture.body();
    expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`, src).toBe(sizes);
  }
  await expect(page.locator('link[rel="apple-touch-icon"]')).toHaveCount(1);
});
