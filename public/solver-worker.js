// The app's solver beside the page: runs the very module that the page runs, which is handed over ready to use.
import { serve } from './solver.js';

/** How long it works before it looks for new messages, in milliseconds. */
const STRETCH = 50;
let hear;

async function start({ script, module }) {
  try {
    const app = await import(script);
    await app.default({ module_or_path: module });
    hear = serve(app, (reply) => postMessage(reply), STRETCH);
    postMessage('ready');
  } catch (error) {
    // Told as a fault of the worker, as one over its work is: the page goes on by itself.
    setTimeout(() => { throw error; });
  }
}

addEventListener('message', ({ data }) => {
  if (hear) hear(data);
  else start(data);
});
