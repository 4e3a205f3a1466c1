// Starts the app in its own page: first the search of its first screen, then its script and its WebAssembly; says plainly what to do
// when that fails.
import { leave, show } from './first.js';
import { connect } from './solver.js';

const { app: script, wasm, finder, finderWasm } = document.querySelector('script[data-app]').dataset;
const at = (name) => new URL(name, document.baseURI).href;
/** How long the app waits for the search that comes before it, in milliseconds. */
const PATIENCE = 5000;

const starting = document.querySelectorAll('#starting, .starting');
const hide = (hidden) => { for (const element of starting) element.hidden = hidden; };

function tell(text) {
  const place = document.getElementById('starting');
  if (!place) return;
  hide(false);
  // Above the machines of the first screen, where it is seen.
  place.parentElement.prepend(place);
  place.textContent = text;
  place.removeAttribute('aria-busy');
}

const next = () => new Promise((then) => { setTimeout(then); });
const isStart = () => ['', '#', '#/'].includes(location.hash);

/** Script and program, at once. */
async function load() {
  const program = fetch(at(wasm));
  program.catch(() => {});
  return { app: await import(at(script)), program };
}

/** The machines of the first screen, as long as that is what is asked for; the text of their table. */
async function first() {
  const late = new Promise((then) => { setTimeout(then, PATIENCE); });
  try {
    const table = await Promise.race([show(finder, finderWasm), late]);
    if (table && isStart()) hide(true);
    return table;
  } catch {
    // Without it the app finds them, a little later.
    return undefined;
  }
}

async function start() {
  if (typeof WebAssembly !== 'object') {
    tell('This browser has no WebAssembly, which the app needs. Open this page in a current browser, or switch WebAssembly on.');
    return;
  }
  try {
    // The first screen is painted before anything else is done; nothing is painted in a tab that nobody sees.
    if (document.visibilityState === 'visible') await new Promise(requestAnimationFrame);
    await next();
    // What is kept on this device is there at once: nothing need wait for anything.
    const kept = navigator.serviceWorker?.controller && load();
    const table = isStart() ? await first() : undefined;
    const { app, program } = await (kept || load());
    await app.default({ module_or_path: program });
    // Getting it ready, reading the table and showing it are pieces of work: the browser answers in between.
    await next();
    if (table) {
      app.takeTable(table);
      await next();
    }
    app.openPage(connect(app, at(script)));
    leave();
  } catch (error) {
    console.error(error);
    tell('The app could not be loaded. Check the connection and reload this page. Nothing that you saved is lost.');
  }
}

/** The frame that stands until the app is there is that of the first screen. */
function follow() {
  if (isStart()) return;
  document.getElementById('first-screen')?.remove();
  hide(false);
}

addEventListener('hashchange', follow, { once: true });
follow();
start();
