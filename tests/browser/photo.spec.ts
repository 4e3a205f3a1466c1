// A photo of a machine's plate: kept with the machine, scaled down, in the export, gone with it and back with it.
import { readFileSync } from 'node:fs';
import { expect, open, picture, test } from './helpers';
import type { Page } from '@playwright/test';

/** A picture as a camera takes it, as a file: 3200 × 2400 pixels. */
async function photo(page: Page) {
  const address = await page.evaluate(() => {
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [3200, 2400];
    const pen = canvas.getContext('2d')!;
    [pen.fillStyle, pen.font] = ['#ddd', '200px sans-serif'];
    pen.fillRect(0, 0, 3200, 2400);
    pen.fillStyle = '#111';
    ['OWN 80', '8050 kg', '46 kW'].forEach((line, at) => pen.fillText(line, 300, 600 + 400 * at));
    return canvas.toDataURL('image/jpeg', 0.9);
  });
  return { name: 'plate.jpg', mimeType: 'image/jpeg', buffer: Buffer.from(address.split(',')[1], 'base64') };
}

const shown = (page: Page) => page.getByRole('img', { name: 'The photo of the plate' });
const width = (page: Page) => shown(page).evaluate((image: HTMLImageElement) => image.decode().then(() => image.naturalWidth));

async function keep(page: Page) {
  await open(page, '#/own/new/mini-excavator');
  await page.getByLabel('Photo of the plate').setInputFiles(await photo(page));
  await expect(shown(page)).toBeVisible();
}

test('a photo of the plate is kept with the machine, scaled down, and stands beside its fields', async ({ page, browser }) => {
  await keep(page);
  expect(await width(page)).toBe(1600);
  await picture(page, 'plate-photo');
  const small = (await shown(page).boundingBox())!.height;
  await page.getByRole('button', { name: 'Larger' }).click();
  await expect.poll(async () => (await shown(page).boundingBox())!.height).toBeGreaterThan(2 * small);
  await page.getByRole('button', { name: 'Larger' }).click();
  await page.getByLabel('Operating mass').fill('8050 kg');
  await page.getByRole('button', { name: 'Next' }).click();
  await expect(shown(page)).toBeVisible();
  await page.reload();
  await expect(page.getByRole('heading', { name: 'What fits your machine' })).toBeVisible();
  await expect(shown(page)).toBeVisible();
  // Out by the export, and in again elsewhere.
  await open(page, '#/saved');
  const [file] = await Promise.all([page.waitForEvent('download'), page.getByRole('button', { name: 'Export everything' }).click()]);
  const path = await file.path();
  expect(readFileSync(path, 'utf8')).toContain('pairwright.photo');
  const other = await browser.newPage();
  await other.goto(new URL('#/saved', page.url()).href);
  await other.getByLabel('Import a file').setInputFiles(path);
  await expect(other.getByText('Imported: 1 machine, 1 photo.')).toBeVisible();
  await other.getByLabel('Import a file').setInputFiles(path);
  await expect(other.getByText('Already here: 2.')).toBeVisible();
  await other.goto(new URL('#/table', page.url()).href);
  await other.getByRole('link', { name: '8.1 t mini excavator' }).click();
  await expect(shown(other)).toBeVisible();
  expect(await width(other)).toBe(1600);
  await other.close();
});

test('a photo goes with its machine and comes back with it', async ({ page }) => {
  await keep(page);
  const kept = () => page.evaluate(() => new Promise((done) => {
    const asked = indexedDB.open('pairwright');
    asked.onsuccess = () => {
      const all = asked.result.transaction('photos').objectStore('photos').count();
      all.onsuccess = () => { asked.result.close(); done(all.result); };
    };
  }));
  expect(await kept()).toBe(1);
  await page.getByRole('button', { name: 'To the answer' }).click();
  await page.getByRole('button', { name: 'Delete it' }).click();
  await expect(page.getByText('is deleted.')).toBeVisible();
  await expect.poll(kept).toBe(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect.poll(kept).toBe(1);
  await open(page, '#/table');
  await page.getByRole('link', { name: /mini excavator/ }).first().click();
  await expect(shown(page)).toBeVisible();
  await page.getByRole('button', { name: 'Delete the photo' }).click();
  await expect(shown(page)).toHaveCount(0);
  expect(await kept()).toBe(0);
});

test('what is no picture, and a browser that keeps none, are told', async ({ page }) => {
  await open(page, '#/own/new/mini-excavator');
  const choice = page.getByLabel('Photo of the plate');
  await choice.setInputFiles({ name: 'plate.heic', mimeType: 'image/heic', buffer: Buffer.from('no picture') });
  await expect(page.getByText('The browser cannot read this picture: choose a JPEG or a PNG.')).toBeVisible();
  await page.evaluate(() => { indexedDB.open = () => { throw new DOMException('denied', 'SecurityError'); }; });
  await choice.setInputFiles(await photo(page));
  await expect(page.getByText('Not kept: the browser has no room for pictures of this page, or keeps none.')).toBeVisible();
  await expect(shown(page)).toHaveCount(0);
});
