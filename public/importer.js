// Reads a dealer's files and writes tables as spreadsheets, beside the page: a worker that the page starts when it is first needed, with a
// program of its own. The build fills in the names of that program.
const PROGRAM = new URL('{{importer-wasm}}', import.meta.url);
const SCRIPT = new URL('{{importer}}', import.meta.url);

let program;
// The file that is open: it is read anew with every answer.
let file;

const load = async () => {
  const fetched = fetch(PROGRAM);
  fetched.catch(() => {});
  const { default: importer } = await import(SCRIPT);
  await importer({ module_or_path: fetched });
  return importer;
};

const read = ({ answers, units }) => ({ reading: file.read(answers, units), table: file.table(), layout: file.layout() });

/** What is asked for: a file or pasted cells to open, other answers to what is open, a table to write. */
const answer = (importer, asked) => {
  if (asked.open || asked.paste !== undefined) {
    const opened = asked.open ? importer.File.open(new Uint8Array(asked.open), asked.name) : importer.File.paste(asked.paste, asked.name);
    file?.free();
    file = opened;
    // What was answered about a file of this layout before holds for this one.
    const known = asked.layouts[file.layout()];
    return { ...read({ answers: known ?? '{}', units: asked.units }), known };
  }
  if (asked.write) return { bytes: importer.write(asked.write, asked.packed) };
  return read(asked);
};

addEventListener('message', async ({ data: [number, asked] }) => {
  try {
    program ??= load();
    const importer = await program.catch((error) => {
      // Tried anew the next time.
      program = undefined;
      throw Object.assign(new Error(String(error)), { away: true });
    });
    postMessage([number, answer(importer, asked)]);
  } catch (error) {
    postMessage([number, { fault: String(error?.message ?? error), away: error?.away === true }]);
  }
});
