// Measures the first screen as Lighthouse does for a phone on a slow line, several times, and prints the middle of each figure. The build is served
// packed, as hosts serve it.
//
//     node lighthouse.mjs [RUNS]
import { readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { launch } from 'chrome-launcher';
import lighthouse from 'lighthouse';

const runs = Number(process.argv[2] ?? 3);
const root = fileURLToPath(new URL('../../dist/', import.meta.url));
const types = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8', '.wasm': 'application/wasm',
  '.json': 'application/json', '.svg': 'image/svg+xml', '.png': 'image/png', '.webmanifest': 'application/manifest+json',
};
const packed = new Map();
const server = createServer((request, response) => {
  const path = decodeURIComponent(new URL(request.url, 'http://x').pathname);
  const file = join(root, normalize(path.endsWith('/') ? `${path}index.html` : path));
  try {
    if (!file.startsWith(root) || !statSync(file).isFile()) throw new Error('no such file');
  } catch {
    response.writeHead(404).end();
    return;
  }
  if (!packed.has(file)) packed.set(file, gzipSync(readFileSync(file), { level: 9 }));
  const known = /-[0-9a-f]{16}(_bg)?\.\w+$/.test(file);
  response.writeHead(200, {
    'content-type': types[extname(file)] ?? 'application/octet-stream', 'content-encoding': 'gzip',
    'cache-control': known ? 'max-age=31536000, immutable' : 'no-cache',
  });
  response.end(packed.get(file));
}).listen(0, '127.0.0.1');
await new Promise((listening) => { server.once('listening', listening); });

const middle = (all) => [...all].sort((a, b) => a - b)[Math.floor(all.length / 2)];
const figures = {
  performance: (result) => result.categories.performance.score,
  'first paint, s': (result) => result.audits['first-contentful-paint'].numericValue / 1000,
  'largest paint, s': (result) => result.audits['largest-contentful-paint'].numericValue / 1000,
  'blocking time, ms': (result) => result.audits['total-blocking-time'].numericValue,
  'interactive, s': (result) => result.audits.interactive.numericValue / 1000,
  'speed index, s': (result) => result.audits['speed-index'].numericValue / 1000,
  'layout shift': (result) => result.audits['cumulative-layout-shift'].numericValue,
  'fetched, KB': (result) => result.audits['total-byte-weight'].numericValue / 1024,
};
const all = [];
for (let run = 0; run < runs; run += 1) {
  const chrome = await launch({ chromePath: process.env.CHROMIUM ?? '/usr/bin/chromium', chromeFlags: ['--headless=new', '--no-sandbox', '--disable-gpu', '--disable-quic'] });
  const { lhr } = await lighthouse(`http://127.0.0.1:${server.address().port}/`, { port: chrome.port, onlyCategories: ['performance'], logLevel: 'error' });
  all.push(lhr);
  await chrome.kill();
}
for (const [name, of] of Object.entries(figures)) {
  const each = all.map(of);
  console.log(`${name.padEnd(20)} ${middle(each).toFixed(2).padStart(8)}   (${each.map((one) => one.toFixed(2)).join(', ')})`);
}
if (process.env.DETAIL) console.log(JSON.stringify(all[0].audits['largest-contentful-paint-element']?.details ?? all[0].audits['lcp-breakdown-insight']?.details, null, 1));
server.close();
