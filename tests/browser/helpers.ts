import { test as base, expect, type Locator, type Page } from '@playwright/test';

/**
 * A test that fails on any uncaught error, panic, policy violation, or request to another origin, in any tab of it.
 * A test of a fault says with `test.use({ expected: /…/ })` which noise belongs to it.
 */
export const test = base.extend<{ expected: RegExp; quiet: void }>({
  expected: [/(?!)/, { option: true }],
  quiet: [
    async ({ context, baseURL, expected }, use) => {
      const noise: string[] = [];
      const own = new URL(baseURL!).origin;
      context.on('weberror', (error) => noise.push(`uncaught: ${error.error().message}`));
      context.on('console', (message) => {
        // A browser reports each failed request as an error of its own; the app's own words are what is tested there.
        if (message.type() === 'error' && !/Failed to load resource/.test(message.text())) noise.push(message.text());
      });
      context.on('request', (request) => {
        const url = new URL(request.url());
        if (url.origin !== own && !['data:', 'blob:'].includes(url.protocol)) noise.push(`request to another origin: ${url}`);
      });
      await use();
      expect(noise.filter((line) => !expected.test(line))).toEqual([]);
    },
    { auto: true },
  ],
});

export { expect };

/**
 * Keeps a picture of the screen as an artefact, to be looked at, when `KEEP_PICTURES` asks for it: to take and pack the long ones takes
 * longer than many a test.
 */
export async function picture(page: Page, name: string) {
  if (!process.env.KEEP_PICTURES) return;
  const project = test.info().project.name;
  await page.screenshot({ path: `artefacts/${project}/${name}.png`, fullPage: true, scale: 'css' });
}

const sizes = [{ width: 1280, height: 800 }, { width: 360, height: 740 }];

/** Fails when the page is wider than the screen: as it is shown, at a desk and on a phone. */
export async function fitsScreen(page: Page) {
  const own = page.viewportSize()!;
  const others = sizes.filter((size) => size.width !== own.width);
  for (const size of [own, ...others]) {
    if (size !== own) await page.setViewportSize(size);
    const wider = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
    expect(wider, `${size.width} px wide`).toBeLessThanOrEqual(0);
  }
  await page.setViewportSize(own);
}

/** What is queued in the page runs, and what it changes is drawn. The page says when, not a clock. */
export async function worked(page: Page) {
  await page.evaluate(() => new Promise<void>((done) => {
    setTimeout(() => requestAnimationFrame(() => requestAnimationFrame(() => done())));
  }));
}

/**
 * From now on the pages of this tab note what their requests have answered. Gives what waits until one whose address holds these
 * words has been read to its end by the page, or refused, and until the page has worked off what follows from that.
 */
export async function notesAnswers(page: Page) {
  await page.addInitScript(() => {
    const read = ((window as any).read = [] as string[]);
    for (const how of ['text', 'json', 'blob', 'arrayBuffer'] as const) {
      const real = Response.prototype[how];
      Response.prototype[how] = function (this: Response) {
        return real.call(this).finally(() => read.push(this.url)) as any;
      };
    }
    const fetched = window.fetch;
    window.fetch = async (...asked) => {
      const answer = await fetched(...asked);
      if (!answer.ok) read.push(answer.url);
      return answer;
    };
  });
  return async (words: string) => {
    await page.waitForFunction((words) => (window as any).read.some((address: string) => address.includes(words)), words);
    await worked(page);
  };
}

/** The table beside the app from now on has its first attachments only, where what is solved for all of them is not what is tried. */
export async function fewAttachments(page: Page) {
  await page.route('**/table/demo.json', async (route) => {
    const answer = await route.fetch();
    const table = await answer.json();
    await route.fulfill({ response: answer, json: { ...table, heads: table.heads.slice(0, 4) } });
  });
}

/** Unfolds a part of a sheet by its name; one that is open stays open. */
export async function unfold(sheet: Page | Locator, name: string) {
  const summary = sheet.locator('details.fold > summary').filter({ hasText: name }).first();
  if (!(await summary.evaluate((it) => (it.parentElement as HTMLDetailsElement).open))) await summary.click();
}

/** Goes to a reading or a trial of a hand-over by its name in the list of all, past what is to be heard before it. */
export async function toItem(page: Page, name: string) {
  const row = page.locator('.items').getByRole('button').filter({ has: page.getByText(name, { exact: true }) });
  await expect(page.locator('#station').or(row).first()).toBeAttached();
  // On a phone the list stands in the place of what one reads.
  if (!(await row.isVisible())) await page.getByRole('button', { name: /^All \d+ readings/ }).click();
  await row.click();
  if (await page.locator('.station.caution').isVisible()) await page.getByRole('button', { name: 'Next', exact: true }).click();
  await expect(page.locator('.station:is(.reading, .trial) #station')).toBeFocused();
}

/** Types a reading of a hand-over. */
export async function typeReading(page: Page, name: string, text: string) {
  await toItem(page, name);
  await page.getByRole('textbox', { name, exact: true }).fill(text);
}

/** Words that are broken within themselves, where nothing in them says that they may be. */
export async function brokenWords(page: Page, within: string) {
  return page.evaluate((within) => {
    const broken: string[] = [];
    for (const root of document.querySelectorAll(within)) {
      const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) {
        const node = walker.currentNode as Text;
        if (!node.parentElement!.checkVisibility()) continue;
        for (const { 0: word, index } of node.data.matchAll(/[\p{L}\p{N}]+/gu)) {
          // An address, a fingerprint and a line of code are no words: they break anywhere.
          const [around] = node.data.slice(node.data.lastIndexOf(' ', index) + 1).split(' ');
          if (/[/.@]\p{L}|\p{N}\p{L}+\p{N}/u.test(around) || node.parentElement!.closest('pre, code')) continue;
          const range = document.createRange();
          range.setStart(node, index);
          range.setEnd(node, index + word.length);
          if (new Set([...range.getClientRects()].map((line) => Math.round(line.top))).size > 1) broken.push(word);
        }
      }
    }
    return broken;
  }, within);
}

/** Opens the start screen and waits for the machines. */
export async function open(page: Page, fragment = '') {
  await page.goto(`./${fragment}`);
  // The page's own markup stands until the app is there.
  await expect(page.locator('#starting')).toHaveCount(0);
  await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
}

/** A figure's field on a spec plate, in its last step: its line is opened, or the figure is chosen to be written. */
export async function onPlate(page: Page, name: string) {
  await page.getByRole('button', { name: '3 Answer' }).click();
  const written = page.locator('.written');
  const field = written.getByLabel(name, { exact: true });
  const other = written.getByLabel('Write another figure');
  if (!(await other.isVisible())) await written.locator(':scope > summary').click();
  if ((await field.count()) === 0) await other.selectOption({ label: name });
  else if (!(await field.isVisible())) await written.locator('.fold.more > summary').filter({ has: page.getByText(name, { exact: true }) }).click();
  await expect(field).toBeVisible();
  return field;
}
