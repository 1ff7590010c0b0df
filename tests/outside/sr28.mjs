// The figures of SR28 that the tables cite, held against the release itself (sr28-cited.csv), and
// what was made of them recomputed: densities, weights of pieces, edible shares, nutrients.
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { root } from './lib/site.mjs';
import { citedRows, csv, figures, foods } from './lib/tables.mjs';

const measures = csv(join(root, 'tests/outside/sr28-cited.csv'));
const nutrients = new Map(csv(join(root, 'tests/outside/sr28-nutrients-cited.csv')).map((r) => [r.ndb, r]));
const byKey = new Map(measures.map((r) => [`${r.ndb}|${r.amount}|${r.measure}`, Number(r.grams)]));
const refuse = new Map(measures.map((r) => [r.ndb, Number(r.refuse_percent)]));
// a US customary cup, by which SR28 measures; GNU Units has the same
const millilitres = { cup: 236.5882365, cups: 236.5882365, tbsp: 14.78676478125, tablespoon: 14.78676478125,
  tablespoons: 14.78676478125, tsp: 4.92892159375, teaspoon: 4.92892159375, teaspoons: 4.92892159375,
  'fl oz': 29.5735295625, quart: 946.352946, pint: 473.176473 };

function volume(measure) {
  const unit = /^(fl oz|cups?|tbsp|tablespoons?|tsp|teaspoons?|quart|pint)\b/.exec(measure);
  return unit ? millilitres[unit[1]] : undefined;
}

const rounding = 0.006; // the tables give three digits
const faults = { cited: [], density: [], piece: [], edible: [], nutrients: [] };
let cited = 0, densities = 0, pieces = 0, shares = 0, foodCount = 0;

for (const [id, food] of Object.entries(foods())) {
  for (const [path, figure] of figures(food, id)) {
    const low = figure.low ?? figure.mid, high = figure.high ?? figure.mid;
    for (const row of citedRows(figure.source)) {
      cited += 1;
      if (row.refuse !== undefined) {
        if (refuse.get(row.ndb) !== row.refuse) faults.cited.push(`${path}: ${row.ndb} refuse is ${refuse.get(row.ndb)}`);
        continue;
      }
      const published = byKey.get(`${row.ndb}|${row.amount}|${row.measure}`);
      if (published !== row.grams) {
        faults.cited.push(`${path}: ${row.ndb} ${row.amount} ${row.measure} is ${published}, not ${row.grams}`);
        continue;
      }
      const ml = volume(row.measure);
      if (path.endsWith('/density') && ml !== undefined) {
        densities += 1;
        const density = row.grams / (row.amount * ml);
        if (density < low * (1 - rounding) || density > high * (1 + rounding))
          faults.density.push(`${path}: ${row.grams} g a ${row.measure} is ${density.toFixed(3)} g/mL, not in ${low} to ${high}`);
      } else if (/\/pieces\/[^/]+$/.test(path) && row.amount === 1 && ml === undefined) {
        pieces += 1;
        // "oz (18 kernels)": so many weigh an ounce
        const many = /^oz \((\d+)/.exec(row.measure);
        const grams = row.grams / (many ? Number(many[1]) : 1);
        if (grams < low * (1 - rounding) - 0.05 || grams > high * (1 + rounding) + 0.05)
          faults.piece.push(`${path}: ${row.grams} g, not in ${low} to ${high}`);
      }
    }
    const only = [...citedRows(figure.source)];
    if (path.endsWith('/edible') && only.length === 1 && only[0].refuse !== undefined && figure.basis === 'published') {
      shares += 1;
      const left = 1 - only[0].refuse / 100;
      if (left < low - 0.0051 || left > high + 0.0051)
        faults.edible.push(`${path}: refuse ${only[0].refuse} % leaves ${left}, not ${low} to ${high}`);
    }
  }
  const source = /^sr28 (\d{5})$/.exec(food.nutrients?.source ?? '');
  if (!source || food.nutrients.basis !== 'published') continue;
  foodCount += 1;
  const row = nutrients.get(source[1]);
  const columns = { 'energy-kcal': 'energy_kcal', protein: 'protein_g', fat: 'fat_g', carbohydrate: 'carbohydrate_g',
    fibre: 'fibre_g', sugars: 'sugars_g', 'sodium-mg': 'sodium_mg', 'saturated-fat': 'saturated_fat_g' };
  for (const [name, column] of Object.entries(columns)) {
    const value = food.nutrients[name];
    if (value === undefined) continue;
    if (row?.[column] === '' || row?.[column] === undefined || Math.abs(Number(row[column]) - value) > 1e-9)
      faults.nutrients.push(`${id}: ${name} ${value}, in the release ${row?.[column]}`);
  }
}

ok(cited > 1000 && faults.cited.length === 0, `${cited} citations stand in the release`, faults.cited.join('\n'));
ok(densities > 400 && faults.density.length === 0, `${densities} densities recomputed`, faults.density.join('\n'));
ok(pieces > 300 && faults.piece.length === 0, `${pieces} weights of pieces lie in their spans`, faults.piece.join('\n'));
ok(shares > 80 && faults.edible.length === 0, `${shares} edible shares recomputed`, faults.edible.join('\n'));
ok(foodCount > 400 && faults.nutrients.length === 0, `nutrients of ${foodCount} foods are the release's`, faults.nutrients.join('\n'));
end();
