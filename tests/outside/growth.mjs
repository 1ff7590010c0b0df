// What a post costs grows with its length, not with its square: for every list that a post may hold, the
// instructions at 2n are at most 2.3 times those at n (n = 1,000; counted by valgrind, without what the
// empty post takes), and a post of 1 MB of it fits into 200 MB (of nothing but delimiters, 400 MB) beside what the empty post takes.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const dariole = process.env.DARIOLE ?? 'build/dariole';
const work = mkdtempSync(join(tmpdir(), 'dariole-growth-'));
process.on('exit', () => rmSync(work, { recursive: true }));
const env = { ...process.env, DARIOLE_TABLES: 'content/tables', DARIOLE_UNCONFINED: '1' }; // valgrind lives within the program
const times = (n, f) => Array.from({ length: n }, (_, i) => f(i)).join('');
const head = 'title: A dish\nmeasures: us\nportions: 2\n';
const rice = 'ingredients:\n  - 1 cup rice\n';
const method = '## Method\n\n1. Stir the rice for 5 minutes.\n';
const post = (front, body) => `---\n${front}---\n${body}`;
const list = (key, n, f) => post(`${head}${rice}${key}: [${times(n, (i) => `${i ? ', ' : ''}${f(i)}`)}]\n`, method);
const lines = (n, f) => post(`${head}ingredients:\n${times(n, f)}`, method);
const body = (text) => post(head + rice, `${text}\n\n${method}`);

const kinds = {
  'plain lines': (n) => body(times(n, () => 'Plain words of a post that says nothing.\n')),
  'ingredient lines': (n) => lines(n, (i) => `  - ${i + 1} g rice\n`),
  'unknown foods': (n) => lines(n, (i) => `  - ${i + 1} g zorblat${i}\n`),
  'alternatives in a line': (n) => lines(1, () => `  - 1 cup ${times(n, () => 'rice or ')}tofu\n`),
  'alternatives in a map': (n) => lines(1, () => `  - {food: rice, amount: 100 g, or: [${times(n, (i) => `${i + 1} g tofu, `)}1 g rice]}\n`),
  'lines with alternatives': (n) => lines(n, (i) => `  - ${i + 1} g rice or ${i + 1} g tofu\n`),
  parts: (n) => lines(n, (i) => `  Part ${i}:\n    - 1 g rice\n`),
  claims: (n) => list('claims', n, (i) => `claim ${i}`),
  keywords: (n) => list('keywords', n, (i) => `word ${i}`),
  equipment: (n) => list('equipment', n, (i) => `pan ${i}`),
  'posts gathered': (n) => list('gathers', n, (i) => `post-${i}`),
  dishes: (n) => post(`title: Many\nmeasures: us\ndishes:\n${times(n, (i) => `  Dish ${i}:\n    portions: 2\n    ingredients: [1 g rice]\n`)}`, method),
  answers: (n) => post(`${head}${rice}answers: {${times(n, (i) => `rule-${i}: because, `)}x: y}\n`, method),
  'unknown keys': (n) => post(`${head}${rice}${times(n, (i) => `key${i}: 1\n`)}`, method),
  headings: (n) => body(times(n, (i) => `## Heading ${i}\n\ntext\n\n`)),
  brackets: (n) => body('['.repeat(n)),
  stars: (n) => body('*a **a '.repeat(n)),
  quotes: (n) => body(`${'>'.repeat(n)} a`),
  links: (n) => body('[a](b) '.repeat(n)),
  'pictures in one line': (n) => body('![a](b.png) '.repeat(n)),
  'findings on one line': (n) => post(head + rice, `## Method\n\n1. ${'Bake at 900 C for 5 minutes. '.repeat(n)}\n`),
  steps: (n) => post(head + rice, `## Method\n\n${times(n, (i) => `${i + 1}. Stir the rice for ${(i % 50) + 1} minutes at 180 C.\n`)}`),
  'one long note': (n) => post(head + rice, `${method}\n## Notes\n\n${'Cook the rice, then cool it and keep it for 3 days. '.repeat(n)}\n`),
  'one long step': (n) => post(head + rice, `## Method\n\n1. ${'Stir the rice, then add the rice and simmer. '.repeat(n)}\n`),
};

const file = join(work, 'post.md');
const count = (text) => {
  writeFileSync(file, text);
  const { stderr } = spawnSync('valgrind', ['--tool=callgrind', '--callgrind-out-file=/dev/null', dariole, 'proof', '-C', 'content', file], { env, encoding: 'utf8', maxBuffer: 1 << 28 });
  return Number(/Collected : (\d+)/.exec(stderr)?.[1] ?? NaN);
};
const fits = (text, kilobytes) => {
  writeFileSync(file, text);
  return spawnSync('prlimit', [`--as=${kilobytes * 1024}`, dariole, 'proof', '-C', 'content', file], { env, maxBuffer: 1 << 28, timeout: 60000 }).status <= 1;
};

let n = 0;
const check = (good, name) => console.log(`${good ? 'ok' : 'not ok'} ${++n} - ${name}`);
const empty = post(head + rice, method);
count(empty); // the image of the tables is made
const base = count(empty);
let least = 20000;
while (!fits(empty, least)) least += 2000;
const wanted = process.argv.slice(2);
for (const [name, make] of Object.entries(kinds)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  const [one, two] = [count(make(1000)) - base, count(make(2000)) - base];
  check(two <= 2.3 * one || two < base / 20, `${name}: ${(two / one).toFixed(2)} times the instructions at twice the length`);
  const whole = make(Math.floor(1e9 / make(1000).length));
  check(fits(whole, least + 200 * 1000), `${name}: 1 MB in 200 MB`);
}
console.log(`1..${n}`);
