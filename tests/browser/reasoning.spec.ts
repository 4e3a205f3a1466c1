import { expect, fitsScreen, open, picture, test, unfold } from './helpers';

/** Opens a sheet of the first machine that has an attachment with this verdict. */
async function sheetThat(page, verdict: string, machine: string, attachment?: string) {
  await open(page);
  await page.getByLabel('Search maker, model, class, mass or power').fill(machine);
  await page.getByRole('link', { name: new RegExp(machine) }).first().click();
  const rows = page.locator('.fit', { hasText: verdict });
  const row = attachment ? rows.filter({ hasText: attachment }) : rows;
  await row.first().getByRole('link').click();
  await expect(page.locator('.sentence')).toBeVisible();
}

/** Opens the sheet that the first test reaches by the list. */
async function openSheet(page) {
  await open(page, '#/machine/quern-q27/wrackline-b12');
  await expect(page.locator('.stay')).toContainText('Fits after');
}

test('a figure of the sentence opens its reasoning by keyboard, and closes again where it was', async ({ page }) => {
  await sheetThat(page, 'fits after changes', 'Quern QU 27', 'Wrackline WN 12');
  const figure = page.locator('.sentence .number').first();
  // By the tab key alone, from the heading on.
  await page.getByRole('heading', { level: 1 }).focus();
  for (let i = 0; i < 6 && !(await figure.evaluate((it) => it === document.activeElement)); i += 1) await page.keyboard.press('Tab');
  await expect(figure).toBeFocused();
  await expect(figure).toHaveAttribute('aria-expanded', 'false');
  await page.keyboard.press('Enter');
  await expect(figure).toHaveAttribute('aria-expanded', 'true');
  const panel = page.locator(`#${await figure.getAttribute('aria-controls')}`);
  await expect(panel).toBeVisible();
  await expect(panel).toContainText('Source:');
  await expect(panel.locator('.formulas li').first()).toContainText(/[=≤≥−]/);
  await expect(panel.locator('.inputs li').first()).toContainText(/published|not stated|worked out|as stated|nobody states/);
  await expect(panel).toContainText('What came out');
  await expect(figure).toBeFocused();
  await fitsScreen(page);
  await picture(page, '40-reasoning');
  await page.keyboard.press('Enter');
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
  // From inside: by Escape, and by its own button.
  await page.keyboard.press('Enter');
  await panel.getByRole('button', { name: 'Close' }).focus();
  await page.keyboard.press('Escape');
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
  await page.keyboard.press('Enter');
  await panel.getByRole('button', { name: 'Close' }).click();
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
});

test('another figure of the sentence takes the panel over', async ({ page }) => {
  await openSheet(page);
  const figures = page.locator('.sentence .number');
  await figures.first().click();
  await figures.last().click();
  await expect(figures.first()).toHaveAttribute('aria-expanded', 'false');
  await expect(figures.last()).toHaveAttribute('aria-expanded', 'true');
  await expect(page.locator('.sentence .why:visible')).toHaveCount(1);
});

