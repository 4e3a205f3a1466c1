// Serves the built app for the tests, at the root and below /yard/tools/, and some bad answers:
// /test/404, /test/500, /test/silent (never answers), /test/html (a page instead of a table).
import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';

const port = Number(process.argv[2] ?? 4173);
const root = fileURLToPath(new URL('../../dist/', import.meta.url));
const types = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8',
  '.wasm': 'application/wasm', '.json': 'application/json', '.svg': 'image/svg+xml', '.png': 'image/png',
};

createServer((request, response) => {
  const answer = (status, type, body) => {
    response.writeHead(status, { 'content-type': type, 'cache-control': 'no-store' });
    response.end(body);
  };
  let path;
  try {
    path = decodeURIComponent(new URL(request.url, 'http://x').pathname);
  } catch {
    return answer(400, 'text/plain', 'not an address');
  }
  if (path === '/test/404') return answer(404, 'text/plain', 'nothing here');
  if (path === '/test/500') return answer(500, 'text/plain', 'broken');
  if (path === '/test/html') return answer(200, 'text/html', '<!doctype html><title>A page</title>');
  if (path === '/test/silent') return undefined;
  const inside = path.replace(/^\/yard\/tools\//, '/');
  let file = join(root, normalize(inside));
  if (inside.endsWith('/')) file = join(file, 'index.html');
  try {
    if (!file.startsWith(root) || !statSync(file).isFile()) throw new Error('no such file');
  } catch {
    return answer(404, 'text/plain', 'no such file');
  }
  response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-store' });
  return createReadStream(file).pipe(response);
}).listen(port, '127.0.0.1');
