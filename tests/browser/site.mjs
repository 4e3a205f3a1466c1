// A host of the built app that a test can change while a browser visits it: another version, missing files, a host that
// is only half filled, another table, no answer. Each has an address of its own, so that tests do not meet.
import { readFileSync, readdirSync } from 'node:fs';
import { extname, join, normalize } from 'node:path';

const sites = new Map();

/** The site of this name; as it is built, until a test says otherwise. */
function named(name) {
  if (!sites.has(name)) sites.set(name, { version: 1, page: 0, missing: [], silent: [], table: '', asPage: [], mayKeep: false, asked: [] });
  return sites.get(name);
}

/** PUT changes what a site is, GET tells what was asked of it. */
export function change(name, _, request, answer) {
  const site = named(name);
  if (request.method !== 'PUT') return answer(200, 'application/json', JSON.stringify(site.asked));
  let text = '';
  request.on('data', (part) => { text += part; });
  request.on('end', () => {
    Object.assign(site, JSON.parse(text));
    answer(200, 'text/plain', 'changed');
  });
  return undefined;
}

/** Serves the build as a later one: other hashed names, another worker, a start page that tells its number. */
export function serve(name, path, request, answer, { root, types }) {
  const site = named(name);
  if (path === 'other.html') return answer(200, 'text/html', '<!doctype html><title>Other</title><h1>Another page of this folder</h1>');
  const second = path.startsWith('yard/tools/');
  const asked = (second ? path.slice('yard/tools/'.length) : path) || 'index.html';
  if (!second) site.asked.push(asked);
  if (!second && site.missing.includes(asked)) return answer(404, 'text/plain', 'no such file');
  if (!second && site.silent.includes(asked)) return undefined;
  if (!second && site.asPage.includes(asked)) return answer(200, 'text/html', '<!doctype html><title>Log in</title>');
  // The second copy stays as it is built. A host that is half filled has the start page of one version, the rest of another.
  const version = second ? 1 : (asked === 'index.html' && site.page) || site.version;
  const renamed = later(root, version);
  let real = asked;
  for (const [old, now] of renamed) {
    if (asked.startsWith(`${old}.`) || asked.startsWith(`${old}_`)) return answer(404, 'text/plain', 'no such file any more');
    if (asked.startsWith(now)) real = old + asked.slice(now.length);
  }
  const file = join(root, normalize(`/${real}`));
  let body;
  try {
    body = readFileSync(file);
  } catch {
    return answer(404, 'text/plain', 'no such file');
  }
  if (['index.html', 'worker.js'].includes(real)) {
    let text = body.toString().replace("VERSION = '", `VERSION = '${version}-`).replace('<html ', `<html data-build="${version}" `);
    for (const [old, now] of renamed) text = text.replaceAll(old, now);
    body = text;
  }
  if (real === 'table/demo.json' && site.table) body = JSON.stringify({ ...JSON.parse(body), title: site.table });
  // Most hosts let a browser keep what has a hashed name.
  const kept = site.mayKeep && /^(pairwright-)?app-[0-9a-f]+/.test(asked);
  return answer(200, types[extname(file)] ?? 'application/octet-stream', body, kept ? 'max-age=31536000, immutable' : undefined);
}

/** Hashed names as they are built, with their names in a later version. */
function later(root, version) {
  if (version === 1) return [];
  const hashed = readdirSync(root).map((name) => /^((?:pairwright-)?app-)([0-9a-f]+)(?=[._])/.exec(name)).filter(Boolean);
  return [...new Map(hashed.map(([stem, kind, hash]) => [stem, `${kind}${version}${hash}`]))];
}
