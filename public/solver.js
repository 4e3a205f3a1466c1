// What takes time is asked of the app's solver by messages: in a worker beside the page, or, where none can start (a page of another
// origin, a policy that forbids it), a stretch at a time in the page itself. Who asks sees no difference.

/** How long the browser may be kept waiting in the page itself, in milliseconds: with what it does besides, two frames. */
const IN_PAGE = 24;
/** How often it is told how far the solving has come, in milliseconds: what is all there by then is told at once. */
const TOLD = 300;

/** Answers messages by a module's solver; hands out replies, each a text of a number, a blank and an answer. */
export function serve(app, tell, stretch) {
  const solver = new app.Solver();
  let going = false;
  let told = 0;
  const go = () => {
    const end = performance.now() + stretch;
    let more = true;
    while (more && performance.now() < end) more = solver.step();
    if (!more || performance.now() - told > TOLD) {
      for (const reply of solver.replies()) tell(reply);
      told = performance.now();
    }
    going = more;
    // What was said meanwhile is heard first.
    if (more) setTimeout(go);
  };
  return (message) => {
    // A table comes as mark and text: it is large, and goes as it is.
    if (typeof message === 'string') solver.hear(message);
    else solver.takeTable(...message);
    if (going) return;
    going = true;
    told = performance.now();
    setTimeout(go);
  };
}

/** Connects a page with a solver. `app` is the module that the page runs, `script` the address of its script. */
export function connect(app, script) {
  const tables = [];
  // Who waits for answers, by number: the message that asked, and who takes what comes.
  const waits = new Map();
  let last = 0;
  let say;
  const tell = (reply) => {
    const end = reply.indexOf(' ');
    waits.get(Number(reply.slice(0, end)))?.take(reply.slice(end + 1));
  };
  // Whoever answers from now on is told all that is open.
  const by = (hear) => {
    say = hear;
    for (const message of [...tables, ...[...waits.values()].map((wait) => wait.message)]) say(message);
  };
  const inPage = () => by(serve(app, tell, IN_PAGE));
  const start = () => {
    let worker;
    try {
      worker = new Worker(new URL('./solver-worker.js', import.meta.url), { type: 'module' });
    } catch {
      return inPage();
    }
    worker.onmessage = ({ data }) => {
      if (data === 'ready') by((message) => worker.postMessage(message));
      else tell(data);
    };
    worker.onerror = (event) => {
      event.preventDefault();
      // One fault is enough: the page must not begin twice.
      worker.onerror = null;
      worker.onmessage = null;
      worker.terminate();
      inPage();
    };
    return worker.postMessage({ script, module: app.ownModule() });
  };
  start();
  return {
    /** Hands over a table, by its mark. */
    table(mark, text) {
      tables.push([mark, text]);
      say?.([mark, text]);
    },
    /** Asks; gives the number by which it is stopped. */
    ask(request, take) {
      last += 1;
      const message = `{"Ask":{"id":${last},"request":${request}}}`;
      waits.set(last, { message, take });
      say?.(message);
      return last;
    },
    /** Nobody waits for that any more. */
    stop(id) {
      if (waits.delete(id)) say?.(`{"Stop":{"id":${id}}}`);
    },
  };
}
