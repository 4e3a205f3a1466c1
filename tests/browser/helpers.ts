import { test as base, expect, type Page } from '@playwright/test';

/** A test that fails on any uncaught error, panic, policy violation, or request to another origin. */
export const test = base.extend<{ quiet: void }>({
  quiet: [
    async ({ page, baseURL }, use) => {
      const noise: string[] = [];
      page.on('pageerror', (error) => noise.push(`uncaught: ${error.message}`));
      page.on('console', (message) => {
        // A browser reports each failed request as an error of its own; the app's own words are what is tested there.
        if (message.type() === 'error' && !/Failed to load resource/.test(message.text())) noise.push(message.text());
      });
      page.on('request', (request) => {
        const url = request.url();
        if (!url.startsWith(new URL(baseURL!).origin) && !url.startsWith('data:') && !url.startsWith('blob:')) {
          noise.push(`request to another origin: ${url}`);
        }
      });
      await use();
      expect(noise).toEqual([]);
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
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}
