import { expect, test, unfold } from '../../helpers';

// The server sends the policy that the README asks for, as a header. A violation is an error in the console, which fails a test.
test('invariant: the element obeys a strict content policy', async ({ page }) => {
  const answer = await page.goto('/hosts/strict-policy/');
  expect(answer!.headers()['content-security-policy']).toBe(
    "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'",
  );
  await page.evaluate(() => {
    (window as any).violations = [];
    document.addEventListener('securitypolicyviolation', (event) => (window as any).violations.push(event.violatedDirective));
  });
  const element = page.locator('pairwright-fit');
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(element.locator('.sentence')).toBeVisible();
  // Styled, not bare.
  const border = await element.locator('.hazards').evaluate((hazards) => getComputedStyle(hazards).borderTopStyle);
  expect(border).toBe('solid');
  // A drawing has its size by the style that its element is given.
  await unfold(element, 'Checks');
  await unfold(element, 'Back pressure');
  expect(await element.locator('.of-check svg').first().evaluate((it: SVGElement) => it.style.inlineSize)).toMatch(/^calc/);
  await element.getByText('Send a link').click();
  await expect(element.locator('.qr')).toBeVisible();
  await element.getByRole('link', { name: 'Saved' }).click();
  await expect(element.getByRole('heading', { level: 1, name: 'Saved' })).toBeVisible();
  expect(await page.evaluate(() => (window as any).violations)).toEqual([]);
});

test('invariant: the page of the app obeys a strict content policy', async ({ page }) => {
  await page.goto('/strict/#/machine/quern-q27/thistlecut-r60');
  await expect(page.locator('.sentence')).toBeVisible();
  await page.goto('/strict/#/compare/quern-q27/thistlecut-r60,wrackline-f80');
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
});
