import { expect, test } from '../../helpers';

test.use({ serviceWorkers: 'allow' });

test("invariant: a page's own service worker and its caches stay as they are", async ({ page }) => {
  await page.goto('/hosts/own-worker/');
  await expect(page.locator('html')).toHaveAttribute('data-worker', 'ready');
  await page.reload();
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  const there = await page.evaluate(async () => ({
    scopes: (await navigator.serviceWorker.getRegistrations()).map((one) => new URL(one.scope).pathname),
    caches: await caches.keys(),
    through: !!(await (await caches.open('theirs')).match('/pairwright-fit.js')),
  }));
  expect(there).toEqual({ scopes: ['/hosts/own-worker/'], caches: ['theirs'], through: true });
});
