import { expect, test } from '../../helpers';

// A host that knows nothing of WebAssembly sends it as any other file.
for (const type of ['application/octet-stream', 'text/plain']) {
  test(`element and page start where WebAssembly is sent as ${type}`, async ({ page }) => {
    await page.route('**/*.wasm', async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ response: answer, headers: { ...answer.headers(), 'content-type': type } });
    });
    await page.goto('/hosts/wrong-type/');
    await expect(page.locator('pairwright-fit').getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
    await page.goto('/');
    await expect(page.getByRole('link', { name: /Quern QU 27/ })).toBeVisible();
    // What is still on its way is of no matter to it.
    await page.unrouteAll({ behavior: 'ignoreErrors' });
  });
}
