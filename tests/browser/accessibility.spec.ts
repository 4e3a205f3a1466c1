import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { screens } from './every-screen';
import { brokenWords, expect, fitsScreen, open, test } from './helpers';

const axe = readFileSync(new URL('node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');
// WCAG 2.2 up to AA, and what axe holds for good practice besides.
const rules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

// All that axe reads of colours: nothing else differs from one look to the other.
const ofColours = { type: 'rule', values: ['color-contrast', 'link-in-text-block'] };

/** What axe finds on the screen, as lines to read. */
async function violations(page: Page, only: object = rules): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe);
  return page.evaluate(async (only) => {
    // Only what is wrong is read here, so of what passes axe need not write down where it all stands.
    const found = await (window as any).axe.run(document, { runOnly: only, resultTypes: ['violations'] });
    return found.violations.flatMap((one: any) => one.nodes.map((node: any) => `${one.id}: ${node.target.join(' ')}: ${node.failureSummary.split('\n')[1] ?? ''}`));
  }, only);
}

/**
 * What is to be pressed and smaller than a thumb in a glove wants: 48 px. Links and figures within a text are as high as its lines; of a
 * figure that stands in a row of its own the row counts, wherever within these 48 px it is pressed.
 */
const small = (page: Page) => page.evaluate(() => {
  const withinText = (one: Element) => [...one.parentElement!.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && /[\p{L}\p{N}]/u.test(node.textContent!));
  const controls = 'button:not(.number), a:not(.skip), select, textarea, summary, input:not([type="checkbox"]), label:has(input[type="checkbox"])';
  const all = [...document.querySelectorAll<HTMLElement>(controls)].filter((one) => one.checkVisibility() && one.offsetParent);
  const low = all.filter((one) => one.getBoundingClientRect().height < 47.5 && !(one.matches('a') && withinText(one)));
  const figures = [...document.querySelectorAll<HTMLElement>(':is(.prove .fig, .facts dd, td > span, .marks li, .readings dd) .number')];
  const alone = figures.filter((one) => one.checkVisibility() && !withinText(one) && !one.closest('.why'));
  const missed = alone.filter((one) => {
    const row = one.closest('.prove > li, .facts > div');
    if (row) return row.getBoundingClientRect().height < 47.5;
    one.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
    const { left, top, width, height } = one.getBoundingClientRect();
    return [-23, 23].some((off) => document.elementFromPoint(left + width / 2, top + height / 2 + off) !== one);
  });
  return [...low, ...missed].map((one) => `${one.outerHTML.slice(0, 120)}: ${one.getBoundingClientRect().height}`);
});

/** Headings behind which nothing comes before the next one of their rank. */
const bare = (page: Page) => page.evaluate(() => {
  const rank = (one: Element) => Number(one.tagName.slice(1));
  const headings = [...document.querySelectorAll<HTMLElement>('main :is(h1, h2, h3, h4)')].filter((one) => one.checkVisibility());
  // What is folded has its content behind the fold.
  const open = headings.filter((one) => !one.closest('summary'));
  return open.filter((one) => {
    const walker = document.createTreeWalker(document.querySelector('main')!, NodeFilter.SHOW_ELEMENT | NodeFilter.SHOW_TEXT);
    walker.currentNode = one.lastChild ?? one;
    for (let next = walker.nextNode(); next; next = walker.nextNode()) {
      if (one.contains(next)) continue;
      if (next instanceof Element && /^H[1-4]$/.test(next.tagName) && rank(next) <= rank(one)) return next.closest('summary') === null;
      if (next instanceof Text ? next.data.trim() && next.parentElement!.checkVisibility() : (next as Element).matches('input, select, svg, button') && (next as Element).checkVisibility()) return false;
    }
    return true;
  }).map((one) => one.outerHTML.slice(0, 100));
});

