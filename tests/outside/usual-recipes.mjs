// Foods made of several: each part of a stated usual recipe is a food of the larder, and what the program
// reckons from it is what its parts hold, summed here anew from what it says of each of them.
import { ok, end } from './lib/tap.mjs';
import { run } from './lib/site.mjs';
import { names, table } from './lib/tables.mjs';

const groups = ['lactose', 'excess-fructose', 'fructan', 'galacto-oligosaccharide', 'sorbitol', 'mannitol'];
const larder = new Map(run(['larder', '--json']).stdout.trim().split('\n').map((line) => JSON.parse(line)).map((food) => [food.food, food]));
const rows = names().filter((one) => one.startsWith('foods/')).flatMap((page) => Object.entries(table(page).foods)
  .filter(([, food]) => food['usual-recipe']).map(([id, food]) => [id, food, table(page)['all-of-these']?.['per-100-g'] ?? {}]));

const strange = [], circles = [], apart = [], heavy = [];
let figures = 0;
for (const [id, food, lent] of rows) {
  const { of, makes } = food['usual-recipe'];
  const parts = Object.entries(of), sum = parts.reduce((all, [, grams]) => all + grams, 0), whole = makes ?? sum;
  for (const [part] of parts) {
    if (!larder.has(part)) strange.push(`${id}: ${part}`);
    if (part === id) circles.push(id);
  }
  if (whole > 1.04 * sum || whole < 0.1 * sum) heavy.push(`${id}: ${sum} g make ${whole} g`); // water is lost, little more is taken up
  for (const group of groups) {
    const said = larder.get(id)['per-100-g'][group], own = food['per-100-g']?.[group] ?? food['per-100-g']?.all ?? lent[group];
    if (own || !said) continue;
    figures += 1;
    const held = { low: 0, mid: 0, high: 0 };
    let asked = false, found = false;
    for (const [part, grams] of parts) {
      const one = larder.get(part)['per-100-g'][group];
      if (!one) { asked = true; continue; } // bounded by its kin, at most 0.05 g in all
      found ||= one.low > 0 || one.mid !== one.high / 2 || one.high > 0.1;
      for (const key of Object.keys(held)) held[key] += one[key] * grams / whole;
    }
    const slack = asked ? 0.08 : 0, near = (a, b) => Math.abs(a - b) <= 0.006 * Math.max(a, b) + 1e-9 + slack;
    const right = found ? near(said.low, held.low / 2) && near(said.mid, held.mid) && near(said.high, 1.5 * held.high)
      : near(said.high, held.high) || near(said.high, 1.5 * held.high);
    if (!right || said.basis !== 'calculated' || !said.source.startsWith('a usual recipe: '))
      apart.push(`${id} ${group}: ${said.low} to ${said.high}, its parts ${held.low} to ${held.high}`);
  }
}
ok(rows.length > 150 && strange.length === 0, `${rows.length} usual recipes are of foods of the larder`, strange.join('\n'));
ok(circles.length === 0, 'none goes into itself', circles.join(' '));
ok(heavy.length === 0, 'what they make weighs no more than their parts', heavy.join('\n'));
ok(figures > 400 && apart.length === 0, `${figures} contents are what the parts hold`, apart.join('\n'));
end();
