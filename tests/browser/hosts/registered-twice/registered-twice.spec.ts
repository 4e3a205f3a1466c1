import { expect, test } from '../../helpers';

test('the script may stand in a page more than once', async ({ page }) => {
  await page.goto('/hosts/registered-twice/');
  const element = page.locator('pairwright-fit');
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(element.locator('.sentence')).toHaveCount(1);
});