test('every check says how it was worked out, figures or not', async ({ page }) => {
  await openSheet(page);
  await page.evaluate(() => { for (const fold of document.querySelectorAll<HTMLDetailsElement>('#checks-checks, #checks-checks details')) fold.open = true; });
  const rows = page.locator('#checks-checks .fold:is(.met, .not-met, .not-known)');
  expect(await rows.count()).toBeGreaterThan(30);
  const buttons = rows.getByRole('button', { name: /How this was worked out/ });
  // One for today, and one for after the changes where that differs.
  expect(await buttons.count()).toBeGreaterThanOrEqual(await rows.count());
  // The first and the last are pressed as a person does it, and then all within the page, which needs no round trip for each.
  for (const end of [buttons.first(), buttons.last()]) {
    await end.click();
    await expect(end).toHaveAttribute('aria-expanded', 'true');
    await end.click();
    await expect(end).toHaveAttribute('aria-expanded', 'false');
  }
  const faults = await buttons.evaluateAll(async (all: HTMLElement[]) => {
    const faults: string[] = [];
    const within = async (what: string, holds: () => boolean) => {
      for (let frames = 0; frames < 300; frames += 1) {
        if (holds()) return;
        await new Promise(requestAnimationFrame);
      }
      faults.push(what);
    };
    const rows = document.querySelectorAll('#checks-checks .fold:is(.met, .not-met, .not-known)');
    if (new Set(all.map((button) => button.closest('.fold'))).size !== rows.length) faults.push('a check without such a button');
    for (const button of all) {
      const row = button.closest('.fold')!;
      const name = row.textContent!.slice(0, 60);
      const panel = () => row.querySelector<HTMLElement>('.why');
      const opened = () => !!panel()?.checkVisibility() && panel()!.offsetHeight > 0;
      button.scrollIntoView({ block: 'center' });
      const { left, top, width, height } = button.getBoundingClientRect();
      if (height < 47.5) faults.push(`${name}: ${height} px high`);
      const there = document.elementFromPoint(left + width / 2, top + height / 2);
      if (!there || !button.contains(there)) faults.push(`${name}: covered`);
      button.click();
      await within(`${name}: does not open with its source`, () => opened() && panel()!.innerText.includes('Source:'));
      button.click();
      await within(`${name}: does not close`, () => !opened());
    }
    return faults;
  });
  expect(faults).toEqual([]);
  await fitsScreen(page);
});

test('figures are large enough to press, and stand in the units that are chosen', async ({ page }) => {
  await openSheet(page);
  const sizes = await page.locator('.number:visible').evaluateAll((all) => all.map((one) => {
    const { height, width } = one.getBoundingClientRect();
    return { name: one.textContent, height, width };
  }));
  expect(sizes).not.toEqual([]);
  expect(sizes.filter(({ height, width }) => height < 24 || width < 24)).toEqual([]);
  await page.locator('.sentence .number').first().click();
  await expect(page.locator('#answer-why')).toContainText(/bar|L\/min/);
  await page.getByRole('button', { name: /Units/ }).click();
  await expect(page.locator('#answer-why')).toContainText(/psi|gpm/);
});

test('a figure of the operating points and a figure of the brochure open theirs', async ({ page }) => {
  await openSheet(page);
  for (const part of ['What arrives', 'Brochure against circuit']) await unfold(page, part);
  await page.locator('#arrives-part .card .number').first().click();
  const points = page.locator('#arrives-why');
  await expect(points).toContainText('Q(p)');
  await expect(points).toContainText('Flow of the auxiliary circuit');
  const flow = async () => (await points.locator('p').last().innerText()).trim();
  const after = await flow();
  // What is open goes along with the machine that is shown.
  await page.locator('#arrives-part').getByRole('button', { name: 'as it is' }).click();
  await expect.poll(flow).not.toBe(after);
  await page.locator('.brochure .number').first().click();
  await expect(page.locator('.brochure .why')).toContainText('Source:');
  await fitsScreen(page);
});

test('a sheet prints as it stands: no panel that is shut, no button', async ({ page }) => {
  await openSheet(page);
  await page.emulateMedia({ media: 'print' });
  await expect(page.locator('.why:visible')).toHaveCount(0);
  await expect(page.locator('.how:visible')).toHaveCount(0);
  const looks = await page.locator('.sentence .number').first().evaluate((it) => getComputedStyle(it).textDecorationLine);
  expect(looks).toBe('none');
});

test('where nothing can be said yet, one thing comes first, with its place', async ({ page }) => {
  await sheetThat(page, 'cannot say yet', 'Quern QU 27');
  const box = page.locator('.settling');
  await expect(box).toContainText(/Read one figure first:|Find out one thing first:/);
  await expect(box).toContainText('Where:');
  await picture(page, '41-settle');
  const more = box.locator('summary');
  if (await more.count()) {
    await more.click();
    await expect(box.locator('li').first()).toBeVisible();
  }
  await fitsScreen(page);
});

