import { expect, picture, test } from '../../helpers';

test('invariant: the element works in a page and leaves everything else as it is', async ({ page }) => {
  await page.goto('/hosts/plain/');
  const before = await page.evaluate(() => ({
    inside: document.querySelector('pairwright-fit')!.innerHTML, address: location.href, length: history.length,
    heading: getComputedStyle(document.querySelector('#theirs')!).cssText,
  }));
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('heading', { level: 1, name: /Quern QU 27/ })).toBeVisible();
  await expect(page.getByText('Which attachments fit your machine?')).toBeHidden();
  await page.evaluate(() => {
    (window as any).told = [];
    document.body.addEventListener('verdict', (event: any) => (window as any).told.push(event.detail));
  });
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(element.getByRole('heading', { level: 1, name: /Thistlecut TI 60/ })).toBeVisible();
  await expect(element.locator('.sentence')).toBeVisible();
  await picture(page, '30-element');
  const after = await page.evaluate(() => ({
    inside: document.querySelector('pairwright-fit')!.innerHTML, address: location.href, length: history.length,
    heading: getComputedStyle(document.querySelector('#theirs')!).cssText,
  }));
  expect(after).toEqual(before);
  await expect(page).toHaveTitle("A dealer's page");
  const told = await page.evaluate(() => (window as any).told);
  expect(told).toHaveLength(1);
  expect([told[0].carrier.id, told[0].head.id]).toEqual(['quern-q27', 'thistlecut-r60']);
  expect(told[0].verdict).toMatch(/^[a-z-]+$/);
  // A link with a key held is the browser's, and leads to the app.
  const address = await element.locator('.path').getByRole('link', { name: 'Quern QU 27' }).getAttribute('href');
  expect(new URL(address!).pathname + new URL(address!).hash).toMatch(/^\/#\/machine\/quern-q27\?from=1\/m/);
});

test('attributes may change, and what is saved and asked is told with plain data', async ({ page }) => {
  await page.goto('/hosts/plain/');
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  await page.evaluate(() => {
    const told: any = ((window as any).told = { saved: [], enquiry: [] });
    document.addEventListener('saved', (event: any) => told.saved.push(event.detail));
    document.addEventListener('enquiry', (event: any) => { event.preventDefault(); told.enquiry.push(event.detail); });
    const element = document.querySelector('pairwright-fit')!;
    element.setAttribute('head', 'thistlecut-r60');
    element.setAttribute('enquiry', 'yard@dealer.example');
    element.setAttribute('units', 'us');
  });
  await expect(element.getByRole('heading', { level: 1, name: /Thistlecut TI 60/ })).toBeVisible();
  await expect(element.getByText('psi').first()).toBeVisible();
  await element.getByText('Ask your dealer').click();
  await expect(element.getByLabel("Your dealer's mail address")).toHaveCount(0);
  await element.getByRole('link', { name: 'Write it as a mail' }).click();
  const [enquiry] = await page.evaluate(() => (window as any).told.enquiry);
  expect(enquiry.to).toBe('yard@dealer.example');
  expect(enquiry.body).toContain('Quern QU 27');
  expect(enquiry.link).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/#\/link\/3\//);
  expect(enquiry.head.id).toBe('thistlecut-r60');
  await page.evaluate(() => document.querySelector('pairwright-fit')!.removeAttribute('head'));
  await element.getByRole('checkbox', { name: /Thistlecut TI 60/ }).check();
  await element.getByRole('checkbox', { name: /Wrackline WN 80/ }).check();
  await element.getByRole('link', { name: 'Compare 2 side by side' }).click();
  await element.getByLabel('Save under a name').fill('Terrace');
  await element.getByRole('button', { name: 'Save', exact: true }).click();
  await expect(element.getByText('Saved as “Terrace” in this browser.')).toBeVisible();
  const [saved] = await page.evaluate(() => (window as any).told.saved);
  expect([saved.format, saved.saved.name, saved.saved.heads.length]).toEqual(['pairwright.saved', 'Terrace', 2]);
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('show', 'none'));
  await expect(element.getByLabel('Save under a name')).toHaveCount(0);
  await expect(element.getByRole('navigation')).toHaveCount(0);
  await page.evaluate(() => {
    const element = document.querySelector('pairwright-fit')!;
    element.setAttribute('head', 'thistlecut-r60');
  });
  await expect(element.locator('.sentence')).toBeVisible();
  await expect(element.getByRole('heading', { name: 'Checks' })).toHaveCount(0);
  await expect(element.getByRole('heading', { name: 'Danger' })).toBeVisible();
});

