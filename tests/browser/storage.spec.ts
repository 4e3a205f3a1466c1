import { readFileSync } from 'node:fs';
import { expect, open, picture, test } from './helpers';

async function saveTwo(page, name = 'Terrace') {
  await open(page, '#/compare/quern-q27/thistlecut-r60,wrackline-f80');
  await expect(page.locator('thead th')).toHaveCount(2);
  await page.getByLabel('Save under a name').fill(name);
  await page.getByRole('button', { name: 'Save', exact: true }).click();
}

async function exported(page) {
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export everything' }).click();
  return readFileSync(await (await download).path(), 'utf8');
}

const asFile = (text: string, name = 'kept.json') => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) });

test('everything goes out as one file and comes back in another browser', async ({ page, browser }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.goto('./#/own/new/mini-excavator');
  await page.getByLabel('Operating mass', { exact: false }).first().fill('2.7 t');
  await expect(page.getByText('Kept in this browser. Nothing is sent anywhere.')).toBeVisible();
  await page.goto('./#/saved');
  await picture(page, '50-saved');
  const text = await exported(page);
  expect(JSON.parse(text).format).toBe('pairwright.everything');
  const context = await browser.newContext({ baseURL: test.info().project.use.baseURL });
  const theirs = await context.newPage();
  await theirs.goto('./#/saved');
  await theirs.getByLabel('Import a file').setInputFiles(asFile(text));
  await expect(theirs.locator('.notice')).toContainText('Imported: 1 comparison, 1 machine');
  await expect(theirs.getByRole('link', { name: /Terrace/ })).toBeVisible();
  const keys = () => theirs.evaluate(() => Object.keys(localStorage).sort());
  const before = await keys();
  // A second time nothing is added.
  await theirs.getByLabel('Import a file').setInputFiles(asFile(text));
  await expect(theirs.locator('.notice')).toContainText('Already here');
  expect(await keys()).toEqual(before);
  await context.close();
});

test('an import overwrites nothing: what differs comes beside it', async ({ page }) => {
  await saveTwo(page);
  await page.goto('./#/saved');
  const text = await exported(page);
  await page.getByRole('button', { name: /Edit Terrace/ }).click();
  await page.getByRole('textbox', { name: 'Name' }).fill('Terrace, mine');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('link', { name: /Terrace, mine/ })).toBeVisible();
  await page.getByLabel('Import a file').setInputFiles(asFile(text));
  await expect(page.getByRole('link', { name: /Terrace \(imported\)/ })).toBeVisible();
  await expect(page.getByRole('link', { name: /Terrace, mine/ })).toBeVisible();
});

for (const [what, text, words] of [
  ['is cut', '{"format":"pairwright.everything","version":1,"ke', 'damaged'],
  ['is something else', '{"format":"letter","version":1}', 'kept'],
] as const) {
  test(`a file that ${what} is refused and changes nothing`, async ({ page }) => {
    await saveTwo(page);
    await page.goto('./#/saved');
    const before = await page.evaluate(() => JSON.stringify({ ...localStorage }));
    await page.getByLabel('Import a file').setInputFiles(asFile(text));
    await expect(page.locator('.notice.fault')).toContainText('kept.json');
    await expect(page.locator('.notice.fault')).toContainText(words);
    expect(await page.evaluate(() => JSON.stringify({ ...localStorage }))).toBe(before);
  });
}

test('when the storage is full the thing and everything are offered as files', async ({ page }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
  await page.getByLabel('Save under a name').fill('Bank');
  await page.getByRole('button', { name: /^Save/ }).click();
  await expect(page.locator('.notice.fault')).toContainText('full');
  await picture(page, '51-full');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Export everything as one file' }).click();
  expect(readFileSync(await (await download).path(), 'utf8')).toContain('Terrace');
});

test('a saved value cut at any character is put aside, told once, and can be downloaded and deleted', async ({ page }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  const cut = await page.evaluate(() => {
    const key = Object.keys(localStorage).find((key) => key.startsWith('pairwright.saved.'))!;
    const text = localStorage.getItem(key)!;
    for (let end = 0; end < text.length; end += 1) localStorage.setItem(`pairwright.saved.cut-${end}`, text.slice(0, end));
    return text.length;
  });
  await page.goto('./#/saved');
  await page.reload();
  await expect(page.getByRole('link', { name: /Terrace/ })).toHaveCount(1);
  await expect(page.locator('.notice.fault')).toHaveCount(1);
  await expect(page.locator('.notice.fault')).toContainText(`${cut} things that were kept here are damaged`);
  const there = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('saved.cut-')));
  expect(there.filter((key) => key.startsWith('pairwright.aside.')).length).toBe(cut);
  expect(there.filter((key) => key.startsWith('pairwright.saved.')).length).toBe(0);
  const row = page.getByRole('button', { name: `Delete pairwright.saved.cut-${cut - 1}.0` });
  await row.click();
  await expect(row).toHaveCount(0);
});

