import { expect, open, test, unfold } from './helpers';

/**
 * From now on the page is translated as browsers do it: each text is put into two `<font>` elements that take its place, those that
 * come later too, and what says that it is not to be translated is left alone.
 */
async function translate(page) {
  await page.evaluate(() => {
    const left = 'script, style, textarea, svg, font, [translate="no"], .notranslate';
    const turn = (text: Text) => {
      if (!text.data.trim() || !text.parentElement || text.parentElement.closest(left)) return;
      const outer = document.createElement('font');
      outer.append(document.createElement('font'));
      outer.firstElementChild!.textContent = `⟦${text.data}⟧`;
      text.replaceWith(outer);
    };
    const all = (root: Node) => {
      const walker = document.createTreeWalker(root, NodeFilter.SHOW_TEXT);
      const texts: Text[] = [];
      while (walker.nextNode()) texts.push(walker.currentNode as Text);
      texts.forEach(turn);
    };
    all(document.body);
    new MutationObserver((records) => {
      for (const record of records) {
        if (record.type === 'characterData') turn(record.target as Text);
        for (const node of record.addedNodes) node.nodeType === Node.TEXT_NODE ? turn(node as Text) : all(node);
      }
    }).observe(document.body, { subtree: true, childList: true, characterData: true });
  });
}

test('invariant: a figure that changes is seen on a page that a browser translates', async ({ page }) => {
  await open(page, '#/machine/quern-q27/thistlecut-r60');
  await unfold(page, 'Oil, day of work, lift');
  const place = page.locator('.thermometer');
  await expect(place).toBeVisible();
  const plain = async () => (await place.innerText()).replace(/[⟦⟧]/g, '').replace(/\s+/g, ' ').trim();
  const slider = place.locator('input[type=range]');
  const at = async (value: string) => {
    await slider.evaluate((input: HTMLInputElement, value) => {
      input.value = value;
      input.dispatchEvent(new Event('input', { bubbles: true }));
      input.dispatchEvent(new Event('change', { bubbles: true }));
    }, value);
  };
  // As it is told without any translation.
  const told = new Map<string, string>();
  for (const value of ['-10', '60']) {
    await at(value);
    await expect(place).toContainText(value === '-10' ? /[-−]10 °C/ : '60 °C');
    told.set(value, await plain());
  }
  expect(told.get('-10')).not.toBe(told.get('60'));
  await translate(page);
  await expect(place).toContainText('⟦');
  for (const value of ['-10', '60', '-10']) {
    await at(value);
    await expect.poll(plain).toBe(told.get(value));
  }
  await expect(place).toContainText('⟦');
  // Units, another screen and back: nothing of before stays.
  await page.getByRole('button', { name: /^Units/ }).click();
  await expect(page.locator('.sentence')).toContainText('psi');
  await expect(page.locator('.sentence')).not.toContainText(/\d bar\b/);
  await page.getByRole('link', { name: 'Quotation' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Quotation');
  await expect(page.locator('.thermometer')).toHaveCount(0);
});

test('a translation that is taken back leaves the texts as they are', async ({ page }) => {
  await open(page, '#/machine/quern-q27');
  await expect(page.locator('.fit a.row').first()).toBeVisible();
  await expect(page.locator('[aria-busy="true"]')).toHaveCount(0);
  const before = await page.locator('main').innerText();
  await page.evaluate(() => {
    const walker = document.createTreeWalker(document.querySelector('main')!, NodeFilter.SHOW_TEXT);
    const texts: Text[] = [];
    while (walker.nextNode()) texts.push(walker.currentNode as Text);
    const pairs = texts.filter((text) => text.data.trim()).map((text) => {
      const font = document.createElement('font');
      font.textContent = `⟦${text.data}⟧`;
      text.replaceWith(font);
      return [text, font] as const;
    });
    (window as any).takeBack = () => pairs.forEach(([text, font]) => font.replaceWith(text));
  });
  await expect(page.locator('main')).toContainText('⟦');
  await page.evaluate(() => (window as any).takeBack());
  await expect(page.locator('main')).not.toContainText('⟦');
  await expect.poll(() => page.locator('main').innerText()).toBe(before);
});
