// Every unit of every region against GNU Units (Debian's `units`), and some of them through the
// program: a spoon or cup of water divided by water's density.
import { spawnSync } from 'node:child_process';
import { ok, end } from './lib/tap.mjs';
import { run } from './lib/site.mjs';
import { table } from './lib/tables.mjs';

const everywhere = { ml: 'ml', cl: 'cl', dl: 'dl', l: 'l', dsp: 'dessertspoon', mg: 'mg', g: 'g', kg: 'kg', oz: 'oz', lb: 'lb' };
const us = { 'fl-oz': 'usfloz', gill: 'usgill', pint: 'uspint', quart: 'usquart', gallon: 'usgallon' };
const imperial = { 'fl-oz': 'brfloz', gill: 'brgill', pint: 'brpint', quart: 'brquart', gallon: 'brgallon' };
const spoons = { tsp: 'brteaspoon', tbsp: 'brtablespoon' };
// two names: the span must run from one to the other
const either = Object.fromEntries(Object.keys(us).map((unit) => [unit, [us[unit], imperial[unit]]]));
const expected = {
  us: { ...us, tsp: 'usteaspoon', tbsp: 'ustablespoon', cup: 'uscup', stick: 'stickbutter' },
  'us-label': { ...us, tsp: 'legaltablespoon/3', tbsp: 'legaltablespoon', 'fl-oz': 'legalcup/8', cup: 'legalcup', stick: 'stickbutter',
    // not in GNU Units: 21 CFR 101.9(b)(5)(viii), 28 g an ounce
    oz: '28 g' },
  au: { ...imperial, tsp: 'australiateaspoon', tbsp: 'australiatablespoon', cup: 'metriccup' },
  nz: { ...imperial, ...spoons, cup: 'metriccup' },
  uk: { ...imperial, ...spoons, cup: 'metriccup' },
  ca: { ...imperial, ...spoons, cup: 'metriccup', stick: 'stickbutter' },
  metric: { ...either, ...spoons, cup: 'metriccup' },
  // the go of rice cookers is 180 mL; GNU Units has no such unit
  jp: { ...either, ...spoons, cup: 'japancup', gou: '180 ml', shaku: '18 ml' },
};

function gnu(name, unit) {
  const out = spawnSync('units', ['-t', '-o', '%.15g', name, unit], { encoding: 'utf8' });
  return Number(out.stdout.trim());
}

const measures = table('measures.yaml');
const close = (a, b) => Math.abs(a - b) <= 1e-9 * Math.abs(b);
for (const [region, rows] of Object.entries(expected)) {
  ok(measures.regions[region] !== undefined, `there is a region ${region}`);
  const units = { ...everywhere, ...rows };
  for (const [id, unit] of Object.entries(measures.units)) {
    const size = measures.regions[region]?.units[id] ?? unit.size;
    if (size === undefined || unit.kind === 'vague') continue;
    const known = units[id];
    const base = unit.kind === 'volume' ? 'ml' : 'g';
    if (known === undefined) {
      ok(false, `${region}: ${id} has something to be held against`);
      continue;
    }
    if (Array.isArray(known)) {
      const ends = known.map((name) => gnu(name, base)).sort((a, b) => a - b);
      ok(close(size.low, ends[0]) && close(size.high, ends[1]), `${region}: a ${id} is from ${ends[0]} to ${ends[1]} ${base}`, size);
    } else {
      const right = gnu(known, base);
      ok(size.low === undefined && close(size.mid, right), `${region}: a ${id} is ${right} ${base}`, size);
    }
    delete units[id];
  }
  ok(Object.keys(units).length === 0, `${region}: no unit is missing`, Object.keys(units));
}

const water = JSON.parse(run(['larder', '--json', 'water']).stdout.split('\n')[0]);
const form = water.forms.find((one) => one.density !== undefined);
for (const [region, rows] of Object.entries(expected))
  for (const spoon of ['tsp', 'tbsp', 'cup']) {
    const ml = form.grams[region][spoon].mid / form.density.mid;
    ok(Math.abs(ml - gnu(rows[spoon], 'ml')) < 1e-3 * ml, `${region}: the program takes a ${spoon} as ${ml.toFixed(2)} mL`);
  }
end();
