// Portions eaten together, menus and reviews, through the program as a writer uses it.
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Ajv from 'ajv/dist/2020.js';
import { ok, end } from './lib/tap.mjs';
import { files, press, root, run } from './lib/site.mjs';

const content = mkdtempSync(join(tmpdir(), 'together-'));
mkdirSync(join(content, 'posts'));
mkdirSync(join(content, 'tables', 'foods'), { recursive: true });
// a food of round figures, so that what comes to what can be worked by hand: 0.1 g of fructan in 100 g
const contents = (fructan) => `    per-100-g:\n      all: {kind: none, source: "made for this test", basis: practice}\n      fructan: {kind: range, low: ${fructan}, mid: ${fructan}, high: ${fructan}, source: "made for this test", basis: practice}\n`;
const table = (fructan) => writeFileSync(join(content, 'tables', 'foods', 'own.yaml'), ['plumroot', 'sedgeroot'].map((id) => `  ${id}:\n    name: ${id}\n    class: vegetable\n    allergens: []\n    breaks: []\n    forms: {whole: {}}\n${contents(fructan)}`).join('').replace(/^/, 'foods:\n'));
const post = (name, lines, more = '') => writeFileSync(join(content, 'posts', `${name}.md`),
  `---\ntitle: The ${name}\nserves: 2\n${more}ingredients:\n${lines.map((l) => `  - ${l}\n`).join('')}---\n## Method\n1. Boil all of it for 10 minutes.\n`);
table(0.1);
post('soup', ['300 g plumroot', '100 ml water']);
post('stew', ['300 g plumroot']);
post('mash', ['300 g sedgeroot']);
const sitting = (...words) => {
  const r = run(['sitting', '-C', content, '--json', ...words]);
  return { status: r.status, list: r.stdout.trim().split('\n').filter(Boolean).map((l) => JSON.parse(l)), log: r.stderr };
};
const valid = new Ajv({ strict: false }).compile(JSON.parse(readFileSync(join(root, 'schemas', 'sitting.schema.json'), 'utf8')));

const one = sitting('soup').list[0];
ok(one?.standing === 'within' && one.limits[0].share === 0.75, '150 g of it are 0.15 g of fructan, 75 % of 0.2 g', one);
const same = sitting('soup', 'stew');
ok(same.list[0]?.standing === 'over' && same.status === 1, 'the same food in two dishes is one serve: 0.3 g', same.list[0]);
ok(same.list[0]?.portions.every((p) => p.standing === 'within'), 'though each is within by itself');
ok(same.list[0]?.smaller?.portions > 0 && same.list[0].smaller.portions < 1, 'less of one of them is told', same.list[0]?.smaller);
const other = sitting('soup', 'mash').list[0];
ok(other?.standing === 'within' && other.limits.some((l) => l.of === 'sitting' && l.share === 0.6), 'two foods have a limit each, and 0.3 g of 0.5 g together', other);
ok(sitting('mash', 'soup').list[0]?.standing === 'within', 'in any order');
ok(sitting('soup', '--portions', '2').list[0]?.limits[0].share === 1.5, 'two portions are twice as much');
ok([one, same.list[0], other].every((s) => valid(s)), 'the objects are as their schema says', valid.errors);
ok(sitting('nowhere').status === 2 && sitting().status === 2 && sitting('soup', '--portions', '0').status === 2, 'wrong use');
writeFileSync(join(content, 'day.yaml'), 'lunch: [soup]\ndinner: [{post: stew, portions: 0.5}, mash]\n');
const day = sitting('--day', join(content, 'day.yaml'));
ok(day.list.length === 2 && day.list[0].name === 'lunch' && day.list[1].portions[0].portions === 0.5, 'a day is a sitting a meal', day);
ok(run(['sitting', '-C', content, '--day', join(content, 'day.yaml')]).stdout.includes('plumroot (2)'), 'what recurs is told');
writeFileSync(join(content, 'day.yaml'), 'lunch: soup\n');
ok(sitting('--day', join(content, 'day.yaml')).status === 2, 'a meal that is no list is told');

// a food in which each group was looked for and not found: it counts in its own serve, not in the sitting
writeFileSync(join(content, 'tables', 'foods', 'more.yaml'), `foods:\n  fernroot:\n    name: fernroot\n    class: vegetable\n    allergens: []\n    breaks: []\n    forms: {whole: {}}\n    per-100-g:\n      lactose: {kind: none, source: "made for this test", basis: practice}\n${['excess-fructose', 'fructan', 'galacto-oligosaccharide', 'sorbitol', 'mannitol'].map((g) => `      ${g}: {kind: below, high: 0.1, source: "made for this test", basis: practice}\n`).join('')}`);
post('pot', ['600 g fernroot']);
const pot = sitting('pot').list[0];
ok(pot?.limits.some((l) => l.of === 'fructan' && l.high > 0) && !pot.limits.some((l) => l.of === 'sitting' && l.share > 0), 'what was looked for and not found counts nothing in the sum of a sitting', pot);

