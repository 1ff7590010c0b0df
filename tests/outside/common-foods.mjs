// How well the commonest ingredients are known: of each group the share of figures that are written
// from memory, and of those that nobody has (common-foods.txt).
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { root } from './lib/site.mjs';
import { foods } from './lib/tables.mjs';

const groups = ['lactose', 'excess-fructose', 'fructan', 'galacto-oligosaccharide', 'sorbitol', 'mannitol'];
const ids = readFileSync(join(root, 'tests/outside/common-foods.txt'), 'utf8').split('\n')
  .filter((line) => !line.startsWith('#')).flatMap((line) => line.split(' ')).filter(Boolean);
const larder = foods();
ok(new Set(ids).size === ids.length && ids.every((id) => larder[id]), `${ids.length} common ingredients, each in the larder`,
  ids.filter((id, i) => !larder[id] || ids.indexOf(id) !== i).join(' '));

const share = (part, whole) => (100 * part) / whole;
let memory = 0, absent = 0;
for (const group of groups) {
  const figures = ids.map((id) => [id, larder[id]?.['per-100-g'][group] ?? larder[id]?.['per-100-g'].all]);
  const from = figures.filter(([, figure]) => figure?.basis === 'memory').map(([id]) => id);
  const none = figures.filter(([, figure]) => !figure).map(([id]) => id);
  memory += from.length;
  absent += none.length;
  console.log(`# ${group}: memory ${share(from.length, ids.length).toFixed(1)} %, absent ${share(none.length, ids.length).toFixed(1)} %`);
  if (process.env.NAMES) console.log(`#   memory: ${from.join(' ')}\n#   absent: ${none.join(' ')}`);
}
const all = ids.length * groups.length;
ok(share(memory, all) <= 20, `from memory ${share(memory, all).toFixed(1)} % of ${all} figures, at most 20`);
ok(share(absent, all) <= 5, `absent ${share(absent, all).toFixed(1)} % of ${all} figures, at most 5`);
end();