for (const screen of screens) {
  test(`invariant: axe finds nothing in either look, and nothing runs out of the screen: ${screen.name}`, async ({ page }) => {
    // Colours on their way from one look to the other are neither.
    await page.emulateMedia({ reducedMotion: 'reduce' });
    await screen.show(page);
    for (const [colorScheme, only] of [['light', rules], ['dark', ofColours]] as const) {
      await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
      expect(await violations(page, only), colorScheme).toEqual([]);
    }
    expect(await small(page)).toEqual([]);
    expect(await bare(page)).toEqual([]);
    await page.setViewportSize({ width: 1280, height: 800 });
    expect(await violations(page), 'at a desk').toEqual([]);
    await page.setViewportSize({ width: 360, height: 740 });
    // Text twice as large, and the narrowest screen (WCAG 2.2, 1.4.4 and 1.4.10).
    await page.evaluate(() => { document.documentElement.style.fontSize = '200%'; });
    await fitsScreen(page);
    for (const width of [360, 320]) {
      await page.setViewportSize({ width, height: 740 });
      expect(await brokenWords(page, '#app'), `${width} px, twice the text`).toEqual([]);
    }
    await page.evaluate(() => { document.documentElement.style.fontSize = ''; });
    for (const width of [412, 360, 320]) {
      await page.setViewportSize({ width, height: 740 });
      expect(await brokenWords(page, '#app'), `${width} px`).toEqual([]);
    }
    await fitsScreen(page);
  });
}

test('invariant: from the start to a saved comparison: one word and at most eight taps', async ({ page }) => {
  await open(page);
  let taps = 0;
  const tap = async (what: ReturnType<Page['locator']>) => {
    taps += 1;
    await what.click();
  };
  // A tap into the field, one word, and no key to send it off.
  await tap(page.getByLabel('Search maker, model, class, mass or power'));
  await page.keyboard.type('qu 27');
  await tap(page.getByRole('link', { name: /Quern QU 27/ }));
  await tap(page.locator('.fit').nth(0).getByRole('checkbox'));
  await tap(page.locator('.fit').nth(2).getByRole('checkbox'));
  await tap(page.getByRole('link', { name: 'Compare 2 side by side' }));
  await tap(page.getByRole('button', { name: 'Save', exact: true }));
  await expect(page.getByText(/^Saved as “/)).toBeVisible();
  expect(taps).toBeLessThanOrEqual(8);
});

/** Goes on by Tab until the focus is on what is wanted. */
async function tabTo(page: Page, role: string, name: RegExp) {
  for (let steps = 0; steps < 200; steps += 1) {
    await page.keyboard.press('Tab');
    const here = await page.evaluate(() => {
      const focused = document.activeElement as HTMLElement;
      const label = (focused as HTMLInputElement).labels?.[0]?.textContent;
      return { tag: focused.tagName.toLowerCase(), name: focused.getAttribute('aria-label') ?? label ?? focused.innerText };
    });
    if (here.tag === role && name.test(here.name)) {
      // Whoever goes by keys sees where they are, and no bar hides it.
      const seen = await page.evaluate(() => {
        const box = document.activeElement!.getBoundingClientRect();
        const there = document.elementFromPoint(box.left + box.width / 2, box.top + Math.min(box.height / 2, 20));
        return !!there && (document.activeElement!.contains(there) || there.contains(document.activeElement));
      });
      expect(seen, `${here.name} is in sight`).toBe(true);
      return;
    }
  }
  throw new Error(`no ${role} ${name} within 200 steps`);
}

test('invariant: the main job goes by keyboard alone', async ({ page }) => {
  await open(page);
  await tabTo(page, 'input', /Search/);
  await page.keyboard.type('qu 27');
  await tabTo(page, 'a', /Quern QU 27/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: 'Quern QU 27' })).toBeFocused();
  await expect(page.locator('.fit').first()).toBeVisible();
  await tabTo(page, 'input', /Compare Wrackline WN 95/);
  await page.keyboard.press('Space');
  await tabTo(page, 'a', /Wrackline WN 12/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: /Wrackline WN 12/ })).toBeFocused();
  await tabTo(page, 'button', /Choose for comparison/);
  await page.keyboard.press('Enter');
  await tabTo(page, 'a', /Compare 2 side by side/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1, name: /Side by side/ })).toBeFocused();
  await tabTo(page, 'input', /Save under a name/);
  await page.keyboard.press('Enter');
  await expect(page.getByText(/^Saved as “/)).toBeVisible();
});

test('what changes is told to who cannot see it', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await expect(page.getByRole('status').filter({ hasText: '40 attachments' })).toHaveCount(1);
  await page.getByRole('button', { name: /^does not fit/ }).click();
  await expect(page.getByRole('status').filter({ hasText: /\d+ of 40 attachments shown/ })).toHaveCount(1);
  await page.getByRole('checkbox').nth(1).check();
  await expect(page.getByRole('region', { name: 'Chosen to stand side by side' }).getByRole('status')).toContainText('1 chosen');
  // A row tells its verdict in words, without the picture.
  await expect(page.getByRole('link', { name: /Wrackline .* does not fit/ }).first()).toBeVisible();
});
