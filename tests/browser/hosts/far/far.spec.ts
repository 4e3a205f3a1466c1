import type { Request } from '@playwright/test';
import { expect, test, worked } from '../../helpers';

test('invariant: an element out of sight fetches two small scripts and nothing else, until it comes near', async ({ page }) => {
  const asked: Request[] = [];
  page.on('request', (request) => { if (!new URL(request.url()).pathname.startsWith('/hosts/')) asked.push(request); });
  await page.goto('/hosts/far/');
  await expect(page.getByText('Call us.')).toBeAttached();
  await page.waitForFunction(() => customElements.get('pairwright-fit'));
  await page.waitForLoadState('networkidle');
  await worked(page);
  expect(asked.map((request) => new URL(request.url()).pathname).sort()).toEqual(['/pairwright-fit.js', '/pairwright.js']);
  const sizes = await Promise.all(asked.map(async (request) => (await (await request.response())!.body()).length));
  expect(sizes.reduce((all, size) => all + size, 0)).toBeLessThan(10_000);
  // A screen's height before it is seen.
  await page.evaluate(() => window.scrollTo(0, 5000 - 2.5 * innerHeight));
  await worked(page);
  expect(asked).toHaveLength(2);
  const program = page.waitForRequest('**/*.wasm');
  await page.evaluate(() => window.scrollTo(0, 5000 - 1.5 * innerHeight));
  await program;
  await expect(page.locator('pairwright-fit').getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeAttached();
});

test('one that is told to loads at once, also while it waits', async ({ page }) => {
  await page.goto('/hosts/far/');
  await page.waitForFunction(() => customElements.get('pairwright-fit'));
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('load', 'now'));
  await expect(page.locator('pairwright-fit').getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeAttached();
});
