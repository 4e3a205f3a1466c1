import { expect, open, test } from './helpers';

test('the app starts under its policy and asks no other origin', async ({ page }) => {
  await open(page);
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
  expect(policy).toContain("style-src 'self'");
  await expect(page.getByRole('link', { name: /Quern Q27/ })).toBeVisible();
});
