// Every name of the larder, as "20 g NAME" (or by the measure that the name is for) in the measures of
// every region where it is spoken: it reads as its own food, alone; or, where several foods have it,
// as one of those or with a word that it is ambiguous.
import { ok, end } from './lib/tap.mjs';
import { run } from './lib/site.mjs';
import { weighAll } from './lib/lines.mjs';

const foods = run(['larder', '--json'], '').stdout.trim().split('\n').map((line) => JSON.parse(line));
const by = { spoon: '2 tsp', cup: '1 cup', weight: '20 g', piece: '2', bunch: '1 bunch', nothing: '' };
const regions = ['us', 'us-label', 'au', 'nz', 'uk', 'ca', 'metric', 'jp'];
const names = [];
for (const food of foods)
  for (const name of [food.name, ...food.names]) {
    const [, text, scope] = /^(.*?)(?: \(([a-z-]+)\))?$/.exec(name);
    names.push({ food: food.food, text, scope: scope ?? 'any', line: `${by[scope] ?? '20 g'} ${text}`.trim() });
  }
const alike = (text) => text.toLowerCase().replace(/s\b/g, '').replace(/\bchil[ie]\b/g, 'chilli');
const owners = new Map();
for (const { text, food } of names)
  owners.set(alike(text), (owners.get(alike(text)) ?? new Set()).add(food));
const wrong = [];
for (const region of regions) {
  const spoken = names.filter(({ scope }) => !regions.includes(scope) || scope === region);
  const found = weighAll(region, [...new Set(spoken.map(({ line }) => line))]);
  for (const { food, text, line } of spoken) {
    const objects = found.get(line) ?? [];
    const [first] = objects;
    const one = objects.length === 1 && first.alternatives === undefined;
    const told = first?.findings.some(({ rule }) => rule === 'food-ambiguous');
    if (!one || (first.food !== food && !(owners.get(alike(text)).size > 1 && (told || owners.get(alike(text)).has(first.food)))))
      wrong.push(`${region}: ${line}: ${objects.map((object) => object.food).join(' + ')}, not ${food}`);
  }
}
ok(names.length > 7000, `${names.length} names of ${foods.length} foods`);
ok(wrong.length === 0, `all but ${wrong.length} read as their own food in ${regions.length} regions`, [...new Set(wrong)].join('\n'));
end();
