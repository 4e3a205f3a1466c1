import { expect, test } from '../../helpers';

test('two elements in a page have each their own table, units and screen', async ({ page }) => {
  await page.goto('/hosts/two-elements/');
  const [one, other] = [page.locator('#one'), page.locator('#other')];
  await expect(one.getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeVisible();
  await expect(other.getByRole('link', { name: /Heron 30/ })).toBeVisible();
  await expect(other.getByRole('link', { name: /Quern/ })).toHaveCount(0);
  await expect(other.getByText('6600 lb').or(other.getByText(/lb/)).first()).toBeVisible();
  await other.getByRole('link', { name: /Stork 50/ }).click();
  await expect(other.getByRole('heading', { level: 1, name: /Stork 50/ })).toBeVisible();
  await expect(one.getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeVisible();
});

test('what one saves the other shows', async ({ page }) => {
  await page.goto('/hosts/two-elements/');
  const [one, other] = [page.locator('#one'), page.locator('#other')];
  await page.evaluate(() => document.querySelector('#other')!.setAttribute('show', 'machines saved'));
  await other.getByRole('link', { name: 'Saved' }).click();
  await expect(other.getByText('No comparison saved yet')).toBeVisible();
  await one.getByRole('checkbox', { name: /Thistlecut TI 60/ }).check();
  await one.getByRole('checkbox', { name: /Wrackline WN 80/ }).check();
  await one.getByRole('link', { name: 'Compare 2 side by side' }).click();
  await one.getByLabel('Save under a name').fill('Terrace');
  await one.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(other.getByRole('link', { name: /Terrace/ })).toBeVisible();
});
