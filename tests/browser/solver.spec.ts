// What takes time is solved beside the page: in a worker, or in the page itself where none can start.
import type { Page } from '@playwright/test';
import { expect, open, test } from './helpers';

const rows = (page: Page) => page.locator('.fit .row').evaluateAll((all) => all.map((row) => (row as HTMLElement).innerText));
const solved = (page: Page) => expect(page.locator('.list.fits').first()).toHaveAttribute('aria-busy', 'false', { timeout: 30_000 });

test('a list is the same whether a worker solves it or the page', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await solved(page);
  expect(page.workers()).toHaveLength(1);
  const inWorker = await rows(page);
  expect(inWorker).toHaveLength(40);

  await page.addInitScript(() => { (window as any).Worker = undefined; });
  await page.reload();
  await solved(page);
  expect(page.workers()).toHaveLength(0);
  expect(await rows(page)).toEqual(inWorker);
});

test.describe('a worker that does not work', () => {
  test.use({ expected: /solver-worker|Broken on purpose/ });

  test('cannot be fetched: the page solves by itself', async ({ page }) => {
    await page.route('**/solver-worker.js', (route) => route.fulfill({ status: 404, body: 'nothing here' }));
    await open(page, '#/machine/quern-q27');
    await solved(page);
    await expect(page.locator('.fit')).toHaveCount(40);
  });

  test('breaks down over its work: what was asked is answered by the page', async ({ page }) => {
    await page.route('**/solver-worker.js', async (route) => {
      const text = await (await route.fetch()).text();
      // It starts, and then fails with its first request.
      await route.fulfill({ contentType: 'text/javascript', body: text.replace('hear(data);', "throw new Error('Broken on purpose');") });
    });
    await open(page, '#/machine/quern-q27');
    await solved(page);
    await expect(page.locator('.fit')).toHaveCount(40);
  });
});

/** The worker waits with what it has worked out until it is let go; the first answers may pass. */
async function slowWorker(page: Page, passes: number) {
  await page.addInitScript((passes) => {
    const held: (() => void)[] = [];
    let left = passes;
    (window as any).letGo = () => { left = Infinity; held.splice(0).forEach((tell) => tell()); };
    const Real = window.Worker;
    window.Worker = class extends Real {
      set onmessage(take: any) {
        super.onmessage = (event: MessageEvent) => {
          if (event.data === 'ready' || left-- > 0) take.call(this, event);
          else held.push(() => take.call(this, event));
        };
      }
    } as any;
  }, passes);
  // A reply goes as soon as there is one, so that the first ones come before the others.
  await page.route('**/solver.js', async (route) => {
    const text = await (await route.fetch()).text();
    await route.fulfill({ contentType: 'text/javascript', body: text.replace('const TOLD = 300;', 'const TOLD = 0;') });
  });
  await page.route('**/solver-worker.js', async (route) => {
    const text = await (await route.fetch()).text();
    await route.fulfill({ contentType: 'text/javascript', body: text.replace('const STRETCH = 50;', 'const STRETCH = 0.01;') });
  });
}

test('what is known stands while the rest is solved, and moves for nobody who has a finger on it', async ({ page }) => {
  await slowWorker(page, 12);
  await open(page, '#/machine/quern-q27');
  const list = page.locator('.list.fits').first();
  await expect(list).toHaveAttribute('aria-busy', 'true');
  await expect(page.locator('.tally')).toContainText(/\d+ done/);
  const first = page.locator('.fit .row').first();
  await expect(first).toBeVisible();
  await expect(page.locator('.list .to-come').first()).toBeAttached();
  const stands = await rows(page);
  expect(stands.length).toBeLessThan(40);
  await first.focus();
  await page.evaluate(() => (window as any).letGo());
  await solved(page);
  await expect(page.locator('.fit')).toHaveCount(40);
  expect((await rows(page))[0]).toBe(stands[0]);
  await expect(first).toBeFocused();
  await page.getByRole('button', { name: 'Put the list in order' }).click();
  await expect(page.getByRole('button', { name: 'Put the list in order' })).toHaveCount(0);
  await solved(page);
  const inOrder = await rows(page);
  await page.reload();
  await page.evaluate(() => (window as any).letGo());
  await solved(page);
  expect(await rows(page), 'untouched, it is put in order by itself').toEqual(inOrder);
});

