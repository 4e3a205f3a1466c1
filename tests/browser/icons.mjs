// Draws public/icon.svg in the sizes that a home screen asks for: `make icons`.
import { readFileSync } from 'node:fs';
import { chromium } from '@playwright/test';

const folder = new URL('../../public/', import.meta.url);
const svg = readFileSync(new URL('icon.svg', folder), 'utf8');
const paper = /fill="(#[0-9a-f]{6})"/.exec(svg)[1];

// A system cuts a maskable icon to any shape around a circle of 80 % of its width: all of the drawing lies inside that.
const icons = [
  { name: 'icon-192.png', side: 192, share: 1 },
  { name: 'icon-512.png', side: 512, share: 1 },
  { name: 'icon-maskable-512.png', side: 512, share: 0.75 },
  { name: 'apple-touch-icon.png', side: 180, share: 1 },
];

const browser = await chromium.launch({ executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu'] });
for (const { name, side, share } of icons) {
  const page = await browser.newPage({ viewport: { width: side, height: side } });
  const width = Math.round(side * share);
  await page.setContent(`<style>
    body { margin: 0; background: ${paper}; display: grid; place-items: center; block-size: 100vh }
    svg { inline-size: ${width}px; block-size: ${width}px }
  </style>${svg}`);
  await page.screenshot({ path: new URL(name, folder).pathname });
  await page.close();
  console.log(`public/${name}`);
}
await browser.close();
