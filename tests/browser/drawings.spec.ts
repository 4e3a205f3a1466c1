import { expect, fitsScreen, open, test, unfold } from './helpers';

test('the circuit before and after, by load and oil, drawn and in words', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  await unfold(page, 'The circuit');
  const section = page.locator('section[aria-labelledby="circuit"]');
  const drawing = section.locator(test.info().project.name === 'phone' ? 'svg.tall' : 'svg.wide');
  await expect(drawing).toBeVisible();
  await expect(section.locator('svg:visible')).toHaveCount(1);
  // What is added is heavy, and numbered as in the list of changes.
  await expect(drawing.locator('.heavy, .heavy-drain')).not.toHaveCount(0);
  const changes = await page.locator('.fold.change .name').allInnerTexts();
  const written = (await drawing.locator('text').allTextContents()).join(' ');
  for (const change of changes) expect(written).toContain(change);
  expect(written).toMatch(/\d+ L\/min/);
  // As it is, nothing is added.
  await section.getByRole('button', { name: 'as it is' }).click();
  await expect(drawing.locator('.heavy, .heavy-drain')).toHaveCount(0);
  await section.getByRole('button', { name: 'after changes' }).click();
  // The figures are those of the load and the oil that are chosen: stalled, nothing turns.
  const figures = async () => (await drawing.locator('text.figures').allTextContents()).join(' ');
  const working = await figures();
  await section.getByRole('button', { name: 'oil cold' }).click();
  await expect.poll(figures).not.toBe(working);
  await section.getByText('In words').click();
  await expect(section.locator('.in-words')).toContainText(/pump/i);
  await section.getByRole('button', { name: 'stalled' }).click();
  await expect(drawing).not.toContainText('rpm');
  await page.getByRole('button', { name: /Units/ }).click();
  await expect(drawing).toContainText('psi');
  await fitsScreen(page);
});

test('curve, lift and oil over a day stand beside what they say', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  for (const part of ['Brochure against circuit', 'Oil, day of work, lift']) await unfold(page, part);
  for (const [id, words] of [['curve', /The brochure says 92 L\/min and 200 bar/], ['lift', /hang with 385 kg/], ['warming', /the oil is at \d+ °C after/]] as const) {
    const section = page.locator(`section[aria-labelledby="${id}"]`);
    await expect(section.locator('svg path')).not.toHaveCount(0);
    await expect(section.locator('p')).toContainText(words);
    // Whoever cannot see it is told the same.
    expect(await section.locator('svg').getAttribute('aria-label')).toBe(await section.locator('p').textContent());
  }
});

test('each margin is drawn with its limit and its worst corner', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  await unfold(page, 'Checks');
  await unfold(page, 'Back pressure');
  // Today and after the changes, one below the other.
  const [today, after] = [0, 1].map((at) => page.locator('#checks-check-back-pressure svg').nth(at));
  await expect(today).toBeVisible();
  await expect(today).toContainText('at most 15 bar');
  await expect(today).toContainText('worst 25 bar');
  await expect(today.locator('.beyond')).not.toHaveCount(0);
  await expect(after).toContainText('at most 15.0 bar');
  await expect(after.locator('.beyond')).toHaveCount(0);
});
