// `dariole weigh --post`: how each line was understood, as a table and as JSON, and in the preview;
// each line of the list stands there, and a word that nobody understood is named.
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { run } from './lib/site.mjs';

const lines = ['200 g carrots, peeled and finely diced', '1 onion, wobbled', '2 tbsp oil or butter', '2 zuchinnis', '1 cup blorp, toasted'];
const folder = mkdtempSync(join(tmpdir(), 'understood-'));
const post = join(folder, 'post.md');
writeFileSync(post, `---\ntitle: A test\nmeasures: uk\nportions: 2\ningredients:\n${lines.map((line) => `  - ${line}\n`).join('')}---\n## Method\n1. Cook.\n`);
const table = run(['weigh', '--post', post], '');
const rows = table.stdout.trim().split('\n');
ok(table.status === 0 && rows[0].startsWith('Line') && rows.length === 7, `${rows.length} rows of one table`, table.stdout);
ok(lines.every((line) => rows.some((row) => row.startsWith(line))), 'each line stands in it');
ok(/or butter \[/.test(table.stdout), 'an alternative has a row of its own');
const objects = run(['weigh', '--json', '--post', post], '').stdout.trim().split('\n').map((line) => JSON.parse(line));
ok(objects.length === 5, `${objects.length} objects`);
ok(objects[0].preparation === 'peeled and finely diced' && objects[0].passed_over === undefined, 'preparation is known');
ok(objects[3].food === 'courgette' && objects[3].findings.some(({ rule }) => rule === 'food-corrected'), 'a corrected name is told');
ok(objects[4].food === null, 'an unknown food is unknown');
const passed = run(['weigh', '--json', '1 onion, the blorp kept whole'], '').stdout;
ok(JSON.parse(passed).passed_over === 'blorp' && /words-passed-over/.test(passed), 'a word that nobody understood is named', passed);
writeFileSync(post, `---\ntitle: Ein Versuch\nlanguage: de\nportions: 2\ningredients:\n  - 1.000 g flour\n  - 0,5 l milk\n  - 1,500 kg potatoes\n---\n`);
const german = run(['weigh', '--json', '--post', post], '').stdout.trim().split('\n').map((line) => JSON.parse(line).amounts[0]?.value);
ok(german.join() === '1000,0.5,1.5', 'points and commas are those of the post\u2019s language', german.join());
writeFileSync(post, `---\ntitle: For four\nmeasures: uk\nportions: 4\ningredients:\n  - 1 egg each\n  - "per serving: 30 g yoghurt"\n  - 20 g butter per person\n  - 2 salmon fillets, 150 g each\n  - "topping for each person: 10 g butter"\n---\n`);
const each = run(['weigh', '--post', post], '').stdout.split('\n');
ok(/ 120 g/.test(each[2]) && / 80 g/.test(each[3]) && / 300 g/.test(each[4]) && / 40 g +for topping/.test(each[5]), 'what is given for one eater is taken for all', each.join('\n'));
ok(/ 200 \(/.test(each[1]), 'an egg each for four is four eggs', each[1]);
ok(/unit-ambiguous/.test(run(['weigh', '--json', '1.000 g flour'], '').stdout), 'else a number that reads both ways is told');
const portionsOf = (given) => {
  writeFileSync(post, `---\ntitle: A yield\nmeasures: uk\n${given}\ningredients:\n  - 400 g potatoes\n---\n`);
  const said = run(['worksheet', '--json', '-C', folder, post], '');
  return { portions: JSON.parse(said.stdout).portions, told: run(['proof', '-C', folder, post], '').stdout };
};
for (const [given, low, high] of [['yield: serves 4 as a main, 6 as a side', 4, 4], ['yield: Serves 4-6', 4, 6], ['yield: one 23cm cake (serves 8)', 8, 8],
  ['yield: feeds about 4', 4, 4], ['yield: 4 servings', 4, 4], ['yield: 1 cake (12 slices)\nportion: 2 slices', 6, 6], ['serves: 4 as a main, 6 as a side', 4, 4]]) {
  const { portions, told } = portionsOf(given);
  ok(portions?.low === low && portions?.high === high && !told.includes('yield-missing'), `${given.split('\n')[0]} is ${low} to ${high}`, JSON.stringify(portions));
}
ok(portionsOf('yield: 4 cups').told.includes('yield-missing'), 'four cups do not say how many eat of them');
ok(run(['weigh', '--post', post, '1 egg'], '').status === 2, 'a post and a line are wrong use');
end();
