// Lines made of SR28's own names and household measures: of those that are known, at most 5 in 100
// weigh more than a third off what SR28 weighs. Words behind a name's comma are used or make it unknown.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { root } from './lib/site.mjs';
import { weighAll } from './lib/lines.mjs';

const rows = readFileSync(join(root, 'tests/outside/sr28-lines.tsv'), 'utf8').split('\n')
  .filter((line) => line !== '' && !line.startsWith('#')).map((line) => line.split('\t'));
const lines = rows.map(([number, description, amount, measure, grams]) => {
  const [, unit, how] = /^(\w+)(?:,? ([^(]*))?/.exec(measure);
  const name = description.replace(/ \([^)]*\)/g, '').toLowerCase();
  return { number, grams: Number(grams), text: `${Number(amount)} ${unit} ${how ? `${how.trim()} ` : ''}${name}` };
});
const found = weighAll('us', [...new Set(lines.map(({ text }) => text))]);
const off = [];
let known = 0;
for (const { number, text, grams } of lines) {
  const [first] = found.get(text);
  if (first.food === null || first.grams === null)
    continue;
  known += 1;
  const share = first.edible_grams.mid / grams;
  if (share < 2 / 3 || share > 1.5)
    off.push(`${number}: ${text}: ${first.food} ${first.edible_grams.mid} g, not ${grams} g`);
}
for (const one of off) console.log(`# ${one}`);
ok(lines.length >= 1500, `${lines.length} lines`);
ok(known >= 0.4 * lines.length, `${known} are known`);
ok(off.length <= 0.05 * known, `${off.length} of them are more than a third off`);
end();
