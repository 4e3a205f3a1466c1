import { expect, fitsScreen, picture, test } from '../../helpers';

test('invariant: loud styles of the page do not come in, and none of ours go out', async ({ page }) => {
  await page.goto('/hosts/clashing-styles/');
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  const look = await element.locator('.quiet').first().evaluate((text) => {
    const { color, fontFamily, letterSpacing, textTransform, textAlign } = getComputedStyle(text);
    return { color, fontFamily, letterSpacing, textTransform, textAlign };
  });
  expect(look.color).not.toBe('rgb(255, 0, 0)');
  expect(look.fontFamily).not.toContain('cursive');
  expect([look.letterSpacing, look.textTransform, look.textAlign]).toEqual(['normal', 'none', 'start']);
  // The page's root is of 6 px; ours is of the browser's own size all the same.
  const size = await element.locator('.inside').evaluate((text) => getComputedStyle(text).fontSize);
  expect(size).toBe('16px');
  const button = await element.getByRole('button', { name: /^Units/ }).evaluate((one) => one.getBoundingClientRect().height);
  expect(button).toBeGreaterThanOrEqual(48);
  const theirs = await page.locator('#app').evaluate((place) => {
    const { backgroundColor, maxInlineSize, display } = getComputedStyle(place);
    return { backgroundColor, maxInlineSize, display };
  });
  expect(theirs).toEqual({ backgroundColor: 'rgb(255, 255, 0)', maxInlineSize: 'none', display: 'block' });
  await expect(page.locator('#app')).toHaveText('Theirs');
  await fitsScreen(page);
  await picture(page, '31-clashing-styles');
});
