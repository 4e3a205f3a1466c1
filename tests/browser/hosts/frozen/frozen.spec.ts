import { readFileSync } from 'node:fs';
import { expect, test } from '../../helpers';

// A page as a dealer wrote it for an earlier build, with the table that he had then. It uses everything that was documented;
// see tests/frozen.
const frozen = (name: string) => readFileSync(`../frozen/${name}`, 'utf8');
const answers = frozen('pairings.jsonl').trim().split('\n').map((line) => JSON.parse(line));
const then = (carrier: string, head: string) => answers.find(({ asked }) => asked.carrier === carrier && asked.head === head).answer;

// Of that table the entries that the page is about: the others only take time.
const of = (list: any[], ...ids: string[]) => list.filter(({ id }) => ids.includes(id));
const whole = JSON.parse(frozen('table.json'));
const table = JSON.stringify({
  ...whole,
  carriers: of(whole.carriers, 'quern-q27', 'quern-q56'),
  heads: of(whole.heads, 'thistlecut-r60', 'thistlecut-r90', 'wrackline-f125'),
});

/** Fails where a field of `before`, or a check of it, is no more in `after`. */
function holdsAllOf(after: any, before: any) {
  expect(Object.keys(after)).toEqual(expect.arrayContaining(Object.keys(before)));
  for (const field of ['format', 'version', 'carrier', 'head']) expect(after[field]).toEqual(before[field]);
  const ids = (answer: any) => answer.checks.map((check: any) => check.id);
  expect(ids(after)).toEqual(expect.arrayContaining(ids(before)));
  expect(Object.keys(after.checks[0])).toEqual(expect.arrayContaining(Object.keys(before.checks[0])));
}

test.beforeEach(async ({ page }) => {
  await page.route('**/hosts/frozen/table.json', (route) => route.fulfill({ contentType: 'application/json', body: table }));
  await page.goto('/hosts/frozen/');
  await expect(page.locator('#all .sentence')).toBeVisible();
  await expect(page.locator('#out')).toHaveText(/^[a-z-]+$/);
});

