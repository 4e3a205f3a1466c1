// Serves the built app for the tests, at the root, below /yard/tools/, and with a strict policy below /strict/; pages that
// have the element below /hosts/; and some bad answers: /test/404, /test/500, /test/silent (never answers), /test/html (a
// page instead of a table). Below /site/<name>/ it is a host that a test changes by a PUT to /test/site/<name>; see site.mjs.
// The next port is another origin, whose host lets every page load from it.
import { createReadStream, readFileSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize } from 'node:path';
import { fileURLToPath } from 'node:url';
import { change, serve as serveSite } from './site.mjs';

const port = Number(process.argv[2] ?? 4173);
const root = fileURLToPath(new URL('../../dist/', import.meta.url));
const hosts = fileURLToPath(new URL('./hosts/', import.meta.url));
// The policy that the README asks a page for.
const strict = { 'content-security-policy': "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'" };
const types = {
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8',
  '.wasm': 'application/wasm', '.json': 'application/json', '.svg': 'image/svg+xml', '.png': 'image/png',
  '.webmanifest': 'application/manifest+json',
};

const serve = (elsewhere) => (request, response) => {
  const answer = (status, type, body, cacheControl = 'no-store') => {
    response.writeHead(status, { 'content-type': type, 'cache-control': cacheControl });
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
  const site = /^\/(test\/)?site\/([\w-]+)(?:\/(.*))?$/.exec(path);
  if (site) return (site[1] ? change : serveSite)(site[2], site[3] ?? '', request, answer, { root, types });
  const [base, inside] = path.startsWith('/hosts/')
    ? [hosts, path.slice('/hosts'.length)]
    : [root, path.replace(/^\/(yard\/tools|strict)\//, '/')];
  let file = join(base, normalize(inside));
  if (inside.endsWith('/')) file = join(file, 'index.html');
  try {
    if (!file.startsWith(base) || !statSync(file).isFile()) throw new Error('no such file');
  } catch {
    return answer(404, 'text/plain', 'no such file');
  }
  const more = {
    ...(/^\/(strict|hosts\/strict-policy)\//.test(path) ? strict : {}),
    ...(elsewhere ? { 'access-control-allow-origin': '*' } : {}),
  };
  response.writeHead(200, { 'content-type': types[extname(file)] ?? 'application/octet-stream', 'cache-control': 'no-store', ...more });
  if (base === hosts && extname(file) === '.html') {
    return response.end(readFileSync(file, 'utf8').replaceAll('{{other}}', `http://127.0.0.1:${port + 1}`));
  }
  return createReadStream(file).pipe(response);
};

createServer(serve(false)).listen(port, '127.0.0.1');
createServer(serve(true)).listen(port + 1, '127.0.0.1');
