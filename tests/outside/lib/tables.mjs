// The tables as YAML: every figure with where it stands, and the SR28 rows that sources cite.
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { root } from './site.mjs';

const folder = join(root, 'content', 'tables');

export function table(name) {
  return parse(readFileSync(join(folder, name), 'utf8'));
}

export function names() {
  const plain = readdirSync(folder).filter((name) => name.endsWith('.yaml'));
  const foods = readdirSync(join(folder, 'foods')).filter((name) => name.endsWith('.yaml'));
  return [...plain, ...foods.map((name) => `foods/${name}`)].sort();
}

export function foods() {
  const all = {};
  for (const name of names().filter((one) => one.startsWith('foods/'))) {
    const page = table(name);
    for (const [id, food] of Object.entries(page.foods ?? {}))
      all[id] = { ...food, 'per-100-g': { ...page['all-of-these']?.['per-100-g'], ...food['per-100-g'] } };
  }
  return all;
}

const numbers = ['low', 'mid', 'high', 'mean', 'grams', 'multiple', 'energy-kcal', 'protein', 'fat', 'carbohydrate'];

// every mapping that holds a figure, by its path
export function* figures(node, path = '') {
  if (node === null || typeof node !== 'object') return;
  if (!Array.isArray(node) && (node.kind === 'none' || numbers.some((key) => typeof node[key] === 'number'))) yield [path, node];
  for (const [key, value] of Object.entries(node)) yield* figures(value, `${path}/${key}`);
}

// a content's low, middle and high, whatever its kind
export function spread(figure) {
  if (figure.kind === 'none') return { low: 0, mid: 0, high: 0 };
  if (figure.kind === 'below') return { low: 0, mid: figure.high / 2, high: figure.high };
  if (figure.kind === 'samples') return { low: Math.max(0, figure.mean - 1.645 * figure.sd), mid: figure.mean, high: figure.mean + 1.645 * figure.sd };
  return { low: figure.low ?? figure.mid, mid: figure.mid, high: figure.high ?? figure.mid };
}

// "sr28 09040 1 cup, mashed = 225 g" within a source: the rows it cites
export function* citedRows(source) {
  for (const part of String(source).split('; ')) {
    const said = /^sr28 (\d{5}) ([\d.]+) (.+) = ([\d.]+) g$/.exec(part.trim());
    if (said) yield { ndb: said[1], amount: Number(said[2]), measure: said[3], grams: Number(said[4]) };
    const refuse = /^sr28 (\d{5}) refuse ([\d.]+) %/.exec(part.trim());
    if (refuse) yield { ndb: refuse[1], refuse: Number(refuse[2]) };
  }
}

// a small CSV: quoted fields may hold commas and doubled quotes; lines of # are remarks
export function csv(path) {
  const rows = [];
  for (const line of readFileSync(path, 'utf8').split(/\r?\n/)) {
    if (line === '' || line.startsWith('#')) continue;
    const fields = [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map((m) => m[1]);
    fields.length -= line.endsWith(',') ? 0 : 1;
    rows.push(fields.map((f) => (f.startsWith('"') ? f.slice(1, -1).replaceAll('""', '"') : f)));
  }
  const [head, ...rest] = rows;
  return rest.map((row) => Object.fromEntries(head.map((name, i) => [name, row[i]])));
}
