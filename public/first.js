// The first screen's search before the app is there: a small program finds the machines, in the app's own words, and this file is also
// the worker that runs it beside the page. Elements as in src/page/start.rs, so that nothing jumps when the app goes on with it.

/** The app's own table, as in src/page/loaded.rs. */
const TABLE = 'table/demo.json';

if (typeof document === 'undefined') {
  let finder;
  const begin = async ({ script, wasm, table }) => {
    const program = fetch(wasm);
    program.catch(() => {});
    const [{ default: finders }, answer] = await Promise.all([import(script), fetch(table, { cache: 'no-cache' })]);
    if (!answer.ok) throw new Error(`the table answers with status ${answer.status}`);
    const text = await answer.text();
    await finders({ module_or_path: program });
    finder = new finders.Finder(text);
    return { table: text };
  };
  addEventListener('message', async ({ data }) => {
    try {
      postMessage(finder ? { list: JSON.parse(finder.find(data.typed, data.chosen, data.all, data.units)) } : await begin(data));
    } catch (error) {
      // Told as a fault of the worker: without it the app finds the machines, a little later.
      setTimeout(() => { throw error; });
    }
  });
}

const make = (name, className, ...inside) => {
  const element = document.createElement(name);
  if (className) element.className = className;
  element.append(...inside);
  return element;
};

const kept = (key) => {
  try {
    return localStorage.getItem(`pairwright.${key}`) ?? undefined;
  } catch {
    return undefined;
  }
};

let worker;

/** Shows the machines below the search as soon as they can be found. Gives the table's text, for the app; nothing where another table is kept. */
export function show(script, wasm) {
  const screen = document.getElementById('first-screen');
  if (!screen || kept('table')) return Promise.resolve();
  worker = new Worker(import.meta.url, { type: 'module' });
  const field = document.getElementById('search');
  const chips = make('div', 'chips');
  chips.setAttribute('role', 'group');
  chips.setAttribute('aria-label', 'Class');
  const says = make('p', 'quiet');
  says.setAttribute('role', 'status');
  const machines = make('ul', 'list machines');
  const actions = make('p', 'actions');

  const find = () => {
    const { class: chosen, all } = screen.dataset;
    worker.postMessage({ typed: field.value, chosen, all: all === 'yes', units: kept('preference.units') });
  };
  const chip = ({ class: id, name, count }) => {
    const button = make('button', 'chip', make('span', 'capital', name), ' ', make('span', 'count', count));
    const chosen = id === screen.dataset.class;
    button.type = 'button';
    button.dataset.class = id;
    button.setAttribute('aria-pressed', chosen);
    button.onclick = () => {
      if (chosen) delete screen.dataset.class;
      else screen.dataset.class = id;
      find();
    };
    return button;
  };
  const row = ({ id, name, mass, says: brochure, apart }) => {
    const inside = [['name', name], ['end name', mass], ['quiet', brochure], ['end quiet', apart]];
    const link = make('a', 'row', ...inside.flatMap(([of, text]) => [' ', make('span', of, text)]).slice(1));
    link.href = `#/machine/${encodeURIComponent(id)}`;
    return make('li', '', link);
  };
  const draw = (list) => {
    const focused = document.activeElement?.dataset?.class;
    chips.replaceChildren(...list.classes.map(chip));
    if (focused) chips.querySelector(`[data-class="${focused}"]`)?.focus();
    says.textContent = list.says;
    machines.replaceChildren(...list.rows.map(row));
    const more = make('button', '', `Show ${list.more} more`);
    more.type = 'button';
    more.onclick = () => {
      screen.dataset.all = 'yes';
      find();
    };
    actions.replaceChildren(more);
    actions.hidden = list.more === 0;
    screen.querySelector('.mainly').append(chips, says, machines, actions);
  };

  return new Promise((done, fail) => {
    let table;
    worker.onerror = (event) => {
      event.preventDefault();
      fail(new Error(event.message));
    };
    worker.onmessage = ({ data }) => {
      // The app may be there by now, or another screen.
      if (!screen.isConnected) {
        leave();
        done(table);
      } else if (data.list) {
        draw(data.list);
        done(table);
      } else {
        table = data.table;
        find();
      }
    };
    field.addEventListener('input', () => {
      delete screen.dataset.class;
      delete screen.dataset.all;
      if (table) find();
    });
    const at = (name) => new URL(name, document.baseURI).href;
    worker.postMessage({ script: at(script), wasm: at(wasm), table: at(TABLE) });
  });
}

/** The app goes on with it. */
export function leave() {
  worker?.terminate();
}
