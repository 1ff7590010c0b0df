// Every table, post and output against its JSON Schema (2020-12), and the schemas against the program:
// what one refuses the other refuses.
import { readdirSync, readFileSync, mkdtempSync, writeFileSync, mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { tmpdir } from 'node:os';
import Ajv from 'ajv/dist/2020.js';
import formats from 'ajv-formats';
import { parse } from 'yaml';
import { ok, end } from './lib/tap.mjs';
import { json, posts, press, root, run } from './lib/site.mjs';

const ajv = new Ajv({ allErrors: true, strict: true, allowUnionTypes: true, strictRequired: false, strictTypes: false });
formats(ajv);
const schemas = {};
ajv.addSchema(json(join(root, 'schemas', 'groups.schema.json'))); // what others refer to
for (const name of readdirSync(join(root, 'schemas')).sort().filter((name) => name !== 'groups.schema.json')) {
  const id = basename(name, '.schema.json');
  try {
    schemas[id] = ajv.compile(json(join(root, 'schemas', name)));
    ok(true, `schema ${id} compiles`);
  } catch (error) {
    ok(false, `schema ${id} compiles`, String(error));
  }
}

function holds(id, value, name) {
  const valid = schemas[id](value);
  ok(valid, `${name} is a valid ${id}`, schemas[id].errors?.slice(0, 4));
}

// YAML 1.1, as libyaml reads it: yes and no are truths
function yaml(path) {
  // in YAML 1.1 a bare n is a truth value too; as a key it is the number of samples
  return parse(readFileSync(path, 'utf8').replace(/\bn: (?=\d)/g, '"n": '), { version: '1.1' });
}

const tables = join(root, 'content', 'tables');
for (const id of ['words', 'measures', 'limits', 'cooking', 'cautions', 'site', 'sources', 'swaps'])
  holds(id, yaml(join(tables, `${id}.yaml`)), `${id}.yaml`);
// no serves are shipped
holds('serves', { source: 'x', blueberry: '40 g', pear: { canned: '60 g', dried: { strict: '5 g' } }, strawberry: 'no limit',
  'rice-cakes': { strict: '28 g', wider: '60 g', source: 'y', changed: '2026-11-01' }, banana: 1 }, 'serves of a blog');
holds('serves', [{ food: 'raspberry', grams: '58 g', phase: 'strict', source: 'z' }], 'serves in rows');
for (const name of readdirSync(join(tables, 'foods')).sort())
  holds('foods', yaml(join(tables, 'foods', name)), name);

for (const name of ['stock', 'curry-paste', 'bread', 'bar', 'powder'])
  for (const kind of ['yaml', 'block']) // what is finished is a table too
    holds('foods', yaml(join(root, 'tests', 'labels', `${name}.${kind}`)), `label of a ${name}, ${kind}`);

// dates stay text, as the program reads them
const customTags = (tags) => tags.filter((one) => one.tag !== 'tag:yaml.org,2002:timestamp');
function frontMatter(text) {
  return parse(text.split(/^---$/m)[1], { version: '1.1', customTags });
}
for (const path of posts(join(root, 'content', 'posts')))
  holds('front-matter', frontMatter(readFileSync(path, 'utf8')), basename(path));

const { out } = press('content', 'demo');
holds('catalogue', json(join(out, 'catalogue.json')), 'catalogue.json');
for (const path of posts(join(root, 'content', 'posts')).slice(0, 4)) {
  const sheet = run(['worksheet', '-C', 'content', '--json', path]);
  holds('worksheet', JSON.parse(sheet.stdout), `worksheet of ${basename(path)}`);
  holds('steps', JSON.parse(run(['worksheet', '-C', 'content', '--steps', '--json', path]).stdout), `steps of ${basename(path)}`);
}
for (const line of ['2 tbsp maple syrup or brown sugar', '1 cup (170 g) coarse polenta', 'salt and pepper', '3 glorps of fuzz'])
  for (const object of run(['weigh', '--json', '--measures', 'au', line]).stdout.trim().split('\n'))
    holds('weigh', JSON.parse(object), `weigh of ${line}`);
const proof = run(['proof', '-C', 'content', '--format', 'json']);
holds('findings', JSON.parse(proof.stdout), 'findings of the demo');
const impact = run(['impact', '-C', 'content', '--try', 'fructan 0.05 g', '--json']);
holds('impact', JSON.parse(impact.stdout), 'impact of a lower limit');

// one change at a time to a sound front matter: the schema and the program must judge alike
const sound = 'title: Soup\nportions: 2\ningredients:\n  - 200 g carrots\n';
const changes = {
  'as it is': [sound, true],
  'an unknown key': [`${sound}colour: blue\n`, false],
  'no title': [sound.replace('title: Soup\n', ''), false],
  'no portions': [sound.replace('portions: 2\n', ''), false],
  'no ingredients': ['title: Soup\nportions: 2\n', false],
  'claims as a map': [`${sound}claims: {a: b}\n`, false],
  'times as a list': [`${sound}times: [1]\n`, false],
  'an unknown time': [`${sound}times: {nap: 1 h}\n`, false],
  'measures of nowhere': [`${sound}measures: mars\n`, false],
  'measures of Japan': [`${sound}measures: jp\n`, true],
  'a bad date': [`${sound}published: yesterday\n`, false],
  'a good date': [`${sound}published: 2026-03-14\n`, true],
  'ingredients as text': [sound.replace(/ingredients:[^]*/, 'ingredients: carrots\n'), false],
  'a mapped line': [`${sound}  - {food: salt, amount: 2 g, optional: true}\n`, true],
  'a mapped line with an unknown key': [`${sound}  - {food: salt, amuont: 2 g}\n`, false],
  'an image without a file': [`${sound}image: {alt: x}\n`, false],
  'a draft': [`${sound}draft: true\n`, true],
  'a slug with a slash': [`${sound}slug: a/b\n`, false],
};
const folder = mkdtempSync(join(tmpdir(), 'schemas-'));
mkdirSync(join(folder, 'posts'));
for (const [name, [text, good]] of Object.entries(changes)) {
  const path = join(folder, 'posts', 'soup.md');
  writeFileSync(path, `---\n${text}---\n## Method\n\n1. Boil the carrots and the salt for 10 minutes.\n`);
  const valid = schemas['front-matter'](frontMatter(readFileSync(path, 'utf8')));
  const { status } = run(['proof', '-C', folder, path]);
  ok(valid === good && (status === 0) === good, `schema and program agree on ${name}`, { valid, status, good });
}
end();
