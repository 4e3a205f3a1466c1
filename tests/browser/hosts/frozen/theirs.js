import { checkTable, folder, pair, version } from '/pairwright.js';

const told = { verdict: [], saved: [], enquiry: [] };
for (const name of Object.keys(told)) {
  document.addEventListener(name, (event) => {
    told[name].push({ id: event.target.id, detail: event.detail });
    if (name === 'enquiry') event.preventDefault();
  });
}

const text = await (await fetch('table.json')).text();
const table = JSON.parse(text);
const machine = { ...table.carriers.find((one) => one.id === 'quern-q27'), id: 'theirs', model: 'Theirs' };
const refused = async (...asked) => pair(...asked).then(() => null, (why) => ({ message: why.message, detail: why.detail }));

window.theirs = {
  told,
  version,
  folder,
  pairing: await pair(text, 'quern-q27', 'thistlecut-r60'),
  ofObject: await pair(table, 'quern-q27', 'thistlecut-r60'),
  own: await pair(table, machine, 'thistlecut-r60'),
  refused: await refused(table, 'quem-q27', 'thistlecut-r60'),
  checked: await checkTable(text),
  wrong: await checkTable({ ...table, carriers: [{ id: 'm', model: 'M', class: 'mini-excavator', operating_mass: '3' }] }),
};
document.getElementById('out').textContent = window.theirs.pairing.verdict;