test('a setting and a cost of the change list open below their change, one at a time', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  const changes = page.locator('section[aria-labelledby="changes"]');
  const relief = changes.locator('li', { hasText: 'Reset the relief' });
  await relief.locator('summary').click();
  const figure = relief.locator('.facts .number').first();
  await figure.click();
  await expect(figure).toHaveAttribute('aria-expanded', 'true');
  const panel = relief.locator('.why');
  await expect(panel).toContainText('p_set');
  await expect(panel).toContainText('Between what it can be set');
  await expect(panel).toContainText(/Lower, at 230 bar: pressure 186 bar/);
  await expect(panel).toContainText('Hose rating: 240 bar (at most 350 bar)');
  await fitsScreen(page);
  await picture(page, '42-setting');
  // What it takes: another panel in place of this one.
  await changes.locator('li', { hasText: 'Case drain' }).locator('summary').click();
  const cost = changes.locator('li', { hasText: 'Case drain' }).locator('.facts .number').last();
  // Its row is what a thumb meets.
  const height = await cost.evaluate((it) => it.closest('.facts > div')!.getBoundingClientRect().height);
  expect(height).toBeGreaterThanOrEqual(47.5);
  await cost.click();
  await expect(figure).toHaveAttribute('aria-expanded', 'false');
  await expect(changes.locator('.why')).toHaveCount(1);
  await expect(changes.locator('.why')).toContainText('An hour in the workshop: EUR 68');
  await expect(changes.locator('.why')).toContainText('Labour: EUR 204');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Escape');
  await expect(changes.locator('.why')).toHaveCount(0);
  await expect(cost).toBeFocused();
  const total = changes.locator('p.name .number');
  await total.click();
  await expect(changes.locator('.why .inputs li')).toHaveCount(await changes.locator('ol > li').count());
});

test('figures of the oil thermometer open, and follow the slider', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  await unfold(page, 'Oil, day of work, lift');
  const section = page.locator('section[aria-labelledby="thermometer"]');
  const flow = section.locator('.readings .number').first();
  expect((await flow.boundingBox())!.height).toBeGreaterThanOrEqual(47.5);
  await section.locator('.readings > div', { hasText: 'Back pressure' }).locator('.number').click();
  const panel = section.locator('.why:visible');
  await expect(panel).toContainText('p_back');
  const came = async () => (await panel.locator('p').last().innerText()).trim();
  const warm = await came();
  expect(`${await section.locator('.readings > div', { hasText: 'Back pressure' }).locator('.number').innerText()}.`).toBe(warm);
  await section.getByLabel('Temperature of the oil').fill('-10');
  await expect.poll(came).not.toBe(warm);
  // It says what stands above it, and goes along with the machine too.
  expect(`${await section.locator('.readings > div', { hasText: 'Back pressure' }).locator('.number').innerText()}.`).toBe(await came());
  await fitsScreen(page);
  await picture(page, '43-thermometer');
  await panel.getByRole('button', { name: 'Close' }).click();
  // Its button was drawn anew meanwhile.
  await expect(section.locator('.readings > div', { hasText: 'Back pressure' }).locator('.number')).toBeFocused();
  const mark = section.locator('.marks .number').first();
  await mark.click();
  await expect(section.locator('.why:visible')).toHaveCount(1);
  await expect(section.locator('.why:visible')).toContainText('is asked');
  await section.getByRole('button', { name: /where the oil settles/ }).click();
  await expect(section.locator('#warmth-why')).toContainText('First law');
});

