import { expect, notesAnswers, test, worked } from '../../helpers';

async function held(page) {
  let release = () => {};
  const wait = new Promise<void>((resolve) => { release = resolve; });
  await page.route('**/*.wasm', async (route) => { await wait; await route.continue(); });
  return () => release();
}

test('what stands within the element is shown until it is ready', async ({ page }) => {
  const release = await held(page);
  const asked = page.waitForRequest('**/*.wasm');
  await page.goto('/hosts/slow-network/');
  await expect(page.locator('#meanwhile')).toBeVisible();
  // Set while it loads: it counts.
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('head', 'thistlecut-r60'));
  await asked;
  await worked(page);
  await expect(page.locator('#meanwhile')).toBeVisible();
  release();
  await expect(page.locator('pairwright-fit').getByRole('heading', { level: 1, name: /Thistlecut TI 60/ })).toBeVisible();
  await expect(page.locator('#meanwhile')).toBeHidden();
});

test('taken out while it loads it does not start', async ({ page }) => {
  const release = await held(page);
  await page.goto('/hosts/slow-network/');
  await page.evaluate(() => {
    (window as any).taken = document.querySelector('pairwright-fit');
    (window as any).taken.remove();
  });
  await worked(page);
  release();
  // Loaded, as whoever asks for it in this page is told.
  await page.evaluate(async () => {
    const script = await import(document.querySelector<HTMLScriptElement>('script[type="module"]')!.src.replace('pairwright-fit.js', 'pairwright.js'));
    await Promise.all([script.load(), script.style()]);
  });
  await worked(page);
  expect(await page.evaluate(() => (window as any).taken.shadowRoot.querySelector('.frame').childElementCount)).toBe(0);
  await page.evaluate(() => document.body.append((window as any).taken));
  await expect(page.locator('pairwright-fit').getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
});

test('a table that does not come is told where nothing stands within the element', async ({ page }) => {
  let missing = true;
  let release = () => {};
  const wait = new Promise<void>((resolve) => { release = resolve; });
  await page.route('**/table/demo.json', async (route) => {
    await wait;
    await (missing ? route.fulfill({ status: 404 }) : route.continue());
  });
  await page.goto('/hosts/slow-network/');
  // Before the answer comes: an app that starts fast would else leave what it found there.
  await page.evaluate(() => { document.querySelector('pairwright-fit')!.replaceChildren(); });
  release();
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('alert')).toContainText('status 404');
  missing = false;
  await element.getByRole('button', { name: 'Try again' }).click();
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
});

test('a table that does not come leaves what stands within the element', async ({ page }) => {
  await page.route('**/table/demo.json', (route) => route.fulfill({ status: 404, body: 'nothing here' }));
  const answered = await notesAnswers(page);
  await page.goto('/hosts/slow-network/');
  await answered('table/demo.json');
  await expect(page.locator('#meanwhile')).toBeVisible();
});