test('a sheet is told once, whatever else is set, and what is not shown is not there', async ({ page }) => {
  await page.goto('/hosts/plain/');
  const element = page.locator('pairwright-fit');
  await page.evaluate(() => {
    (window as any).told = 0;
    document.addEventListener('verdict', () => { (window as any).told += 1; });
    const element = document.querySelector('pairwright-fit')!;
    element.removeAttribute('carrier');
    element.setAttribute('head', 'thistlecut-r60');
  });
  await element.getByRole('link', { name: /Quern QU 27/ }).click();
  await expect(element.locator('.sentence')).toBeVisible();
  await page.evaluate(() => {
    const element = document.querySelector('pairwright-fit')!;
    element.setAttribute('enquiry', 'yard@dealer.example');
    element.setAttribute('units', 'us');
  });
  await expect(element.getByText('psi').first()).toBeVisible();
  expect(await page.evaluate(() => (window as any).told)).toBe(1);
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('show', 'none'));
  await expect(element.getByText('Ask your dealer')).toHaveCount(0);
  await expect(element.getByText('Send a link')).toHaveCount(0);
  await expect(element.getByRole('link', { name: 'Machines' })).toHaveCount(0);
});

test('it takes its place in every layout, and is hidden with its page', async ({ page }) => {
  await page.goto('/hosts/plain/');
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  const width = (css: string) => page.evaluate((css) => {
    const place = (document.querySelector('#place') ?? document.body.appendChild(document.createElement('div'))) as HTMLElement;
    place.id = 'place';
    place.style.cssText = css;
    const element = document.querySelector('pairwright-fit')!;
    if (element.parentElement !== place) place.append(element);
    return element.getBoundingClientRect().width;
  }, css);
  for (const css of [
    'display: flex', 'display: flex; flex-direction: column; align-items: center', 'display: grid; justify-items: center',
    'display: block',
  ]) {
    expect(await width(css), css).toBeGreaterThan(250);
  }
  await width('visibility: hidden');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeHidden();
  await width('display: block');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  await page.evaluate(() => { (document.querySelector('pairwright-fit') as HTMLElement).hidden = true; });
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeHidden();
});

test('links may lead to the app in the place of the page', async ({ page }) => {
  await page.goto('/hosts/plain/');
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('links', 'app'));
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(page).toHaveURL(/\/#\/machine\/quern-q27\/thistlecut-r60\?from=1\/m/);
  await expect(page.getByRole('heading', { level: 1, name: /Thistlecut TI 60/ })).toBeVisible();
});

test('links may lead to the app in a new tab', async ({ page, context }) => {
  await page.goto('/hosts/plain/');
  const element = page.locator('pairwright-fit');
  await expect(element.getByRole('link', { name: /Thistlecut TI 60/ })).toBeVisible();
  await page.evaluate(() => document.querySelector('pairwright-fit')!.setAttribute('links', 'new-tab'));
  const opened = context.waitForEvent('page');
  await element.getByRole('link', { name: /Thistlecut TI 60/ }).click();
  await expect(await opened).toHaveURL(/\/#\/machine\/quern-q27\/thistlecut-r60\?from=1\/m/);
  await expect(page).toHaveURL(/\/hosts\/plain\/$/);
});
