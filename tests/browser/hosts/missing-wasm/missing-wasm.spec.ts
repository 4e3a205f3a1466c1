import { expect, test } from '../../helpers';

// The element says in the console why it could not start, for whoever keeps the page.
test.use({ expected: /^pairwright-fit could not start:|^TypeError: Failed to execute 'compile'|^CompileError/ });

test('where the app is missing, what stands within the element stays', async ({ page }) => {
  await page.route('**/*.wasm', (route) => route.fulfill({ status: 404, body: 'nothing here' }));
  const told = page.waitForEvent('console', (message) => /could not start/.test(message.text()));
  await page.goto('/hosts/missing-wasm/');
  await told;
  await expect(page.locator('#meanwhile')).toBeVisible();
});

test('where there is no WebAssembly, what stands within the element stays', async ({ page }) => {
  await page.addInitScript(() => { Object.defineProperty(window, 'WebAssembly', { value: undefined }); });
  const told = page.waitForEvent('console', (message) => /could not start/.test(message.text()));
  await page.goto('/hosts/missing-wasm/');
  expect((await told).text()).toContain('no WebAssembly');
  await expect(page.locator('#meanwhile')).toBeVisible();
});

test('once it is there it starts when the element is put up anew', async ({ page }) => {
  let missing = true;
  await page.route('**/*.wasm', (route) => (missing ? route.fulfill({ status: 404 }) : route.continue()));
  const told = page.waitForEvent('console', (message) => /could not start/.test(message.text()));
  await page.goto('/hosts/missing-wasm/');
  await told;
  missing = false;
  await page.evaluate(() => {
    const element = document.querySelector('pairwright-fit')!;
    element.remove();
    document.body.append(element);
  });
  await expect(page.locator('pairwright-fit').getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
});
