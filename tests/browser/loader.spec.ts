import { expect, test } from './helpers';

// The loader leaves a trace of what happened in the console.
test.use({ expected: /^(TypeError: Failed to (fetch|execute 'compile')|CompileError: WebAssembly)/ });

for (const [what, files, answer] of [
  ['the app is not there', '**/*.wasm', { status: 404, body: 'nothing here' }],
  ['the server is broken', '**/*.wasm', { status: 500, body: 'broken' }],
  ['the script is not there', '**/pairwright-app-*.js', { status: 404, body: 'nothing here' }],
  ['another page comes instead of the app', '**/*.wasm', { status: 200, contentType: 'text/html', body: '<!doctype html>' }],
] as const) {
  test(`${what}: the page says what to do`, async ({ page }) => {
    await page.route(files, (route) => route.fulfill(answer));
    await page.goto('./');
    await expect(page.locator('#starting')).toContainText('could not be loaded');
    await expect(page.locator('#starting')).toContainText('reload this page');
    await expect(page.locator('#starting')).toBeInViewport();
  });
}

test('the connection breaks while the app loads', async ({ page }) => {
  await page.route('**/*.wasm', (route) => route.abort('connectionreset'));
  await page.goto('./');
  await expect(page.locator('#starting')).toContainText('Check the connection');
});