const findings = (name) => JSON.parse(run(['proof', '-C', content, '--format', 'json', `posts/${name}.md`]).stdout);
const rules = (name) => findings(name).map((f) => f.rule);
post('stew', ['300 g plumroot'], 'eaten-with: [mash]\n');
ok(!rules('stew').some((r) => r.startsWith('menu')), 'a menu that is within says nothing', findings('stew'));
post('stew', ['300 g plumroot'], 'eaten-with: [soup]\n');
ok(rules('stew').includes('menu-over'), 'one that is over is told');
post('stew', ['300 g plumroot'], 'eaten-with: [nowhere]\n');
ok(rules('stew').includes('member'), 'a post that is not there is told');

// the line on a page of what fits beside it: two dishes of one food never, and what is named is within
// when the two are reckoned as one sitting
const besides = (out, slug) => [...(readFileSync(join(out, 'preview', `${slug}.html`), 'utf8').match(/<p class="dl-beside">.*<\/p>/)?.[0] ?? '').matchAll(/href="([^"]*)\.html"/g)].map((m) => m[1]);
post('soup', ['300 g plumroot', '100 ml water']);
post('stew', ['300 g plumroot']);
post('mash', ['300 g sedgeroot']);
post('feast', ['780 g sedgeroot']);
const { out: besideOut } = press(content, 'beside');
ok(besides(besideOut, 'soup').includes('mash') && !besides(besideOut, 'soup').includes('stew'), 'a page names what fits beside it, not another dish of the same food', besides(besideOut, 'soup'));
ok(besides(besideOut, 'feast').length === 0 && !besides(besideOut, 'soup').includes('feast'), 'what is over stands in no line and has none');
const { out: demoOut } = press('content', 'beside-demo');
const pairs = files(join(demoOut, 'fragments'), '.html').map((f) => f.replace(/.*\/|\.html$/g, '')).flatMap((one) => besides(demoOut, one).map((two) => [one, two]));
const strays = pairs.filter(([one, two]) => JSON.parse(run(['sitting', '-C', 'content', '--json', one, two]).stdout).standing !== 'within');
ok(pairs.length > 10 && strays.length === 0, 'of the demo, each pair that a page names is within as one sitting', strays);

// an answer to what a claim hangs on reaches the page
post('cake', ['100 g rice flour', '1 tsp baking powder'], 'claims: [gluten-free]\nanswers: {claim-label: The tin says gluten-free.}\n');
const { out: answered } = press(content, 'answered');
ok(/<b>gluten-free<\/b>:.*by the author’s word: The tin says gluten-free\.<\/li>/.test(readFileSync(join(answered, 'fragments', 'cake.html'), 'utf8')), 'the page says what the author answers to a claim that hangs on a label');

const digest = () => run(['worksheet', '-C', content, '--review', 'posts/soup.md']).stdout.match(/digest: (\S+)/)?.[1];
const signed = digest();
const review = (d) => post('soup', ['300 g plumroot', '100 ml water'], `reviewed: {by: R. Hale, on: 2026-11-01, digest: ${d}}\n`);
const page = () => { const { out } = press(content, 'together'); return readFileSync(join(out, 'fragments', 'soup.html'), 'utf8'); };
const lapsed = () => findings('soup').find((f) => f.rule === 'review-lapsed')?.message ?? '';
review(signed);
ok(lapsed() === '' && page().includes('R. Hale'), 'a review holds, and the page says so', lapsed());
table(0.11);
ok(lapsed().includes('300 g plumroot') && !page().includes('R. Hale'), 'a changed figure ends it, and the food is named', lapsed());
table(0.1);
ok(lapsed() === '', 'as it was, it holds again');
post('soup', ['300 g plumroot', '200 ml water'], `reviewed: {by: R. Hale, on: 2026-11-01, digest: ${signed}}\n`);
ok(lapsed().includes('200 ml water') && !lapsed().includes('plumroot'), 'a changed line is named', lapsed());
post('soup', ['300 g plumroot'], `reviewed: {by: R. Hale, on: 2026-11-01, digest: ${signed}}\n`);
ok(lapsed().includes('a line was taken out'), 'so is one that is gone', lapsed());
review(signed);
writeFileSync(join(content, 'tables', 'limits.yaml'), 'phases:\n  strict:\n    groups:\n      fructan: {grams: 0.19, scope: food, source: "made for this test", basis: practice}\n');
ok(lapsed().includes('the limits'), 'so are changed limits', lapsed());
review('1-abc');
ok(lapsed().includes('none that'), 'a digest that is none is told');
post('soup', ['300 g plumroot'], 'reviewed: {by: R. Hale, on: 2026-11-01}\n');
ok(lapsed().includes('no digest'), 'so is a review without one');
end();
