import type { Page } from '@playwright/test';
import { expect, open, test, worked } from './helpers';

/** Watches for what jumps and for what holds up the page, from the first line of it on. */
async function watch(page: Page) {
  await page.addInitScript(() => {
    const seen = ((window as any).seen = { shifts: [] as string[], shifted: 0, gaps: [] as number[] });
    const note = (entries: any[]) => {
      for (const entry of entries) {
        if (entry.hadRecentInput) continue;
        seen.shifted += entry.value;
        seen.shifts.push(`${entry.value.toFixed(4)} ${entry.sources.map((source: any) => source.node?.className || source.node?.nodeName).join(', ')}`);
      }
    };
    const observer = new PerformanceObserver((list) => note(list.getEntries()));
    observer.observe({ type: 'layout-shift', buffered: true });
    // What has been seen and not been told yet counts as well.
    (window as any).look = () => { note(observer.takeRecords()); return seen; };
    let last = performance.now();
    const frame = () => {
      seen.gaps.push(performance.now() - last);
      last = performance.now();
      requestAnimationFrame(frame);
    };
    requestAnimationFrame(frame);
  });
}

const seen = (page: Page) => page.evaluate(() => (window as any).look());

/** Waits for a frame since the last time that this was asked: the longest, and what nineteen of twenty stay below. */
async function waits(page: Page) {
  const gaps: number[] = await page.evaluate(() => (window as any).seen.gaps.splice(0));
  gaps.sort((a, b) => a - b);
  return { longest: Math.round(gaps.at(-1) ?? 0), usual: Math.round(gaps[Math.floor(gaps.length * 0.95)] ?? 0) };
}

/** How long a fixed piece of work takes here and now, ms: the middle of five. */
const fixedWork = (page: Page) => page.evaluate(() => {
  const times = Array.from({ length: 5 }, () => {
    const began = performance.now();
    let sum = 0;
    for (let i = 0; i < 2e6; i++) sum = (sum + Math.sqrt(i)) % 1000;
    return performance.now() - began + sum * 1e-9;
  });
  return times.sort((a, b) => a - b)[2];
});

for (const [name, fragment] of [
  ['start', ''], ['a machine', '#/machine/quern-q27'], ['an attachment', '#/attachment/thistlecut-r60'],
  ['the work', '#/work?material=stems'], ['a sheet', '#/machine/quern-q56/thistlecut-r90'], ['side by side', '#/compare/quern-q27/wrackline-b12,thistlecut-r60'],
]) {
  test(`invariant: nothing jumps while it is solved, on a slow phone: ${name}`, async ({ page }) => {
    await watch(page);
    const client = await page.context().newCDPSession(page);
    await client.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await open(page, fragment);
    await expect(page.locator('[aria-busy="true"]')).toHaveCount(0, { timeout: 40_000 });
    await worked(page);
    const { shifted, shifts } = await seen(page);
    // A tenth is what is held for good (web.dev, cumulative layout shift); nothing at all is ours, but for a hair.
    expect(shifted, shifts.join('\n')).toBeLessThan(0.02);
  });
}

/** The demo table with each attachment many times under other names. */
async function manyAttachments(page: Page, times: number) {
  await page.route('**/table/demo.json', async (route) => {
    const table = await (await route.fetch()).json();
    table.heads = Array.from({ length: times }, (_, round) =>
      table.heads.map((head: any) => ({ ...head, id: `${head.id}-${round}`, model: `${head.model} ${round}` }))).flat();
    await route.fulfill({ json: table });
  });
}

test('invariant: five hundred attachments stay smooth', async ({ page }) => {
  test.slow();
  await manyAttachments(page, 13);
  await watch(page);
  await open(page);
  await page.getByLabel('Search maker, model, class, mass or power').fill('qu 27');
  const before = await fixedWork(page);
  await waits(page);
  await page.getByRole('link', { name: /Quern QU 27/ }).click();
  // The page answers while it solves, and says how far it is where that takes a while.
  await expect(page.locator('.tally')).toContainText(/Solving 520 circuits … \d+ done|520 attachments/);
  await expect(page.locator('[aria-busy="true"]')).toHaveCount(0, { timeout: 60_000 });
  await expect(page.locator('.fit')).toHaveCount(520);
  const solving = await waits(page);
  for (let y = 0; y < 30_000; y += 3000) await page.evaluate((y) => { scrollTo(0, y); return new Promise(requestAnimationFrame); }, y);
  await page.evaluate(() => scrollTo(0, 0));
  await page.getByRole('button', { name: /^fits after changes/ }).click();
  await expect(page.locator('.tally')).toContainText(/\d+ of 520 attachments shown/);
  await page.getByText('Narrow the list').click();
  await page.getByLabel('Name').fill('wrack 7');
  await expect(page.locator('.fit').first()).toContainText('Wrackline');
  const using = await waits(page);
  const work = Math.max(before, await fixedWork(page));
  console.log('520 attachments, ms for a frame', JSON.stringify({ solving, using, work }));
  // A tenth of a second is what a person takes for at once (Nielsen 1993); twice that, as two tests share a machine here, and more where the
  // machine itself is slower than one that does the fixed work in 30 ms.
  const most = 200 * Math.max(1, work / 30);
  expect(solving.usual).toBeLessThan(most);
  expect(using.usual).toBeLessThan(most);
});
