// Starts the app in its own page: loads its script and its WebAssembly, and says plainly what to do when that fails.
import { connect } from './solver.js';

const own = document.querySelector('script[data-app]');

function tell(text) {
  const place = document.getElementById('starting');
  if (!place) return;
  place.textContent = text;
  place.removeAttribute('aria-busy');
}

const next = () => new Promise((then) => { setTimeout(then); });

async function start() {
  if (typeof WebAssembly !== 'object') {
    tell('This browser has no WebAssembly, which the app needs. Open this page in a current browser, or switch WebAssembly on.');
    return;
  }
  try {
    // The first screen is painted before anything else is done; nothing is painted in a tab that nobody sees.
    if (document.visibilityState === 'visible') await new Promise(requestAnimationFrame);
    await next();
    const script = new URL(own.dataset.app, document.baseURI).href;
    const app = await import(script);
    await app.default({ module_or_path: new URL(own.dataset.wasm, document.baseURI).href });
    // Getting it ready and showing it are two pieces of work: the browser answers in between.
    await next();
    app.openPage(connect(app, script));
  } catch (error) {
    console.error(error);
    tell('The app could not be loaded. Check the connection and reload this page. Nothing that you saved is lost.');
  }
}

// The frame that stands until the app is there is that of the first screen.
if (!['', '#', '#/'].includes(location.hash)) document.getElementById('first-screen')?.remove();
start();
