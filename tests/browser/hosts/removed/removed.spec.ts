import { expect, test, worked } from '../../helpers';

test('invariant: an element moved within the page goes on as if nothing had been', async ({ page }) => {
  await page.goto('/hosts/removed/');
  const element = page.locator('pairwright-fit');
  await element.getByRole('checkbox', { name: /Thistlecut TI 60/ }).check();
  await page.evaluate(() => {
    const element = document.querySelector('pairwright-fit')!;
    (window as any).row = element.shadowRoot!.querySelector('.fits li');
    document.querySelector('#there')!.append(element);
  });
  await expect(page.locator('#there').getByRole('checkbox', { name: /Thistlecut TI 60/ })).toBeChecked();
  // The very same nodes: nothing was put up anew.
  await worked(page);
  const same = await page.evaluate(() => document.querySelector('pairwright-fit')!.shadowRoot!.contains((window as any).row));
  expect(same).toBe(true);
});

test('invariant: an element taken out and put back stands where it stood', async ({ page }) => {
  await page.goto('/hosts/removed/');
  const element = page.locator('pairwright-fit');
  await element.getByRole('checkbox', { name: /Wrackline WN 80/ }).check();
  await element.getByRole('button', { name: /^Units/ }).click();
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(element.locator('.sentence')).toBeVisible();
  await page.evaluate(() => {
    (window as any).taken = document.querySelector('pairwright-fit');
    (window as any).taken.remove();
  });
  await page.waitForFunction(() => (window as any).taken.shadowRoot.querySelector('.frame').childElementCount === 0);
  await page.evaluate(() => document.querySelector('#there')!.append((window as any).taken));
  await expect(element.getByRole('heading', { level: 1, name: /Thistlecut TI 60/ })).toBeVisible();
  await expect(element.getByRole('button', { name: /^Units: gpm/ })).toBeVisible();
  await element.locator('.path').getByRole('link', { name: 'Quern QU 27' }).click();
  await expect(element.getByRole('checkbox', { name: /Wrackline WN 80/ })).toBeChecked();
});

test('told another thing while it is out, it shows that when it is back', async ({ page }) => {
  await page.goto('/hosts/removed/');
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  await page.evaluate(async () => {
    const taken = ((window as any).taken = document.querySelector('pairwright-fit')!);
    taken.remove();
    while (taken.shadowRoot!.querySelector('.frame')!.childElementCount) await new Promise(requestAnimationFrame);
    taken.setAttribute('carrier', 'quern-q56');
    taken.setAttribute('head', 'thistlecut-r90');
    document.querySelector('#there')!.append(taken);
  });
  await expect(element.getByRole('heading', { level: 1 })).toHaveText(/TI 90 on .*QU 56/);
});

test('invariant: of an element taken out for good nothing is left', async ({ page }) => {
  await page.goto('/hosts/removed/');
  const first = page.locator('pairwright-fit');
  await expect(first.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  const session = await page.context().newCDPSession(page);
  const counted = async () => {
    for (let again = 0; again < 3; again += 1) await session.send('HeapProfiler.collectGarbage');
    const { documents, nodes, jsEventListeners } = await session.send('Memory.getDOMCounters') as any;
    return { documents, nodes, jsEventListeners };
  };
  const round = async () => {
    await page.evaluate(async () => {
      const made = document.createElement('pairwright-fit');
      made.setAttribute('carrier', 'quern-q27');
      made.setAttribute('load', 'now');
      ((window as any).gone ??= []).push(new WeakRef(made));
      document.querySelector('#there')!.append(made);
      const frame = made.shadowRoot!.querySelector('.frame')!;
      while (!frame.querySelector('.fits li')) await new Promise(requestAnimationFrame);
      made.remove();
      while (frame.childElementCount) await new Promise(requestAnimationFrame);
    });
  };
  await round();
  const before = await counted();
  for (let times = 0; times < 5; times += 1) await round();
  const after = await counted();
  expect(after.nodes - before.nodes).toBeLessThan(50);
  expect(after.jsEventListeners - before.jsEventListeners).toBeLessThan(10);
  const left = await page.evaluate(() => (window as any).gone.filter((one: WeakRef<Element>) => one.deref()).length);
  // The last one may still stand in some register of the browser.
  expect(left).toBeLessThanOrEqual(1);
  await first.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(first.locator('.sentence')).toBeVisible();
});
