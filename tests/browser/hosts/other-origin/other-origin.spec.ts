import { expect, test } from '../../helpers';

// Here the app itself is on another origin; nothing else is asked there or anywhere.
test.use({ expected: /^request to another origin: http:\/\/127\.0\.0\.1:\d+\/yard\/tools\/(pairwright(-fit)?\.js|[\w.-]+\.(js|wasm|css)|table\/demo\.json)$/ });

test('the app may lie on another host that lets pages load it', async ({ page }) => {
  await page.goto('/hosts/other-origin/');
  const element = page.locator('pairwright-fit');
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(element.locator('.sentence')).toBeVisible();
  const address = await element.locator('.path').getByRole('link', { name: 'Quern QU 27' }).getAttribute('href');
  expect(new URL(address!).origin).not.toBe(new URL(page.url()).origin);
});
