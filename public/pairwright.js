// The app for other pages, under a name that stays: loads it once, and offers what it can compute to a page's own script.
// Where the built files are is written in after each build.
const files = { app: '{{app}}', wasm: '{{wasm}}', style: '{{style}}' };

/** The version of this build. */
export const version = '{{version}}';

/** The folder from which everything is loaded. */
export const folder = new URL('./', import.meta.url).href;

const at = (file) => new URL(file, folder).href;
// A failure is not kept: the next one who asks tries again.
const once = (load) => {
  let going;
  return () => (going ??= load().catch((fault) => {
    going = undefined;
    throw fault;
  }));
};

/** The app, started once for all of a page. */
export const load = once(async () => {
  if (typeof WebAssembly !== 'object') throw new Error('This browser has no WebAssembly.');
  const app = await import(at(files.app));
  await app.default({ module_or_path: at(files.wasm) });
  return app;
});

/** What takes time is asked of a solver, one for all of a page. */
export const line = once(async () => {
  const [app, { connect }] = await Promise.all([load(), import('./solver.js')]);
  return connect(app, at(files.app));
});

/** The app's style as a sheet that shadow roots share. */
export const style = once(async () => {
  const answer = await fetch(at(files.style));
  if (!answer.ok) throw new Error(`${at(files.style)} answers with status ${answer.status}.`);
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(await answer.text());
  return sheet;
});

const text = (thing) => (typeof thing === 'string' ? thing : (JSON.stringify(thing) ?? 'null'));

/** Asks the solver, which answers in JSON. */
async function asked(request) {
  const to = await line();
  return new Promise((resolve) => {
    const id = to.ask(JSON.stringify(request), (answer) => {
      to.stop(id);
      resolve(JSON.parse(JSON.parse(answer).Json));
    });
  });
}

function result(answer) {
  if (answer.error === undefined) return answer;
  throw Object.assign(new Error(answer.error), { detail: answer });
}

/**
 * Pairs a machine and an attachment of a table. The table is its text or the object of its JSON; the machine is an id of
 * the table, or an object as it would stand there. Gives the pairing as plain data; throws an Error that says what is
 * wrong, its `detail` with all problems.
 */
export async function pair(table, carrier, head) {
  return result(await asked({ Pair: { table: text(table), carrier: text(carrier), head: String(head) } }));
}

/** Pairs a machine with every attachment of a table: an array of pairings, the best first. Else as `pair`. */
export async function list(table, carrier) {
  return result(await asked({ List: { table: text(table), carrier: text(carrier) } }));
}

/** Reads a table and gives what is wrong with it as plain data. */
export async function checkTable(table) {
  return asked({ Check: { table: text(table) } });
}
