import { expect, open, test } from './helpers';

// `make pictures` remakes the picture in the README; the ordinary run leaves it alone.
test('the picture of the app', async ({ page }) => {
  test.skip(!process.env.PICTURES, 'asked for with make pictures');
  await page.setViewportSize({ width: 1100, height: 900 });
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  await expect(page.locator('.sentence')).toBeVisible();
  await page.screenshot({ path: '../../docs/pairwright.png' });
});
