// Tables and posts spoilt in many ways: no verb may crash, hang or tell nothing, the post beside a
// spoilt one compiles, and the last good output stays whole where the machine fails.
// MUTATIONS (200) says how many, SEED (1) which. Prints TAP.
import {spawnSync} from 'node:child_process';
import {cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync} from 'node:fs';
import {tmpdir} from 'node:os';
import {dirname, join, resolve} from 'node:path';
import {fileURLToPath} from 'node:url';

process.chdir(fileURLToPath(new URL('../..', import.meta.url)));
const dariole = resolve(process.env.DARIOLE ?? 'build/dariole');
const count = Number(process.env.MUTATIONS ?? 200);
const work = mkdtempSync(join(tmpdir(), 'mutations-'));
process.on('exit', () => rmSync(work, {recursive: true, force: true}));

// xorshift: the same edits for the same seed
let state = (Number(process.env.SEED ?? 1) * 2654435761) >>> 0 || 1;
const below = n => {
    state ^= state << 13; state >>>= 0;
    state ^= state >>> 17;
    state ^= state << 5; state >>>= 0;
    return state % n;
};
const pick = list => list[below(list.length)];

const values = ['nan', '.nan', '.inf', '-1', '0', '1e999', '1e308', '1e-320', '9'.repeat(40), '"', '[', '{', '{}', '[]',
    '~', 'yes', '*a', '&a [*a]', '|\n  x', '\t', '""', '[[[[]]]]', '{a: {b: {c: d}}}', 'x'.repeat(5000), '0x10', '1,5',
    '12 g', '\u202e', '\xff\xfe', '\xc3', '\0', '%s%n', '- x', '? x', ': x', '...', '---', '#', '/etc/passwd',
    '{low: 5, mid: 1, high: 0, source: s, basis: published}', '{mid: 1e300, source: s, basis: published}',
    '{mid: 1e-300, source: s, basis: published}', '{mid: 0, source: s, basis: published}', '-5', '999999999999 g',
    'PT99999H', '2026-13-45', 'overnight', '100 %', '{food: x, amount: 1e9 kg, or: [{food: y}]}'];
const spans = (text, pattern) => [...text.matchAll(pattern)].map(m => [m.index + m[0].indexOf(m[1]), m[1].length]);
const replaceAt = (text, [at, length], by) => text.slice(0, at) + by + text.slice(at + length);
const replaceOne = (text, pattern, by) => {
    const found = spans(text, pattern);
    if (found.length === 0) return text;
    const one = pick(found);
    return replaceAt(text, one, by(text.substr(...one)));
};
const lines = (text, change) => {
    const all = text.split('\n');
    change(all);
    return all.join('\n');
};
const edits = [
    t => t.slice(0, below(t.length + 1)),
    t => lines(t, l => l.splice(below(l.length), pick([1, 1, 3, 10]))),
    t => lines(t, l => { const i = below(l.length); l.splice(i, 0, l[i], l[i]); }),
    t => lines(t, l => { const i = below(l.length), j = below(l.length); [l[i], l[j]] = [l[j], l[i]]; }),
    t => lines(t, l => { const i = below(l.length); l[i] = pick([' ', '    ', '\t']) + l[i]; }),
    t => lines(t, l => { const i = below(l.length); l[i] = l[i].trimStart(); }),
    t => replaceOne(t, /:[ \t]+([^\s,{}[\]][^\n,{}[\]]*)/g, () => pick(values)),
    t => replaceOne(t, /:[ \t]+([^\s,{}[\]][^\n,{}[\]]*)/g, () => pick(values)),
    t => replaceOne(t, /(\{[^{}]*\}|\[[^[\]]*\])/g, () => pick(values)),
    t => replaceOne(t, /([A-Za-z0-9-]+):/g, w => w.slice(0, -1) + String.fromCharCode(33 + below(90))),
    t => replaceOne(t, /(\d+(?:\.\d+)?)/g, n => pick([`-${n}`, `${n}e9`, `${n}e300`, '0', `"${n}"`, n.replace('.', ','), '.'])),
    t => { const at = below(t.length + 1); return t.slice(0, at) + String.fromCharCode(below(256)) + t.slice(at + 1); },
    t => { const at = below(t.length + 1), n = pick([10, 70, 5000]); return t.slice(0, at) + '['.repeat(n) + ']'.repeat(n) + t.slice(at); },
    t => { const at = below(t.length + 1); return t.slice(0, at) + pick(values) + t.slice(at); },
    t => pick(['', '\n', '---\n', 'x', '[]', '- a\n', '\xef\xbb\xbf' + t, t.replaceAll('\n', '\r\n'), t + t, 'foods: []\n', 'phases: 3\n']),
];
const spoil = text => {
    for (let i = pick([1, 1, 1, 2, 4]); i > 0; i--) text = pick(edits)(text);
    return text;
};

const content = join(work, 'c'), out = join(work, 'out'), small = join(work, 'tables');
const trim = (text, rows) => { // the head of a table and its first rows
    const at = [...text.matchAll(/^ {2}[a-z0-9-]+:/gm)].map(m => m.index);
    return at.length > rows ? text.slice(0, at[rows]) : text;
};
const tables = ['words.yaml', 'measures.yaml', 'limits.yaml', 'site.yaml', 'sources.yaml', 'cooking.yaml', 'cautions.yaml', 'swaps.yaml',
    ...readdirSync('content/tables/foods').map(f => `foods/${f}`)];
