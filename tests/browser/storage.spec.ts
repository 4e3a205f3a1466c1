import { readFileSync } from 'node:fs';
import { expect, fewAttachments, onPlate, open, picture, test, toItem, typeReading } from './helpers';

async function saveTwo(page, name = 'Terrace') {
  await open(page, '#/compare/quern-q27/thistlecut-r60,wrackline-f80');
  await expect(page.locator('.card-of-pairing')).toHaveCount(2);
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
  await (await onPlate(page, 'Operating mass')).fill('2.7 t');
  await expect(page.getByText('Kept in this browser. Never sent.')).toBeVisible();
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

test('invariant: an import overwrites nothing: what differs comes beside it', async ({ page }) => {
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
  await expect(page.locator('.notice.fault')).toContainText(`${cut} things that were kept here (${cut} saved comparisons) are damaged`);
  const there = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('saved.cut-')));
  expect(there.filter((key) => key.startsWith('pairwright.aside.')).length).toBe(cut);
  expect(there.filter((key) => key.startsWith('pairwright.saved.')).length).toBe(0);
  const row = page.getByRole('button', { name: `Delete pairwright.saved.cut-${cut - 1}.0` });
  await row.click();
  await expect(row).toHaveCount(0);
});

test('invariant: notes being typed stay when another tab saves, and both are kept', async ({ page, context }) => {
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
  await expect(page.getByText('2 Jan 2031').first()).toBeVisible();
  await expect(page.getByRole('textbox', { name: 'Notes' })).toHaveValue('Gate on the left');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.locator('.note')).toHaveText('Gate on the left');
  const created = await page.evaluate(() => {
    const key = Object.keys(localStorage).find((key) => key.startsWith('pairwright.saved.'))!;
    return JSON.parse(localStorage.getItem(key)!).saved.created;
  });
  expect(created).toBe('2031-01-02T10:00:00Z');
});