test('notes being typed stay when another tab saves, and both are kept', async ({ page, context }) => {
  await saveTwo(page);
  await page.goto('./#/saved');
  await page.getByRole('button', { name: /Edit Terrace/ }).click();
  await page.getByRole('textbox', { name: 'Notes' }).fill('Gate on the left');
  const other = await context.newPage();
  await other.goto('./#/saved');
  await other.evaluate(() => {
    const key = Object.keys(localStorage).find((key) => key.startsWith('pairwright.saved.'))!;
    const kept = JSON.parse(localStorage.getItem(key)!);
    kept.saved.created = '2031-01-02T10:00:00Z';
    localStorage.setItem(key, JSON.stringify(kept));
  });
  await expect(page.getByText('2031-01-02').first()).toBeVisible();
  await expect(page.getByRole('textbox', { name: 'Notes' })).toHaveValue('Gate on the left');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.locator('.note')).toHaveText('Gate on the left');
  const created = await page.evaluate(() => {
    const key = Object.keys(localStorage).find((key) => key.startsWith('pairwright.saved.'))!;
    return JSON.parse(localStorage.getItem(key)!).saved.created;
  });
  expect(created).toBe('2031-01-02T10:00:00Z');
});

test('what was typed on a plate stays when another table comes in under it', async ({ page }) => {
  await open(page, '#/own/new/mini-excavator');
  let release = () => {};
  const wait = new Promise<void>((resolve) => { release = resolve; });
  await page.route('**/late.json', async (route) => {
    await wait;
    await route.fulfill({ json: await (await fetch(new URL('table/demo.json', page.url()))).json() });
  });
  await page.goto('./#/table');
  await page.getByLabel('From an address').fill('late.json');
  await page.getByRole('button', { name: 'Load', exact: true }).click();
  await page.goto('./#/own/new/mini-excavator');
  const mass = page.getByLabel('Operating mass', { exact: false }).first();
  await mass.fill('2.7 t');
  release();
  await expect(page.getByText(/^Loaded “/)).toBeVisible();
  await expect(mass).toHaveValue('2.7 t');
  const figures = await page.evaluate(() => {
    const key = Object.keys(localStorage).find((key) => key.startsWith('pairwright.machine.'))!;
    return JSON.parse(localStorage.getItem(key)!).machine.figures;
  });
  expect(figures['operating-mass']).toBe('2.7 t');
});

test('a plate that finds no room says so once, offers what stands there, and solves nothing else', async ({ page }) => {
  await open(page, '#/own/new/mini-excavator');
  const mass = page.getByLabel('Operating mass', { exact: false }).first();
  await mass.fill('2.7 t');
  await expect(page.getByText('Kept in this browser.')).toBeVisible();
  await page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
  await mass.fill('3.1 t');
  await mass.fill('3.15 t');
  await expect(page.locator('.notice.fault')).toHaveCount(1);
  await expect(page.getByText('Not kept as it stands here')).toBeVisible();
  await expect(page.getByRole('link', { name: 'See what fits, with reasons' })).toHaveCount(0);
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download it as a file' }).click();
  expect(readFileSync(await (await download).path(), 'utf8')).toContain('3.15 t');
});

test('a spec plate open in two tabs takes what the other one writes', async ({ page, context }) => {
  test.slow();
  await open(page, '#/own/new/mini-excavator');
  const mass = (of) => of.getByLabel('Operating mass', { exact: false }).first();
  await mass(page).fill('2.7 t');
  await expect(page).toHaveURL(/#\/own\/[0-9a-f-]+$/);
  const other = await context.newPage();
  await other.goto(page.url());
  // Two plates ask all attachments at once, on whatever machine this runs.
  await expect(mass(other)).toHaveValue('2.7 t', { timeout: 45_000 });
  await mass(other).fill('3.1 t');
  await expect(mass(page)).toHaveValue('3.1 t');
  await page.getByLabel('Name').fill('Old digger');
  await page.getByLabel('Name').blur();
  await expect(other.getByLabel('Name')).toHaveValue('Old digger');
  await expect(mass(other)).toHaveValue('3.1 t');
});

test('where a comparison comes out differently, table or program is named', async ({ page }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.goto('./#/saved');
  await expect(page.getByRole('link', { name: /Terrace/ })).toBeVisible();
  // As if it had been kept otherwise: every verdict another one, and with what it was made as the case has it.
  const as = async (made: 'by another judgement' | 'with other entries' | 'by an older version', mark: string) => {
    await page.evaluate(([made, mark]) => {
      const key = Object.keys(localStorage).find((key) => key.startsWith('pairwright.saved.'))!;
      const kept = JSON.parse(localStorage.getItem(key)!);
      kept.saved.table.mark = mark;
      for (const head of kept.saved.heads) {
        head.verdict = head.verdict === 'does-not-fit' ? 'fits' : 'does-not-fit';
        head.made ??= { entries: '00000000', judgement: 1 };
        if (made === 'by another judgement') head.made.judgement += 1000;
        if (made === 'with other entries') Object.assign(head.made, { entries: '00000000', judgement: head.made.judgement - 1000 });
        if (made === 'by an older version') delete head.made;
      }
      localStorage.setItem(key, JSON.stringify(kept));
    }, [made, mark]);
    await page.reload();
    return page.locator('.since');
  };
  await expect(await as('by another judgement', 'x')).toContainText('The program judges differently since; all entries are the same.');
  await expect(await as('with other entries', 'x')).toContainText('The table has changed since.');
  await expect(await as('by an older version', 'x')).toContainText('whether that or the table has changed since cannot be told');
});