mkdirSync(join(small, 'foods'), {recursive: true});
for (const f of tables) {
    const text = readFileSync(`content/tables/${f}`, 'latin1');
    const rows = f.startsWith('foods/') ? 5 : f === 'cautions.yaml' ? 8 : f === 'swaps.yaml' ? 2 : 1000;
    writeFileSync(join(small, f), trim(text, rows), 'latin1');
}
mkdirSync(join(content, 'posts'), {recursive: true});
writeFileSync(join(content, 'posts/aa-soup.md'), `---\ntitle: Soup\nportions: 2\ningredients: [200 g carrots, 1 cup milk, 1 banana, 2 eggs, a pinch of salt]\nclaims: [vegetarian]\n---\n## Method\n\n1. Boil it all for 10 minutes at 180 °C.\n`);
const run = (tablesFolder, ...args) => spawnSync(dariole, args, {
    env: {...process.env, DARIOLE_TABLES: tablesFolder, XDG_CACHE_HOME: join(work, 'cache')}, timeout: 60000, encoding: 'latin1'});
const outputs = () => Object.fromEntries(readdirSync(out, {recursive: true, withFileTypes: true})
    .filter(e => e.isFile() && !join(e.parentPath ?? e.path).includes('.dariole'))
    .map(e => join(e.parentPath ?? e.path, e.name)).map(p => [p, readFileSync(p, 'latin1')]));

const faults = [];
const check = (good, what, input, ran) => {
    if (good) return;
    faults.push(what);
    console.log(`# ${what}: status ${ran.status}, signal ${ran.signal}: ${(ran.stderr ?? '').slice(0, 300).replaceAll('\n', ' | ')}`);
    console.log(`# ${Buffer.from(input, 'latin1').subarray(0, 200).toString('base64')}`);
};
const held = (ran, input, name) => {
    check([0, 1, 3].includes(ran.status), `${name} ends as designed`, input, ran);
    check(ran.status !== 3 || /dariole[^\n]*: ./.test(ran.stderr), `${name} that fails says why`, input, ran);
};

// "nan" as a word of the author's own is none of the program's
const noNumber = (input, output) => !/\b(nan|inf)\b/i.test(input) && /[ >(:]-?(nan|inf)[ ,<)%]/.test(output);

let before;
for (let i = 0; i < count; i++) {
    const f = pick(tables), own = below(5) < 3, base = own ? small : join(work, 'base');
    const text = spoil(readFileSync(join(small, f), 'latin1'));
    rmSync(join(content, 'tables'), {recursive: true, force: true});
    if (!own) {
        rmSync(base, {recursive: true, force: true});
        cpSync(small, base, {recursive: true});
    }
    const path = join(own ? join(content, 'tables') : base, f);
    mkdirSync(dirname(path), {recursive: true});
    writeFileSync(path, text, 'latin1');
    const verb = pick(['press', 'press', 'proof', 'weigh', 'larder']);
    const args = {press: ['-C', content, '-o', out], proof: ['-C', content], weigh: ['-C', content, '1 cup milk, plus 2 bananas'],
        larder: ['-C', content, 'milk']}[verb];
    const ran = run(base, verb, ...args);
    held(ran, text, `${verb} with a spoilt ${f}`);
    if (verb !== 'press') continue;
    if (ran.status === 3 && before !== undefined)
        check(JSON.stringify(outputs()) === JSON.stringify(before), 'the last good output stays', text, ran);
    if (ran.status === 3) continue;
    before = outputs();
    check(existsSync(join(out, 'fragments/aa-soup.html')), 'the post is published', text, ran);
    check(!Object.values(before).some(t => noNumber(text, t)), 'no output holds a number that is none', text, ran);
}
rmSync(join(content, 'tables'), {recursive: true, force: true});
console.log(`${faults.length === 0 ? 'ok' : 'not ok'} 1 - ${count} spoilt tables`);

const tableFaults = faults.length;
const seeds = ['content/posts', 'tests/posts'].flatMap(d => readdirSync(d).filter(f => f.endsWith('.md')).map(f => join(d, f)));
const AT_ONCE = 25;
let spoken = false; // a post that cannot be read keeps its last good output, with its words
for (let i = 0; i < count; i += AT_ONCE) {
    if (spoken) rmSync(out, {recursive: true, force: true});
    let all = '';
    for (let k = 0; k < AT_ONCE; k++) {
        const seed = readFileSync(pick(seeds), 'latin1'), end = seed.indexOf('\n---', 4);
        const text = (spoil(seed.slice(0, end)) + seed.slice(end)).replace(/^slug:.*$/m, '');
        writeFileSync(join(content, `posts/p${k}.md`), text, 'latin1');
        all += `${text}\0`;
    }
    spoken = /\b(nan|inf)\b/i.test(all);
    const ran = run('content/tables', 'press', '-C', content, '-o', out);
    check([0, 1].includes(ran.status), 'press with spoilt posts ends as designed', all, ran);
    check(existsSync(join(out, 'fragments/aa-soup.html')), 'the post beside spoilt ones is published', all, ran);
    for (const [path, text] of Object.entries(outputs())) {
        check(!noNumber(all, text), `${path} holds no number that is none`, all, ran);
        if (!path.endsWith('.json')) continue;
        try { JSON.parse(Buffer.from(text, 'latin1').toString()); } catch (e) { check(false, `${path} is JSON`, all, ran); }
    }
    check([0, 1].includes(run('content/tables', 'proof', '-C', content, '--format', 'json').status), 'proof of spoilt posts', all, ran);
}
console.log(`${faults.length === tableFaults ? 'ok' : 'not ok'} 2 - ${count} spoilt posts`);
console.log('1..2');
process.exitCode = faults.length > 0 ? 1 : 0;