for (const [begun, fragment] of [['fresh', '#/own/new/mini-excavator'], ['like another', '#/own/like/quern-q27']]) {
  test(`what was typed on a plate stays when another table comes in under it: ${begun}`, async ({ page }) => {
    await open(page);
    let release = () => {};
    const wait = new Promise<void>((resolve) => { release = resolve; });
    await page.route('**/late.json', async (route) => {
      await wait;
      await route.fulfill({ json: await (await fetch(new URL('table/demo.json', page.url()))).json() });
    });
    await page.goto('./#/table');
    await page.getByLabel('From an address').fill('late.json');
    await page.getByRole('button', { name: 'Load', exact: true }).click();
    await page.goto(`./${fragment}`);
    const mass = await onPlate(page, 'Operating mass');
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
}

test('a plate that finds no room says so once, offers what stands there, and solves nothing else', async ({ page }) => {
  await fewAttachments(page);
  await open(page, '#/own/new/mini-excavator');
  const mass = await onPlate(page, 'Operating mass');
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
  const mass = (of) => onPlate(of, 'Operating mass');
  await (await mass(page)).fill('2.7 t');
  await expect(page).toHaveURL(/#\/own\/[0-9a-f-]+$/);
  const other = await context.newPage();
  await other.goto(page.url());
  // Two plates ask all attachments at once, on whatever machine this runs.
  await expect(await mass(other)).toHaveValue('2.7 t', { timeout: 45_000 });
  await (await mass(other)).fill('3.1 t');
  await expect(await mass(page)).toHaveValue('3.1 t');
  await page.getByLabel('Name').fill('Old digger');
  await page.getByLabel('Name').blur();
  await expect(other.getByLabel('Name')).toHaveValue('Old digger');
  await expect(await mass(other)).toHaveValue('3.1 t');
});

test('invariant: where a comparison comes out differently, table or program is named', async ({ page }) => {
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

test('invariant: under another name it is another comparison, and renaming is asked for', async ({ page }) => {
  await saveTwo(page, 'Smith');
  await expect(page.getByText('Saved as “Smith”')).toBeVisible();
  const name = page.getByLabel('Save under a name');
  await name.fill('Jones');
  await page.getByRole('button', { name: 'Save as another one' }).click();
  await expect(page.getByText('Saved as “Jones”')).toBeVisible();
  // By the name that it has, the one of that name is saved anew.
  await name.fill('Smith');
  await expect(page.getByRole('button', { name: /^Rename/ })).toHaveCount(0);
  await page.getByRole('button', { name: 'Save it anew' }).click();
  await expect(page.getByText('Saved as “Smith”')).toBeVisible();
  await name.fill('Miller');
  await page.getByRole('button', { name: 'Rename “Smith” to this' }).click();
  await expect(page.getByText('Saved as “Miller”')).toBeVisible();
  await page.goto('./#/saved');
  await expect(page.locator('.kept')).toHaveCount(2);
  await expect(page.locator('.kept').getByText('Jones', { exact: true })).toBeVisible();
  await expect(page.locator('.kept').getByText('Miller', { exact: true })).toBeVisible();
});

test('a note of another tab outlives saving anew, and editing the name, in this one', async ({ page, context }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  const other = await context.newPage();
  await other.goto('./#/saved');
  const note = async (text: string) => {
    await other.getByRole('button', { name: /Edit .*: name and notes/ }).click();
    await other.getByRole('textbox', { name: 'Notes' }).fill(text);
    await other.getByRole('button', { name: 'Keep', exact: true }).click();
    await expect(other.locator('.note')).toHaveText(text);
  };
  await note('Gate on the left');
  await page.getByRole('button', { name: 'Save it anew' }).click();
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await expect(other.locator('.note')).toHaveText('Gate on the left');
  // The name is edited here while the note is written there.
  await page.goto('./#/saved');
  await page.getByRole('button', { name: /Edit Terrace/ }).click();
  await page.getByRole('textbox', { name: 'Name' }).fill('Upper terrace');
  await note('Gate on the right');
  await page.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('link', { name: /Upper terrace/ })).toBeVisible();
  await expect(page.locator('.note')).toHaveText('Gate on the right');
});

test('a deletion that cannot be undone for want of room says so, and can still be undone', async ({ page }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.goto('./#/saved');
  await page.getByRole('button', { name: 'Delete Terrace' }).click();
  await page.evaluate(() => {
    const real = Storage.prototype.setItem;
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };
    (window as any).makeRoom = () => { Storage.prototype.setItem = real; };
  });
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.locator('.notice.fault').getByText('It could not be brought back')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Download it as a file' })).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).click();
  await page.evaluate(() => (window as any).makeRoom());
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(page.getByRole('link', { name: /Terrace/ })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Undo' })).toHaveCount(0);
});

test('damage of several kinds at once is told of all', async ({ page }) => {
  await saveTwo(page);
  await expect(page.getByText('Saved as “Terrace”')).toBeVisible();
  await page.evaluate(() => {
    for (const key of ['saved.a', 'saved.b', 'machine.a', 'handover.a']) localStorage.setItem(`pairwright.${key}`, '{"form');
    localStorage.setItem('pairwright.table', '{"form');
    for (const kind of ['saved', 'machine']) {
      localStorage.setItem(`pairwright.${kind}.new`, JSON.stringify({ format: `pairwright.${kind}`, version: 9, [kind]: {} }));
    }
  });
  await page.reload();
  const damaged = page.locator('.notice.fault', { hasText: 'damaged' });
  await expect(damaged).toHaveCount(1);
  await expect(damaged).toContainText(
    '5 things that were kept here (2 saved comparisons, a machine of your own, a record of a hand-over and the table that you loaded last)',
  );
  const newer = page.locator('.notice.fault', { hasText: 'newer than this app' });
  await expect(newer).toHaveCount(1);
  await expect(newer).toContainText('2 things that were kept here (a saved comparison and a machine of your own) are of version 9');
});

test('a hand-over says that it is kept only where it is', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90/hand-over');
  const flow = page.getByRole('textbox', { name: 'Flow, unloaded', exact: true });
  const list = page.getByRole('button', { name: /^All \d+ readings/ });
  await typeReading(page, 'Flow, unloaded', '64');
  await list.click();
  await expect(page.getByText('Kept in this browser.')).toBeVisible();
  await toItem(page, 'Flow, unloaded');
  await page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
  await flow.fill('65');
  await list.click();
  await expect(page.getByText('Not kept as it stands here')).toBeVisible();
  await expect(page.getByText('Kept in this browser.')).toHaveCount(0);
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Download the record as a file' }).click();
  expect(readFileSync(await (await download).path(), 'utf8')).toContain('65 L/min');
});

test('what found no room here stays when another tab writes on the same machine', async ({ page, context }) => {
  await open(page, '#/own/new/mini-excavator');
  const mass = (of) => onPlate(of, 'Operating mass');
  await (await mass(page)).fill('2.7 t');
  await expect(page).toHaveURL(/#\/own\/[0-9a-f-]+$/);
  await page.evaluate(() => { Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; });
  await (await mass(page)).fill('3.1 t');
  await expect(page.getByText('Not kept as it stands here')).toBeVisible();
  const other = await context.newPage();
  await other.goto(page.url());
  await other.getByLabel('Name').fill('Old digger');
  await other.getByLabel('Name').blur();
  await expect(page.getByLabel('Name')).toHaveValue('Old digger', { timeout: 45_000 });
  await expect(await mass(page)).toHaveValue('3.1 t');
});
