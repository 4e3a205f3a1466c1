import { expect, test } from '../../helpers';

test("a dealer's own script gets pairings as plain data", async ({ page }) => {
  await page.goto('/hosts/script/');
  await expect(page.locator('#out')).toHaveText(/^[a-z-]+$/);
  const [text, object] = await page.evaluate(async () => {
    const { pair } = (window as any).ask;
    const table = await (await fetch('/table/demo.json')).text();
    return [await pair(table, 'quern-q27', 'thistlecut-r60'), await pair(JSON.parse(table), 'quern-q27', 'thistlecut-r60')];
  });
  expect(object).toEqual(text);
  expect(text.checks.length).toBeGreaterThan(10);
});

test('what is asked wrongly is refused with what would mend it', async ({ page }) => {
  await page.goto('/hosts/script/');
  await expect(page.locator('#out')).not.toBeEmpty();
  const faults = await page.evaluate(async () => {
    const { pair } = (window as any).ask;
    const table = await (await fetch('/table/demo.json')).text();
    const fault = async (...asked: unknown[]) => pair(...asked).then(() => 'none', (why: Error) => why.message);
    return [await fault(table, 'quern-q28', 'thistlecut-r60'), await fault('{', 'quern-q27', 'thistlecut-r60')];
  });
  expect(faults[0]).toContain('quern-q27');
  expect(faults[1]).toContain('table');
});

test('a table is checked, and a machine that is not in the table is paired', async ({ page }) => {
  await page.goto('/hosts/script/');
  await expect(page.locator('#out')).not.toBeEmpty();
  const { sound, wrong, own } = await page.evaluate(async () => {
    const { checkTable, pair } = (window as any).ask;
    const table = await (await fetch('/table/demo.json')).json();
    const machine = { ...table.carriers.find((one: any) => one.id === 'quern-q27'), id: 'theirs', model: 'Theirs' };
    return {
      sound: await checkTable(table),
      wrong: await checkTable({ ...table, carriers: [{ id: 'm', model: 'M', class: 'mini-excavator', operating_mass: '3' }] }),
      own: await pair(table, machine, 'thistlecut-r60'),
    };
  });
  expect(sound.problems).toEqual([]);
  expect(JSON.stringify(wrong.problems)).toContain('/carriers/0/operating_mass');
  expect(own.carrier.id).toBe('theirs');
});

test('a whole machine is paired beside the page, which goes on answering', async ({ page }) => {
  await page.goto('/hosts/script/');
  await expect(page.locator('#out')).not.toBeEmpty();
  const { ids, verdicts, longest, count } = await page.evaluate(async () => {
    const { list } = (window as any).ask;
    const table = await (await fetch('/table/demo.json')).text();
    let [last, longest] = [performance.now(), 0];
    let going = true;
    const watch = () => {
      longest = Math.max(longest, performance.now() - last);
      last = performance.now();
      if (going) setTimeout(watch);
    };
    watch();
    const began = performance.now();
    const all = await list(table, 'quern-q27');
    going = false;
    return {
      ids: new Set(all.map((one: any) => one.head.id)).size, count: all.length, verdicts: all.map((one: any) => one.verdict),
      longest: longest / (performance.now() - began),
    };
  });
  expect([ids, count]).toEqual([40, 40]);
  const order = ['fits', 'fits-after-changes', 'cannot-say', 'does-not-fit'];
  expect(verdicts).toEqual([...verdicts].sort((a, b) => order.indexOf(a) - order.indexOf(b)));
  expect(page.workers()).toHaveLength(1);
  // In the page itself it would be held up for all of that time.
  expect(longest).toBeLessThan(0.5);
});
