import { expect, test, worked } from '../../helpers';

test('invariant: an element out of sight fetches two small scripts and nothing else, until it comes near', async ({ page }) => {
  const fetched: { name: string; size: number }[] = [];
  page.on('response', async (response) => {
    const name = new URL(response.url()).pathname;
    if (!name.startsWith('/hosts/')) fetched.push({ name, size: (await response.body()).length });
  });
  await page.goto('/hosts/far/');
  await expect(page.getByText('Call us.')).toBeAttached();
  await page.waitForFunction(() => customElements.get('pairwright-fit'));
  await page.waitForLoadState('networkidle');
  await worked(page);
  expect(fetched.map(({ name }) => name).sort()).toEqual(['/pairwright-fit.js', '/pairwright.js']);
  expect(fetched.reduce((all, { size }) => all + size, 0)).toBeLessThan(10_000);
  // A screen's height before it is seen.
  await page.evaluate(() => window.scrollTo(0, 5000 - 2.5 * innerHeight));
  await worked(page);
  expect(fetched).toHaveLength(2);
  const asked = page.waitForRequest('**/*.wasm');
  await page.evaluate(() => window.scrollTo(0, 5000 - 1.5 * innerHeight));
  await asked;
  await expect(page.locator('pairwright-fit').getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeAttached();
});

test('one that is told to loads at once, also while it waits', async ({ page }) => {
  await page.goto('/hosts/far/');
  await page.waitForFunction(() => customElements.get('pairwright-fit'));
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('load', 'now'));
  await expect(page.locator('pairwright-fit').getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeAttached();
});
