// Lines as cooks write them, in six regions' measures, through `dariole weigh --json`: the food is
// recognised, or said to be unknown where the larder has none such, and the grams lie within bounds
// drawn from SR28 (lines.tsv). All must.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { root, run } from './lib/site.mjs';

const rows = readFileSync(join(root, 'tests/outside/lines.tsv'), 'utf8').split('\n')
  .filter((line) => line !== '' && !line.startsWith('#')).map((line) => line.split('\t'));
const regions = [...new Set(rows.map((row) => row[1]))];
let right = 0;
const wrong = [];
for (const region of regions) {
  const own = rows.filter((row) => row[1] === region);
  const out = run(['weigh', '--json', '--measures', region], own.map((row) => `${row[0]}\n`).join(''));
  const objects = out.stdout.trim().split('\n').map((line) => JSON.parse(line));
  for (const [line, , food, part, low, high, source] of own) {
    const found = objects.find((one) => one.line === line);
    const grams = part === 'edible' ? found?.edible_grams : found?.grams;
    const fits = food === 'none' ? found?.food === null : found?.food === food && grams !== null && grams.mid >= Number(low) && grams.mid <= Number(high);
    if (fits) right += 1;
    else wrong.push(`${region}: ${line}: ${found?.food} ${grams?.mid} g, not ${food} ${low} to ${high} g (${source})`);
  }
}
ok(rows.length >= 120, `${rows.length} lines`);
ok(regions.length >= 6, `in the measures of ${regions.join(', ')}`);
ok(right === rows.length, `${right} of ${rows.length} are recognised and lie in their bounds`, wrong.join('\n'));
for (const one of wrong) console.log(`# ${one}`);
end();
