// Keeps the app on this device, so that it opens without a signal.
//
// The build writes the version, the files and the app's hashed name into this file. Each version has a cache of its own,
// and a version takes over only when the last tab of the one before is closed, or when a person asks for it.
const VERSION = '{{version}}';
const APP = '{{app}}';
const FILES = JSON.parse('{{files}}');
// What few need and is large: it is kept when the app has nothing else to do, or when it is first asked for.
const LATER = JSON.parse('{{later}}');

const SCOPE = self.registration.scope;
// No address holds a space: a copy of the app in a folder below has another prefix, and other apps never have this one.
const PREFIX = `pairwright:${SCOPE} `;
const CACHE = PREFIX + VERSION;
const START = new URL('./', SCOPE).href;
const INDEX = new URL('index.html', SCOPE).href;
const TABLE = new URL('table/demo.json', SCOPE).href;
const LISTED = new Set(FILES.map((name) => new URL(name, SCOPE).href));
const KEPT_LATER = new Set(LATER.map((name) => new URL(name, SCOPE).href));
// Where the tabs that still run an older version are noted; no request has this address as its key.
const OLD_TABS = new URL('?old-tabs', SCOPE).href;
// A script, program or style of another version, which a tab of that version may still ask for.
const OF_A_BUILD = /^(pairwright-app|pairwright-finder|pairwright-importer|app)-[0-9a-f]+(_bg)?\.(js|wasm|css)$/;
// How long the table may keep one waiting on a weak signal.
const PATIENCE = 3000;

self.addEventListener('install', (event) => event.waitUntil(keepAll()));
self.addEventListener('activate', (event) => event.waitUntil(takeOver()));
self.addEventListener('message', (event) => {
  if (event.data?.use === 'now') self.skipWaiting();
  // Without a signal, or without room, it is tried again the next time.
  if (event.data?.keep === 'the rest') event.waitUntil(Promise.all([...KEPT_LATER].map(keepLater)).catch(() => {}));
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  url.hash = '';
  if (request.method !== 'GET' || !url.href.startsWith(SCOPE)) return;
  const answer = answerTo(event, url);
  if (!answer) return;
  event.respondWith(answer);
  if (request.mode !== 'navigate') event.waitUntil(tidy());
});

/** The answer to a request of ours; nothing to one that is none of our business. */
function answerTo(event, url) {
  const { request } = event;
  if (url.href === TABLE && LISTED.has(TABLE)) return table(event);
  if (LISTED.has(url.href) && url.href !== START) return kept(url.href, request);
  if (KEPT_LATER.has(url.href)) return keepLater(url.href);
  if (OF_A_BUILD.test(url.href.slice(SCOPE.length))) return keptOnce(url.href, request);
  url.search = '';
  if (request.mode === 'navigate' && (url.href === START || url.href === INDEX)) return kept(START, request);
  return undefined;
}

/** A file of this version; from the network should the browser have thrown it away. */
async function kept(address, request) {
  return (await caches.match(address, { cacheName: CACHE, ignoreVary: true })) ?? fetch(request);
}

/** A file that is kept as soon as it is first fetched. */
async function keepLater(address) {
  const kept = await caches.match(address, { cacheName: CACHE, ignoreVary: true });
  if (kept) return kept;
  const answer = await ofBuild(address);
  // A version that has not taken over yet has no cache, and one that has been replaced gets none.
  if (await caches.has(CACHE)) await (await caches.open(CACHE)).put(address, answer.clone()).catch(() => {});
  return answer;
}

/** A file of another version, as long as that is kept. */
async function keptOnce(address, request) {
  for (const name of await ours()) {
    const found = await caches.match(address, { cacheName: name, ignoreVary: true });
    if (found) return found;
  }
  return fetch(request);
}

/** The app's own table: a host may put a newer one in its place without a new build, so the network is asked first. */
async function table(event) {
  const asked = fresh(TABLE, 'no-cache').then(async (answer) => {
    // A page to log in to a network is no table, whatever its status says.
    if (answer.headers.get('content-type')?.includes('html')) throw new Error(`${TABLE} is a page, no table`);
    await (await caches.open(CACHE)).put(TABLE, answer.clone());
    return answer;
  });
  event.waitUntil(asked.catch(() => {}));
  const late = new Promise((_, reject) => { setTimeout(reject, PATIENCE); });
  try {
    return await Promise.race([asked, late]);
  } catch {
    return kept(TABLE, event.request);
  }
}

/** Fetches a whole file as the host has it now; what is not the file itself is refused. */
async function fresh(address, cache = 'reload') {
  const answer = await fetch(address, { cache });
  if (!answer.ok || answer.redirected) throw new Error(`${address} cannot be kept: status ${answer.status}`);
  // Read to its end at once: an answer that waits holds a connection, of which a host gets but a few.
  const body = await answer.blob();
  const headers = new Headers(answer.headers);
  // What says how it travelled is not true of what has arrived.
  for (const name of ['content-encoding', 'content-length']) headers.delete(name);
  return new Response(body, { headers });
}

/** A file of this build. What is named by its content is taken from what the browser has just fetched for the page, if it kept it. */
async function ofBuild(address) {
  if (!OF_A_BUILD.test(address.slice(SCOPE.length))) return fresh(address);
  const kept = await fresh(address, 'force-cache').catch(() => undefined);
  return !kept || kept.headers.get('content-type')?.includes('html') ? fresh(address) : kept;
}

/** Keeps every file of this version, or none. */
async function keepAll() {
  const known = await caches.has(CACHE);
  try {
    const answers = await Promise.all([...LISTED].map(async (address) => [address, await ofBuild(address)]));
    // A host that is just being filled may still give the start page of another version.
    const start = answers.find(([address]) => address === START)[1];
    if (!(await start.clone().text()).includes(APP)) throw new Error('the start page is of another version');
    const cache = await caches.open(CACHE);
    await Promise.all(answers.map(([address, answer]) => cache.put(address, answer)));
  } catch (error) {
    if (!known) await caches.delete(CACHE);
    throw error;
  }
}

/** The names of our caches, of all versions. */
async function ours() {
  return (await caches.keys()).filter((name) => name.startsWith(PREFIX));
}

/** Notes which tabs run an older version: what they need stays until they are gone. */
async function takeOver() {
  const first = (await ours()).every((name) => name === CACHE);
  // The very first version serves the tab that fetched it, too.
  if (first) return self.clients.claim();
  const tabs = (await self.clients.matchAll()).map((tab) => tab.id);
  await (await caches.open(CACHE)).put(OLD_TABS, new Response(JSON.stringify(tabs)));
  return tidy();
}

let isTidy = false;

/** Deletes what older versions kept, once no tab runs one. */
async function tidy() {
  // A newer version that is being kept or waits has its cache already.
  if (isTidy || self.registration.installing || self.registration.waiting) return;
  const others = (await ours()).filter((name) => name !== CACHE);
  if (others.length > 0) {
    const noted = await caches.match(OLD_TABS, { cacheName: CACHE });
    const open = new Set((await self.clients.matchAll({ includeUncontrolled: true })).map((tab) => tab.id));
    if (noted && (await noted.json()).some((tab) => open.has(tab))) return;
    await Promise.all(others.map((name) => caches.delete(name)));
  }
  isTidy = true;
}
