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
ok(run(['weigh', '--post', post, '1 egg'], '').status === 2, 'a post and a line are wrong use');
end();
