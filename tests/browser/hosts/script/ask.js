import { checkTable, list, pair } from '/pairwright.js';

window.ask = { checkTable, list, pair };
const table = await (await fetch('/table/demo.json')).text();
const pairing = await pair(table, 'quern-q27', 'thistlecut-r60');
document.getElementById('out').textContent = pairing.verdict;
