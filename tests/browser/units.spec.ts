import { expect, open, test } from './helpers';

// What kills stands at the top of every sheet and paper, and all of a screen turns with its units.
for (const path of ['', '/customer', '/fitter']) {
  test(`what kills stands first, and every figure turns with the units: ${path || 'sheet'}`, async ({ page }) => {
    await open(page, `#/machine/quern-q56/thistlecut-r90${path}`);
    const main = page.locator('#main');
    await expect(main).toContainText('nobody nearer than 90 m while it works');
    await expect(main).toContainText('Never feel for a leak: a jet of oil from about 7 bar up');
    await expect(page.getByRole('img', { name: 'ISO 7010 P004' }).first()).toBeVisible();
    const text = await page.locator('#app').innerText();
    expect(text.indexOf('Never feel for a leak')).toBeGreaterThan(-1);
    expect(text.indexOf('Never feel for a leak')).toBeLessThan(text.indexOf("Makers' manuals, local codes and licensed practice"));
    await page.getByRole('button', { name: /^Units/ }).click();
    await expect(main).toContainText('nobody nearer than 300 ft while it works');
    await expect(main).toContainText('a jet of oil from about 100 psi up');
    await expect.poll(async () => (await main.innerText()).match(/[^\n]*\d (bar|L\/min|kg|kW|°C|N·m|km\/h)(?![\w/])[^\n]*/g)).toBeNull();
  });
}

test('the comparison and the text that is sent tell what kills', async ({ page }) => {
  await open(page, '#/compare/quern-q56/thistlecut-r90,wrackline-b34');
  await expect(page.getByRole('heading', { name: 'Danger' })).toBeVisible();
  await expect(page.locator('.hazards')).toContainText('It throws objects. 90 m');
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  await page.getByText('Send a link').click();
  await expect(page.locator('.letter').first()).toContainText('Beware: a jet of oil');
});

test('a machine is found by its mass as a reader of US units types it, and its list turns with them', async ({ page }) => {
  await open(page);
  const machines = page.locator('.machines');
  await expect(machines).toContainText('930 kg');
  await page.getByRole('button', { name: /^Units/ }).click();
  await expect(machines).toContainText('2050 lb');
  await expect(page.locator('main')).not.toContainText(/\d (kg|t|L\/min|bar)\b/);
  const search = page.getByLabel('Search maker, model, class, mass or power');
  await expect(search).toHaveAttribute('placeholder', /lb/);
  for (const typed of ['18,000 lb', '18 000 lb', '9 tons']) {
    await search.fill(typed);
    await expect(page.getByText(/^\d+ machines near 18,000 lb, the nearest first$/)).toBeVisible();
    await expect(machines.locator('.row').first()).toContainText('Skerry');
    await expect(machines.locator('.row').first()).toContainText(/\d lb (lighter|heavier)/);
  }
});