test('what is typed while old answers stand is not taken for them: they turn grey', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await solved(page);
  await page.getByText('Narrow the list').click();
  await page.getByLabel('Name').fill('thistle');
  await expect(page.locator('.fit').first()).toContainText('Thistlecut');
  await solved(page);
  await expect(page.locator('.list.old')).toHaveCount(0);
  expect(await page.locator('.fit').count()).toBeLessThan(40);
});

test('the first screen stands before the program is there, and takes what is typed into it along', async ({ page }) => {
  let letGo = () => {};
  const held = new Promise<void>((resolve) => { letGo = resolve; });
  await page.route('**/*.wasm', async (route) => {
    await held;
    await route.continue();
  });
  await page.goto('./');
  const search = page.getByLabel('Search maker, model, class, mass or power');
  await search.pressSequentially('qu 2');
  const where = () => page.evaluate(() => ['h1', '.other-ways', '#search', '.head'].map((what) => {
    const box = document.querySelector(what)!.getBoundingClientRect();
    return [what, Math.round(box.x), Math.round(box.y), Math.round(box.width), Math.round(box.height)];
  }));
  const before = await where();
  letGo();
  await expect(page.locator('.machines .row').first()).toContainText('Quern QU 2');
  await expect(search).toHaveValue('qu 2');
  await expect(search).toBeFocused();
  expect(await where(), 'nothing jumps as the app takes over').toEqual(before);
  await page.keyboard.type('7');
  await expect(page.locator('.machines .row').first()).toContainText('Quern QU 27');
});

/** Opens the start with the app's own program held back: only the search of the first screen is there. */
async function openBeforeTheApp(page: Page) {
  let letGo = () => {};
  const held = new Promise<void>((resolve) => { letGo = resolve; });
  const asked: string[] = [];
  page.on('request', (request) => asked.push(new URL(request.url()).pathname));
  await page.route('**/pairwright-app-*.wasm', async (route) => {
    await held;
    await route.continue();
  });
  await page.goto('./');
  await expect(page.locator('#first-screen .machines .row')).toHaveCount(8);
  return { letGo, asked };
}

test('machines are found before the program is there, and it goes on with what was typed and chosen', async ({ page }) => {
  const { letGo, asked } = await openBeforeTheApp(page);
  const search = page.getByLabel('Search maker, model, class, mass or power');
  await search.pressSequentially('8 t');
  await expect(page.locator('.machines .row').first()).toContainText('Orrin Bay OB 78');
  await page.getByRole('button', { name: 'Wheel loader' }).click();
  await expect(page.getByRole('button', { name: 'Wheel loader' })).toHaveAttribute('aria-pressed', 'true');
  const stands = () => page.evaluate(() => [...document.querySelectorAll('main h1, .search, .chip, .machines .row, .machines span, main [role=status]')].filter((element) => element.checkVisibility()).map((element) => {
    const box = element.getBoundingClientRect();
    return [element.textContent!.trim(), Math.round(box.x), Math.round(box.y), Math.round(box.width), Math.round(box.height)];
  }));
  const before = await stands();
  expect(before.length).toBeGreaterThan(15);
  letGo();
  await expect(page.locator('#first-screen')).toHaveCount(0);
  await expect(page.locator('.machines .row').first()).toBeVisible();
  expect(await stands(), 'the app says the same at the same place').toEqual(before);
  await page.getByRole('button', { name: 'Wheel loader' }).click();
  await expect(page.locator('.machines .row').first()).toContainText('Orrin Bay OB 78');
  expect(asked.filter((path) => path.endsWith('demo.json')), 'the table is fetched once').toHaveLength(1);
});

test('a machine that is chosen before the program is there opens with it', async ({ page }) => {
  const { letGo } = await openBeforeTheApp(page);
  await page.locator('.machines .row').first().click();
  await expect(page.getByRole('status')).toContainText('Loading the app');
  await expect(page.locator('#first-screen')).toHaveCount(0);
  letGo();
  await expect(page.locator('.fit').first()).toBeVisible();
});

test('where the search of the first screen cannot be had, the app finds the machines', async ({ page }) => {
  await page.route('**/pairwright-finder-*', (route) => route.abort());
  await page.goto('./');
  await expect(page.locator('.machines .row').first()).toBeVisible();
});

test('another screen than the first one does not show the first one before', async ({ page }) => {
  await page.route('**/*.wasm', () => {});
  await page.goto('./#/machine/quern-q27');
  await expect(page.getByRole('status')).toContainText('Loading the app');
  await expect(page.getByRole('heading', { name: 'Which machine?' })).toHaveCount(0);
});
