import { expect, fitsScreen, open, picture, test } from './helpers';

// It warns that it cannot draw, which nobody asks of it here.
const { log, warn } = console;
Object.assign(console, { log: () => {}, warn: () => {} });
const { getDocument } = await import('pdfjs-dist/legacy/build/pdf.mjs');
Object.assign(console, { log, warn });

/** Millimetres in points. */
const mm = (value: number) => (value * 72) / 25.4;

/** What a PDF holds, page by page: the texts with their places. */
async function pages(pdf: Buffer) {
  const document = await getDocument({ data: new Uint8Array(pdf), verbosity: 0 }).promise;
  const all = [];
  for (let number = 1; number <= document.numPages; number += 1) {
    const page = await document.getPage(number);
    const [, , width, height] = page.view;
    const items = (await page.getTextContent()).items as { str: string; transform: number[]; width: number }[];
    all.push({ width, height, items: items.filter((item) => item.str.trim()) });
  }
  return all;
}

// A font may have one sign for two characters, the micro sign and the Greek letter.
const letters = (text: string) => text.normalize('NFKC').replace(/[\s\u00ad\u2011-]/g, '');

for (const [format, width, height] of [['A4', mm(210), mm(297)], ['Letter', 612, 792]] as const) {
  for (const [whose, most] of [['customer', 1], ['fitter', 12]] as const) {
    test(`invariant: the ${whose}'s sheet prints whole on ${format}, black on white`, async ({ page }) => {
      await page.emulateMedia({ colorScheme: 'dark' });
      await open(page, `#/machine/quern-q27/thistlecut-r60/${whose}`);
      await expect(page.locator('.paper .block').last()).toContainText('Pairwright');
      const all = await pages(await page.pdf({ format, printBackground: true }));
      expect(all.length).toBeLessThanOrEqual(most);
      let text = '';
      for (const [index, one] of all.entries()) {
        expect(Math.abs(one.width - width)).toBeLessThan(1.5);
        expect(Math.abs(one.height - height)).toBeLessThan(1.5);
        // Nothing is cut: every text lies within the paper, and within its margins but for the number of the page.
        const outside = one.items.filter(({ transform: [, , , , x, y], width }) => (
          !(x > mm(12) && x + width < one.width - mm(12) && y > mm(5) && y < one.height - mm(12))
        ));
        expect(outside.map(({ str, transform, width }) => ({ str, transform, width })), `outside of page ${index + 1}`).toEqual([]);
        expect(one.items.map((item) => item.str).join(''), `page ${index + 1}`).toMatch(new RegExp(`${index + 1} / ${all.length}`));
        text += one.items.map((item) => item.str).join('').replace(`${index + 1} / ${all.length}`, '');
      }
      // All that stands on the screen's sheet stands on the paper, and nothing else.
      const shown = await page.locator('.paper').evaluate((sheet) => {
        const walker = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT);
        let all = '';
        while (walker.nextNode()) all += walker.currentNode.textContent;
        return all;
      });
      // The numbers of the steps are made by the browser.
      const bare = (text: string) => letters(text).replace(/\d+\./g, '');
      expect(bare(text)).toBe(bare(shown));
      // The look of the screen does not come along.
      await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
      const ink = await page.locator('.paper').evaluate((sheet) => {
        const { color, backgroundColor } = getComputedStyle(sheet);
        return { color, backgroundColor };
      });
      expect(ink).toEqual({ color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(255, 255, 255)' });
    });
  }
}

test('the papers are reached from the sheet, and say what to do', async ({ page }) => {
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  await page.getByRole('link', { name: "Fitter's sheet" }).click();
  await expect(page.getByRole('heading', { level: 1, name: /Fitter's sheet/ })).toBeFocused();
  for (const title of ['Beware', 'What is done to the machine', 'What to set', 'First start', 'Attachment off: back to the bucket', 'Attachment on again']) {
    await expect(page.getByRole('heading', { level: 2, name: title })).toBeVisible();
  }
  await fitsScreen(page);
  await picture(page, '60-fitters-sheet');
  await expect(page.getByRole('heading', { name: /oil at 60 °C/ })).toHaveCount(2);
  await page.getByLabel(/Readings with the oil at/).fill('20');
  await expect(page.getByRole('heading', { name: /oil at 20 °C/ })).toHaveCount(2);
  await expect(page.locator('.total')).toContainText('Together');
  await page.getByRole('button', { name: /^Units/ }).click();
  await expect(page.getByRole('heading', { name: /oil at 68 °F/ })).toHaveCount(2);
  await expect(page.locator('.paper')).not.toContainText('L/min');
  // Dials, too, are those that are sold in the reader's units.
  await expect(page.locator('.paper')).not.toContainText(/\d bar\b/);
  await expect(page.locator('.paper')).toContainText(/gauge 0 to \d+ psi/);
  await page.getByRole('link', { name: "Customer's sheet" }).click();
  await expect(page.getByRole('heading', { level: 1, name: /Customer's sheet/ })).toBeVisible();
  await fitsScreen(page);
  await picture(page, '61-customers-sheet');
});

test("the fitter's sheet leads to its parts", async ({ page }) => {
  await open(page, '#/machine/quern-q27/thistlecut-r60/fitter');
  await page.getByText('Parts of this sheet').click();
  await page.getByRole('button', { name: 'Attachment off: back to the bucket' }).click();
  await expect(page.getByRole('heading', { name: 'Attachment off: back to the bucket' })).toBeFocused();
  await expect(page.getByRole('heading', { name: 'Attachment off: back to the bucket' })).toBeInViewport();
});

test('invariant: a sheet prints with all that is folded, and is folded again behind it', async ({ page }) => {
  await open(page, '#/machine/quern-q56/thistlecut-r90');
  await expect(page.locator('.sentence')).toBeVisible();
  const printed = await pages(await page.pdf({ format: 'A4' }));
  const text = letters(printed.flatMap(({ items }) => items.map(({ str }) => str)).join(''));
  // A change, a check that is met, the brochure, the points, the sources: each from a part that nobody has opened.
  for (const words of ['Relief, all flow over it', 'Hands-free flow', 'The brochure says', 'likely figures, engine at working speed', 'figures checked']) {
    expect(text).toContain(letters(words));
  }
  await expect(page.locator('details.fold[open]')).toHaveCount(0);
});