test('attributes, events, parts and properties of an earlier page still do what they did', async ({ page }) => {
  const all = page.locator('#all');
  await expect(page.locator('#meanwhile')).toBeHidden();
  await expect(all.getByRole('heading', { level: 1, name: /Thistlecut R90/ })).toBeVisible();
  await expect(all.getByText('psi').first()).toBeVisible();
  await expect(all.getByRole('heading', { name: 'Checks' })).toBeVisible();
  const told = () => page.evaluate(() => (window as any).theirs.told);
  const [verdict] = (await told()).verdict.filter((one: any) => one.id === 'all');
  holdsAllOf(verdict.detail, then('quern-q56', 'thistlecut-r90'));

  const outlines = await page.evaluate(() => {
    const parts = ['head', 'screen', 'sentence', 'changes', 'checks', 'enquiry', 'send'];
    const inside = document.getElementById('all')!.shadowRoot!;
    return parts.map((part) => {
      const place = inside.querySelector(`[part~="${part}"]`);
      return place ? getComputedStyle(place).outlineColor : `no ${part}`;
    });
  });
  expect(outlines).toEqual([1, 2, 3, 4, 5, 6, 7].map((part) => `rgb(1, 1, ${part})`));

  await all.getByText('Ask your dealer').click();
  await all.getByRole('button', { name: 'Send this enquiry' }).click();
  const looks = new Set<string>();
  const look = async () => (await page.evaluate(() => {
    const colours = ['color', 'backgroundColor', 'borderTopColor', 'borderBottomColor', 'borderLeftColor', 'stroke', 'fill', 'accentColor', 'outlineColor', 'textDecorationColor'];
    const inside = document.getElementById('all')!.shadowRoot!;
    return [...inside.querySelectorAll('*')].flatMap((place) => {
      const style = getComputedStyle(place) as any;
      return [...colours.map((name) => style[name]), `font ${style.fontFamily}`, `size ${style.fontSize}`];
    });
  })).forEach((one) => looks.add(one));
  await look();
  const [enquiry] = (await told()).enquiry;
  expect(Object.keys(enquiry.detail)).toEqual(expect.arrayContaining(['to', 'subject', 'body', 'link', 'carrier', 'head']));
  expect([enquiry.id, enquiry.detail.to, enquiry.detail.carrier.id, enquiry.detail.head.id]).toEqual(['all', 'page', 'quern-q56', 'thistlecut-r90']);
  expect(enquiry.detail.link).toMatch(/^https:\/\/app\.dealer\.example\/pairwright\/#\/link\//);

  await page.evaluate(() => document.getElementById('all')!.removeAttribute('head'));
  await all.getByRole('checkbox', { name: /Thistlecut R90/ }).check();
  await all.getByRole('checkbox', { name: /Wrackline F125/ }).check();
  await look();
  // The address of the screen is what it was; behind it stands now of which table it is.
  expect(await all.getByRole('link', { name: /Thistlecut R90/ }).getAttribute('href')).toMatch(/^https:\/\/app\.dealer\.example\/pairwright\/#\/machine\/quern-q56\/thistlecut-r90\?from=1\/m/);
  await all.getByRole('link', { name: 'Compare 2 side by side' }).click();
  await all.getByLabel('Save under a name').fill(' ');
  await all.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(all.getByText('Give the comparison a name, then save it.')).toBeVisible();
  await look();
  await all.getByLabel('Save under a name').fill('Terrace');
  await all.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(all.getByText('Saved as “Terrace” in this browser.')).toBeVisible();
  const [saved] = (await told()).saved;
  expect([saved.id, saved.detail.format, saved.detail.saved.name, saved.detail.saved.heads.length]).toEqual(['all', 'pairwright.saved', 'Terrace', 2]);
  expect(saved.detail.version).toBeGreaterThanOrEqual(2);

  const colours = ['250, 250, 1', '250, 250, 2', '10, 10, 3', '10, 10, 4', '10, 10, 5', '10, 10, 6', '10, 10, 7', '250, 250, 8', '10, 10, 9', '250, 250, 10'];
  const wanted = [...colours.map((colour) => `rgb(${colour})`), 'font serif', 'font monospace', 'size 20px'];
  expect(wanted.filter((one) => !looks.has(one)), 'properties that nothing on three screens follows').toEqual([]);
});

test('an element that shows nothing more, and leads to the app in a new tab', async ({ page, context }) => {
  const few = page.locator('#few');
  await expect(few.getByRole('link', { name: /Thistlecut R60/ })).toBeVisible();
  await expect(few.getByRole('navigation')).toHaveCount(0);
  await expect(few.getByRole('checkbox')).toHaveCount(0);
  const opened = context.waitForEvent('page');
  await few.getByRole('link', { name: /Thistlecut R60/ }).click();
  await expect(await opened).toHaveURL(/\/#\/machine\/quern-q27\/thistlecut-r60\?from=1\/m/);
  await page.evaluate(() => {
    const few = document.getElementById('few')!;
    few.setAttribute('links', 'here');
    few.setAttribute('head', 'thistlecut-r60');
  });
  await expect(few.locator('.sentence')).toBeVisible();
  await expect(few.getByRole('heading', { name: 'Checks' })).toHaveCount(0);
  await expect(few.getByRole('heading', { name: 'Danger' })).toBeVisible();
  await expect(few.getByText('Ask your dealer')).toHaveCount(0);
});

test('a script of an earlier page gets what it got', async ({ page }) => {
  const { pairing, ofObject, own, refused, checked, wrong, version, folder } = await page.evaluate(() => (window as any).theirs);
  holdsAllOf(pairing, then('quern-q27', 'thistlecut-r60'));
  expect(ofObject).toEqual(pairing);
  expect([own.carrier.id, own.carrier.model]).toEqual(['theirs', 'Theirs']);
  expect(refused.message).toContain('quern-q27');
  expect(refused.detail.reasons).toEqual([expect.objectContaining({ code: 'unknown-carrier', id: 'quem-q27', near: 'quern-q27' })]);
  expect(checked).toEqual(expect.objectContaining({ usable: true, unlisted: 0, set_aside: [] }));
  expect(checked.problems.filter((problem: any) => problem.severity === 'error')).toEqual([]);
  const fields = ['severity', 'pointer', 'line', 'column', 'found', 'expected', 'remedy'];
  expect(Object.keys(wrong.problems.find((problem: any) => problem.pointer === '/carriers/0/operating_mass'))).toEqual(expect.arrayContaining(fields));
  expect([typeof version, folder]).toEqual(['string', new URL('/', page.url()).href]);
});
