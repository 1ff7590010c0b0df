// Lines and what they must be understood as: the rows of lines.tsv and unseen.tsv, weighed by one
// `dariole weigh --json` a region. Foods: "a / b" are alternatives, "a + b" foods taken together, the
// first of them weighed; "a|b" either id; "none" a food that is not known; "-" anything.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, run } from './site.mjs';

export const readRows = (name) => readFileSync(join(root, 'tests/outside', name), 'utf8').split('\n')
  .filter((line) => line !== '' && !line.startsWith('#'))
  .map((line) => {
    const [text, region, food, part, low, high, source] = line.split('\t');
    return { text, region, food, part, low, high, source };
  });

// what weigh says of lines, by the line as written: the objects of each in their order
export const weighAll = (region, lines) => {
  const out = run(['weigh', '--json', '--measures', region], lines.map((line) => `${line}\n`).join(''));
  const by = new Map();
  for (const line of out.stdout.trim().split('\n').map((one) => JSON.parse(one)))
    by.set(line.line, [...(by.get(line.line) ?? []), line]);
  return by;
};

export const foodsOf = (objects) => [
  objects.map((one) => one.food),
  ...(objects[0].alternatives ?? []).map((one) => [one.food]),
];

const isFood = (found, wanted) => (wanted === '-' ? true : wanted.split('|').includes(found ?? 'none'));

// the foods are those wanted, all of them
export const foodsFit = (objects, wanted) => {
  if (wanted === '-')
    return true;
  const ways = wanted.split(' / ').map((way) => way.split(' + '));
  const found = foodsOf(objects);
  // alternatives come one food at a time
  const flat = [found[0], ...found.slice(1)];
  return ways.length === flat.length
    && ways.every((way, i) => way.length === flat[i].length && way.every((food, k) => isFood(flat[i][k], food)));
};

export const gramsFit = (objects, row) => {
  if (row.food === 'none' || row.low === '-' || (objects[0].food === null && row.food.includes('none')))
    return true;
  const grams = row.part === 'bought' ? objects[0].grams : objects[0].edible_grams;
  return grams !== null && grams.mid >= Number(row.low) && grams.mid <= Number(row.high);
};

// another food than one of those wanted is given, and nothing is said of it
export const isSilentlyOther = (objects, row) => {
  if (row.food === '-')
    return false;
  const wanted = row.food.split(/ [/+] /).flatMap((one) => one.split('|'));
  return foodsOf(objects).flat().some((food) => food !== null && !wanted.includes(food));
};

export const scoreRows = (rows) => {
  const wrong = [];
  const silent = [];
  for (const region of new Set(rows.map((row) => row.region))) {
    const own = rows.filter((row) => row.region === region);
    const by = weighAll(region, own.map((row) => row.text));
    for (const row of own) {
      const objects = by.get(row.text) ?? [{ food: null, grams: null, edible_grams: null }];
      const said = `${region}: ${row.text}: ${foodsOf(objects).map((way) => way.join(' + ')).join(' / ')} ${objects[0].grams?.mid} g, edible ${objects[0].edible_grams?.mid} g, not ${row.food} ${row.low} to ${row.high} g (${row.source})`;
      if (!foodsFit(objects, row.food) || !gramsFit(objects, row))
        wrong.push(said);
      if (isSilentlyOther(objects, row))
        silent.push(said);
    }
  }
  return { wrong, silent };
};