test('a figure of the comparison opens below its row, wherever the table is scrolled to', async ({ page }) => {
  await open(page, '#/compare/quern-q56/thistlecut-r90,thistlecut-r60,wrackline-b45');
  const table = page.locator('.compare');
  await unfold(page, 'All rows as a table');
  await expect(table).toBeVisible();
  const rowOf = (name: string) => table.locator('tbody > tr', { has: page.getByRole('rowheader', { name: new RegExp(`^${name}`) }) });
  const figure = rowOf('Hose rating').locator('.number').first();
  await figure.focus();
  await figure.scrollIntoViewIfNeeded();
  const before = (await figure.boundingBox())!;
  // It can be pressed in 48 px, though its line is lower.
  const reaches = await figure.evaluate((it) => {
    const { left, width, top, height } = it.getBoundingClientRect();
    return [-23, 23].map((off) => document.elementFromPoint(left + width / 2, top + height / 2 + off) === it);
  });
  expect(reaches).toEqual([true, true]);
  await page.keyboard.press('Enter');
  const panel = table.locator('.why');
  await expect(panel).toHaveCount(1);
  await expect(panel).toContainText('p_relief');
  // What stands above does not move.
  expect(await figure.boundingBox()).toEqual(before);
  // As wide as what is seen, also when the table is scrolled sideways.
  const frame = (await page.locator('.scroll', { has: table }).boundingBox())!;
  await page.locator('.scroll', { has: table }).evaluate((it) => { it.scrollLeft = 120; });
  const box = (await panel.boundingBox())!;
  expect(box.x).toBeGreaterThanOrEqual(frame.x - 1);
  expect(box.x + box.width).toBeLessThanOrEqual(frame.x + frame.width + 1);
  await fitsScreen(page);
  await picture(page, '44-compared');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Escape');
  await expect(panel).toHaveCount(0);
  await expect(figure).toBeFocused();
  // From the number itself too.
  await page.keyboard.press('Enter');
  await expect(panel).toHaveCount(1);
  await page.keyboard.press('Escape');
  await expect(panel).toHaveCount(0);
  await expect(figure).toBeFocused();
  // A setting in a cell, and what all takes, of the column that it stands in.
  const title = rowOf('Changes').locator('td').first();
  await title.getByRole('button', { name: /bar$/ }).first().click();
  await expect(panel).toContainText('p_set');
  await table.locator('tfoot .number').first().click();
  await expect(panel).toHaveCount(1);
  await expect(table.locator('tfoot .why')).toContainText('Σ');
  // What is open may stand in a row that goes.
  await table.locator('tbody > tr:not(.differs) .number').first().click();
  await expect(panel).toHaveCount(1);
  await page.getByLabel('Only what differs').check();
  await expect(panel).toHaveCount(0);
});

test('a tap anywhere in the row of a figure opens it', async ({ page }) => {
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  const row = page.locator('.prove > li').filter({ has: page.locator('.number') }).first();
  await row.locator('.name').click();
  await expect(row.locator('.why')).toBeVisible();
  // What is read in it closes nothing.
  await row.locator('.why .name').first().click();
  await expect(row.locator('.why')).toBeVisible();
  await row.locator('.name').first().click();
  await expect(row.locator('.why')).toHaveCount(0);
});

test("the fitter's paper opens what is set and what it takes, and prints without", async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90/fitter');
  const paper = page.locator('.paper');
  await paper.locator('tr', { hasText: 'Relief, all flow over it' }).locator('.number').click();
  await expect(paper.locator('.opened .why')).toContainText('p_set');
  await expect(paper.locator('.opened .why')).toContainText('It is set right between');
  await fitsScreen(page);
  await picture(page, '45-paper');
  await paper.locator('.steps .number').first().click();
  await expect(paper.locator('.why')).toHaveCount(1);
  await expect(paper.locator('.steps .why')).toHaveCount(1);
  await page.emulateMedia({ media: 'print' });
  await expect(paper.locator('.why:visible')).toHaveCount(0);
});
