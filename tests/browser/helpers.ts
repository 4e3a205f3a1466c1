import { test as base, expect, type Page } from '@playwright/test';

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

/** Keeps a picture of the screen as an artefact, to be looked at. */
export async function picture(page: Page, name: string) {
  const project = test.info().project.name;
  await page.screenshot({ path: `artefacts/${project}/${name}.png`, fullPage: true });
}

/** Fails when the page is wider than the screen. */
export async function fitsScreen(page: Page) {
  const wider = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  expect(wider).toBeLessThanOrEqual(0);
}

/** Opens the start screen and waits for the machines. */
export async function open(page: Page, fragment = '') {
  await page.goto(`./${fragment}`);
  await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
}
