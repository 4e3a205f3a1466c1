import { expect, test } from '../../helpers';

test('the app may lie in any folder', async ({ page }) => {
  const asked: string[] = [];
  page.on('request', (request) => asked.push(new URL(request.url()).pathname));
  await page.goto('/hosts/sub-path/');
  const element = page.locator('pairwright-fit');
  await element.getByRole('link', { name: /Quern QU 27/ }).click();
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  const others = asked.filter((path) => !path.startsWith('/yard/tools/') && !path.startsWith('/hosts/') && path !== '/favicon.ico');
  expect(others).toEqual([]);
  const address = await element.getByRole('link', { name: /Thistlecut TI 60/ }).getAttribute('href');
  expect(new URL(address!).pathname).toBe('/yard/tools/');
});
