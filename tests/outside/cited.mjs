// What the larder says of tables and papers, held against the cells that they print (cited.csv): each
// value in "afcd3 F002390 mannitol = 1 g" recomputed, each figure made of such values in its spread.
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { root } from './lib/site.mjs';
import { csv, foods, spread, table } from './lib/tables.mjs';

const cells = new Map();
const papers = new Map();
for (const { source, id, quantity, value } of csv(join(root, 'tests/outside/cited.csv'))) {
  cells.set(`${source}|${id}|${quantity}`, value);
  papers.set(source, [...papers.get(source) ?? [], ...value.split(' to ').map(Number)]);
}
const sources = table('sources.yaml').sources;
ok([...papers.keys()].every((id) => sources[id]), 'every source of a cell is among the sources');

// a cell as a number: a trace and what is below a limit count as nought
const number = (cell) => (cell === undefined || cell === '' || cell === 'N' ? NaN
  : /^\(?(Tr|<)/.test(cell) ? 0 : Number(cell.replace(/[()]/g, '')));
function cell(source, id, quantity) {
  const value = number(cells.get(`${source}|${id}|${quantity}`));
  if (quantity !== 'lactose') return value;
  const lactose = Number.isNaN(value) ? number(cells.get(`${source}|${id}|sugars`)) : value; // no sugar, no lactose
  return source === 'cofid2015' ? lactose / 1.05 : lactose; // there as monosaccharides
}
function quantity(source, id, what) {
  if (what === 'fructose - glucose') return Math.max(0, cell(source, id, 'fructose') - cell(source, id, 'glucose'));
  return what.split(' + ').reduce((sum, one) => sum + cell(source, id, one), 0);
}

const said = /\b(sr28|foundation2024|afcd3|ciqual2020|cofid2015|fineli20|japan2023|japan2020-fibre|frida61) ((?:[A-Z]?[\d-]+(?:, )?)+) (fructose - glucose|raffinose \+ stachyose(?: \+ verbascose)?|raffinose|lactose|sorbitol|mannitol|polyols|fructan|oligosaccharides|low-weight fibre) = (?:(below )?([\d.]+) g|(a trace))(, left out)?/g;
const faults = { values: [], limits: [], spreads: [], papers: [] };
let values = 0, limits = 0, spreads = 0, numbers = 0;
for (const [id, food] of Object.entries(foods()))
  for (const [group, figure] of [...Object.entries(food['per-100-g'] ?? {}), ...Object.entries(food.bounds ?? {})]) {
    const heard = [];
    for (const [, source, list, what, below, value, trace, out] of String(figure.source).matchAll(said)) {
      const ids = list.replace(/, $/, '').split(', ');
      if (below || trace) {
        limits += 1;
        const printed = ids.map((one) => cells.get(`${source}|${one}|${what}`));
        const right = printed.every((one) => trace ? /^\(?Tr/.test(one) : one?.startsWith('<') && Number(one.slice(1)) <= Number(value));
        if (!right) faults.limits.push(`${id} ${group}: ${source} ${list} ${what} is ${printed}`);
        continue;
      }
      values += 1;
      const mean = ids.reduce((sum, one) => sum + quantity(source, one, what), 0) / ids.length;
      if (!(Math.abs(mean - Number(value)) <= Math.max(0.0006, 0.006 * mean)))
        faults.values.push(`${id} ${group}: ${source} ${list} ${what} is ${mean}, not ${value}`);
      if (!out) heard.push([what, Number(value)]);
    }
    // a figure that rests on nothing but differences, or on nothing but lactose, is their median
    const only = (name) => heard.length > 1 && heard.every(([what]) => what === name) && /^(sr28|foundation2024|afcd3|ciqual2020|cofid2015|fineli20)/.test(figure.source);
    if (figure.kind === 'range' && !/ sugars /.test(figure.source) && (group === 'excess-fructose' && only('fructose - glucose') || group === 'lactose' && only('lactose'))) {
      spreads += 1;
      const sorted = heard.map(([, one]) => one).sort((a, b) => a - b), half = sorted.length / 2;
      const median = (sorted[Math.ceil(half) - 1] + sorted[Math.floor(half)]) / 2;
      const { low, mid, high } = spread(figure);
      const near = (a, b) => Math.abs(a - b) <= Math.max(0.006, 0.01 * b);
      if (!near(mid, median) || (sorted[0] !== sorted.at(-1) && (!near(low, sorted[0]) || !near(high, sorted.at(-1)))))
        faults.spreads.push(`${id} ${group}: ${low}, ${mid}, ${high} of ${sorted}`);
    }
    // "gdala1997: 5.8 g in dry matter": a paper's number is one that it prints
    for (const part of String(figure.source).split(/; | and (?=[a-z-]+\d*:)/)) {
      const [, paper, text] = /^(?:.*, )?([a-z-]+\d*): (.*)$/.exec(part.trim()) ?? [];
      if (!papers.has(paper) || /^(frida61|sr28)$/.test(paper)) continue;
      const plain = text.replace(/,? ?[\d.]+(?: to [\d.]+)? g at [\d.]+ %/g, '').replace(/water [\d.]+ g/g, ''); // what was made of them
      for (const [, printed] of plain.matchAll(/(?<![\d.])(\d+(?:\.\d+)?)(?= g\b| to | and \d)/g)) {
        numbers += 1;
        const right = papers.get(paper).some((one) => Math.abs(one - Number(printed)) <= Math.max(0.006, 0.006 * one));
        if (!right) faults.papers.push(`${id} ${group}: ${paper} has no ${printed} (${part})`);
      }
    }
  }
ok(values > 800 && faults.values.length === 0, `${values} cited values recomputed`, faults.values.join('\n'));
ok(limits > 60 && faults.limits.length === 0, `${limits} cited limits of detection and traces`, faults.limits.join('\n'));
ok(spreads > 100 && faults.spreads.length === 0, `${spreads} figures are the median of their tables`, faults.spreads.join('\n'));
ok(numbers > 60 && faults.papers.length === 0, `${numbers} numbers stand in their papers`, faults.papers.join('\n'));
end();
