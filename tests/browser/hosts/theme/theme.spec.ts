import { expect, picture, test } from '../../helpers';

test('a page gives the element its own colours, type and size by what is documented', async ({ page }) => {
  await page.goto('/hosts/theme/');
  const element = page.locator('pairwright-fit');
  await expect(element.locator('.sentence')).toBeVisible();
  const look = await element.locator('.inside').evaluate((place) => {
    const { backgroundColor, fontFamily, fontSize } = getComputedStyle(place);
    return { backgroundColor, fontFamily, fontSize };
  });
  expect(look).toEqual({ backgroundColor: 'rgb(255, 255, 255)', fontFamily: 'serif', fontSize: '20px' });
  const link = await element.locator('.path a').first().evaluate((place) => getComputedStyle(place).color);
  expect(link).toBe('rgb(10, 20, 130)');
  const radius = await element.locator('.sentence').evaluate((place) => getComputedStyle(place).borderTopLeftRadius);
  expect(radius).toBe('12px');
  await picture(page, '32-theme');
});

test('a dark page has a dark element, a light page a light one', async ({ page }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.goto('/hosts/plain/');
  const ink = () => page.locator('pairwright-fit').locator('.inside').evaluate((place) => getComputedStyle(place).color);
  await expect(page.locator('pairwright-fit').getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  // The page does not say that it knows dark: it stays light, and so does the element.
  expect(await ink()).toBe('rgb(29, 42, 44)');
  await page.evaluate(() => { document.documentElement.style.colorScheme = 'light dark'; });
  expect(await ink()).toBe('rgb(236, 233, 221)');
});
