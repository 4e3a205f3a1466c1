import { expect, open, test } from './helpers';

test('invariant: the app starts under its policy and asks no other origin', async ({ page }) => {
  await open(page);
  const policy = await page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute('content');
  expect(policy).toContain("default-src 'self'");
  expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
  expect(policy).toContain("style-src 'self'");
  expect(policy).not.toContain('unsafe-inline');
  await expect(page.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
});

test.describe(() => {
  test.use({ expected: /inline script/ });

  test('invariant: the policy is in force: an inline script does not run', async ({ page, baseURL }) => {
    await page.route(baseURL!, async (route) => {
      const answer = await route.fetch();
      const body = (await answer.text()).replace('</body>', '<script>window.inline = true</script></body>');
      await route.fulfill({ response: answer, body });
    });
    const refused = page.waitForEvent('console', (message) => /Content Security Policy/.test(message.text()));
    await open(page);
    await refused;
    expect(await page.evaluate(() => 'inline' in window)).toBe(false);
  });
});
