// Exactly a clean build: after each of some hundred random edits of posts, tables, outputs and options,
// what stands in OUT is byte for byte what a press into an empty folder gives, the report and the exit
// status are the same, foreign files are untouched, and a second press finds nothing to do.
// SEED=N repeats a run, STEPS=N makes it longer.
import { execFileSync, spawnSync } from 'node:child_process';
import { appendFileSync, cpSync, existsSync, mkdirSync, mkdtempSync, openSync, closeSync, writeSync, readFileSync, readdirSync, renameSync, rmSync, statSync, unlinkSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '../..');
const program = join(root, process.env.DARIOLE ?? 'build/dariole');
const seed = Number(process.env.SEED ?? 20261125); // the same each time, so that a failure is of the change; try others by hand
const steps = Number(process.env.STEPS ?? 250);
console.log(`# SEED=${seed} STEPS=${steps}`);

let state = seed >>> 0;
const draw = () => { // mulberry32
  state = (state + 0x6d2b79f5) >>> 0;
  let t = Math.imul(state ^ (state >>> 15), state | 1);
  t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
};
const below = (n) => Math.floor(draw() * n);
const pick = (list) => list[below(list.length)];

const work = mkdtempSync(join(tmpdir(), 'dariole-edits-'));
process.on('exit', () => rmSync(work, { recursive: true, force: true }));
const content = join(work, 'content');
const out = join(work, 'out');
const defaults = join(work, 'defaults');
cpSync(join(root, 'content/tables'), defaults, { recursive: true });
cpSync(join(root, 'content/posts'), join(content, 'posts'), { recursive: true });
cpSync(join(root, 'content/images'), join(content, 'images'), { recursive: true });
mkdirSync(join(content, 'tables/foods'), { recursive: true });
execFileSync('cc', ['-O1', '-std=c11', '-D_POSIX_C_SOURCE=200809L', '-o', join(work, 'posts'), join(root, 'tests/bench/posts.c')]);
execFileSync(join(work, 'posts'), [join(content, 'more'), '12']);
const env = { ...process.env, DARIOLE_TABLES: defaults, XDG_CACHE_HOME: join(work, 'cache'), LC_ALL: 'C.UTF-8' };

// a program that says it writes another format, and one whose ledger is laid out in another way
const programs = [program];
const build = dirname(program);
const link = (name, sources, ...defined) => {
  const flags = execFileSync('pkg-config', ['--cflags', '--libs', 'yaml-0.1', 'libcmark', 'jansson', 'libxxhash', 'libseccomp']).toString().trim().split(/\s+/);
  execFileSync('cc', ['-std=c11', '-D_POSIX_C_SOURCE=200809L', ...defined, '-DDARIOLE_TABLES=""', `-I${join(root, 'src')}`, '-pthread', '-o', join(work, name),
    ...sources.map((file) => join(root, 'src/press', file)), join(build, 'main.o'), join(build, 'libdariole.a'), ...flags, '-lunistring', '-lm'], { stdio: 'pipe' });
  programs.push(join(work, name));
};
try {
  link('other', ['press.c'], '-DDARIOLE_FORMAT=1000000');
  link('later', ['press.c', 'ledger.c', 'ledger_file.c'], '-DDARIOLE_FORMAT=1000001', '-DLEDGER_LAYOUT=99');
} catch { console.log('# other programs cannot be linked from here'); }

const walk = (folder, all = []) => {
  for (const entry of readdirSync(folder, { withFileTypes: true }))
    if (entry.isDirectory()) { if (entry.name !== '.dariole') walk(join(folder, entry.name), all); } else all.push(join(folder, entry.name));
  return all;
};
const tree = (folder) => new Map(walk(folder).map((path) => [relative(folder, path), readFileSync(path)]));
const posts = () => walk(content).filter((path) => path.endsWith('.md') && !relative(content, path).startsWith('tables/'));
const tables = () => [...walk(defaults), ...walk(join(content, 'tables'))].filter((path) => path.endsWith('.yaml'));

// a file changed in place or as editors do, by a new file in its stead
const put = (path, bytes) => {
  if (draw() < 0.5) { writeFileSync(`${path}.new`, bytes); renameSync(`${path}.new`, path); } else writeFileSync(path, bytes);
};
const change = (path, edit) => { const text = readFileSync(path, 'utf8'); put(path, edit(text)); };
const lineOf = (text, test) => { const lines = text.split('\n'); const hits = lines.map((l, i) => i).filter((i) => test(lines[i])); return { lines, at: hits.length > 0 ? pick(hits) : -1 }; };
const changeLine = (path, test, edit) => change(path, (text) => {
  const { lines, at } = lineOf(text, test);
  if (at >= 0) lines[at] = edit(lines[at]);
  return lines.join('\n');
});

const pictures = ['pan.svg', 'images/bowl.png', ...readdirSync(join(content, 'images')).slice(0, 6).map((name) => `images/${name}`)];
const places = pictures.flatMap((file) => [file, `posts/${file}`, `more/${file}`]).map((file) => join(content, file));
const standing = () => places.filter((path) => existsSync(path));
let heading = 2;
let which = 0;
const foods = ['carrot', 'rice', 'salt', 'olive-oil', 'tomato', 'tofu-firm', 'potato', 'water', 'lemon-juice', 'spinach'];
// a file of OUT/.dariole gone, cut off anywhere, a byte or a stretch of it changed, another's in its place
const hurt = (files) => {
  for (const path of files.map((file) => join(out, '.dariole', file)).filter((file) => existsSync(file))) {
    const bytes = readFileSync(path), at = below(bytes.length + 1);
    const how = pick(['gone', 'cut', 'flipped', 'flipped', 'overwritten', 'empty', 'other']);
    if (how === 'gone') unlinkSync(path);
    else if (how === 'cut') writeFileSync(path, bytes.subarray(0, at));
    else if (how === 'empty') writeFileSync(path, '');
    else if (how === 'other') writeFileSync(path, 'fragments/foreign.html\nforeign\tfragments/*.html\n');
    else {
      const many = how === 'flipped' ? 1 : 200;
      for (let i = at; i < Math.min(at + many, bytes.length); i++) bytes[i] ^= 1 + below(255);
      writeFileSync(path, bytes);
    }
  }
};
const moveOn = () => {
  for (let i = 1 + below(2); i > 0; i--) {
    if (draw() < 0.5) { const from = pick(posts()); renameSync(from, join(dirname(from), `moved-${below(30)}.md`)); }
    else if (posts().length > 12) unlinkSync(pick(posts()));
    else pick([edits.slugged, edits.draft, edits.removePicture, edits.addPost])();
  }
};
const edits = {
  addPost: () => cpSync(pick(posts()), join(content, pick(['posts', 'more', '.']), `new-${below(30)}.md`)),
  slugged: () => change(pick(posts()), (t) => t.replace(/^slug: .*\n/m, '').replace(/^title:/m, `slug: shared-${below(4)}\ntitle:`)),
  amount: () => changeLine(pick(posts()), (l) => /^ +- .*\d/.test(l), (l) => l.replace(/\d+/, String(1 + below(400)))),
  word: () => changeLine(pick(posts()), (l) => /^ +- /.test(l), (l) => `${l.split(' ').slice(0, -1).join(' ')} ${pick(['carrots', 'honey', 'unheard-of', 'milk', 'onion'])}`),
  dropLine: () => change(pick(posts()), (t) => { const { lines, at } = lineOf(t, (l) => /^ +- /.test(l)); if (at >= 0) lines.splice(at, 1); return lines.join('\n'); }),
  prose: () => change(pick(posts()), (t) => `${t}\nOne more line, ${below(1000)}.\n`),
  gather: () => put(join(content, `posts/round-${below(3)}.md`), `---\ntitle: Round ${below(3)}\npublished: 2026-02-1${below(9)}\nclaims: [${pick(['vegan', 'gluten-free'])}]\ngathers: [${[0, 1, 2, 3].map(() => basename(pick(posts()), '.md')).join(', ')}]\n---\nA round.\n`),
  linkTo: () => change(pick(posts()), (t) => `${t}\nSee [that](${basename(pick(posts()))}).\n`),
  menu: () => change(pick(posts()), (t) => t.replace(/^eaten-with:.*\n/m, '').replace(/^title:/m, `eaten-with: [${basename(pick(posts()), '.md')}]\ntitle:`)),
  kind: () => changeLine(pick(posts()), (l) => l.startsWith('category:'), () => `category: ${pick(['Main', 'Soup', 'Salad'])}`),
  date: () => changeLine(pick(posts()), (l) => l.startsWith('published:'), () => `published: 2026-0${1 + below(9)}-1${below(10)}`),
  draft: () => change(pick(posts()), (t) => (/^draft:/m.test(t) ? t.replace(/^draft:.*\n/m, '') : t.replace(/^title:/m, 'draft: yes\ntitle:'))),
  rename: () => { const from = pick(posts()); renameSync(from, join(dirname(from), `moved-${below(30)}.md`)); },
  swap: () => { const a = pick(posts()), b = pick(posts()); if (a !== b) { renameSync(a, join(work, 'x')); renameSync(b, a); renameSync(join(work, 'x'), b); } },
  removePost: () => { if (posts().length > 12) unlinkSync(pick(posts())); },
  touch: () => utimesSync(pick(posts()), new Date(), new Date()),
  named: () => change(pick(posts()), (t) => t.replace(/^image:.*\n/m, '').replace(/^title:/m, `image: {file: ${pick([...pictures, '../pan.svg', 'pan.txt', 'https://pictures.example/pan.svg'])}, alt: a pan}\ntitle:`)),
  picture: () => { const path = pick(places); mkdirSync(dirname(path), { recursive: true }); put(path, `<svg xmlns="http://www.w3.org/2000/svg"><!-- ${below(1000)} --></svg>\n`); },
  removePicture: () => { if (standing().length > 0) unlinkSync(pick(standing())); },
  sameSizePicture: () => {
    if (standing().length === 0) return;
    const path = pick(standing()), s = statSync(path);
    const fd = openSync(path, 'r+'); writeSync(fd, String(below(10)), s.size - 12); closeSync(fd);
    utimesSync(path, s.atime, s.mtime);
  },
  sameSize: () => { // other bytes, the same size and times
    const path = pick(posts()), s = statSync(path);
    const text = readFileSync(path, 'utf8').replace(/\d(?=[^\d]*\n---\n)/, (d) => String((Number(d) + 1) % 10));
    const fd = openSync(path, 'r+'); writeSync(fd, text, 0); closeSync(fd);
    utimesSync(path, s.atime, s.mtime);
  },
  figure: () => changeLine(pick(tables()), (l) => /mid: \d/.test(l), (l) => l.replace(/mid: [\d.]+/, (m) => `mid: ${(Number(m.slice(5)) * pick([0.5, 1, 1.01, 2])).toPrecision(4)}`)),
  limit: () => changeLine(join(defaults, 'limits.yaml'), (l) => /^ +grams: [\d.]+/.test(l), (l) => l.replace(/[\d.]+/, pick(['0.1', '0.2', '0.25', '0.5', '1.0']))),
  spelling: () => change(pick(tables()), (t) => (draw() < 0.5 ? `${t}# a remark, ${below(100)}\n` : t.replace(/mid: (\d+)\.(\d)(?=[,}])/, 'mid: $1.$20'))),
  ownLimit: () => put(join(content, 'tables/limits.yaml'), `phases:\n  strict:\n    groups:\n      ${pick(['lactose', 'sorbitol', 'fructan', 'mannitol'])}: {grams: ${pick(['0.1', '0.3', '0.9'])}, source: "a test", basis: practice}\n`),
  noOwnLimit: () => rmSync(join(content, 'tables/limits.yaml'), { force: true }),
  ownFood: () => put(join(content, `tables/foods/own-${below(3)}.yaml`), `foods:\n  ${pick([...foods, 'unheard-of'])}:\n    name: ${pick(['carrot', 'unheard-of', 'rice'])}\n    class: vegetable\n    forms:\n      whole:\n        density: {mid: 0.${1 + below(9)}, source: "a test", basis: practice}\n    per-100-g:\n      all: {mid: 0, source: "a test", basis: practice}\n`),
  noOwnFood: () => rmSync(join(content, `tables/foods/own-${below(3)}.yaml`), { force: true }),
  site: () => put(join(content, 'tables/site.yaml'), `title: Site ${below(3)}\naddress: ${pick(['""', 'https://recipes.example/'])}\nregions: [${pick(['uk, us', 'au', 'metric, jp, us'])}]\nphase: ${pick(['strict', 'wider'])}\nregions-apart: ${pick(['yes', 'no'])}\n`),
  noSite: () => rmSync(join(content, 'tables/site.yaml'), { force: true }),
  caution: () => changeLine(join(defaults, 'cautions.yaml'), (l) => /^ +words: /.test(l), (l) => `${l.replace(/ Mind this\./g, '').replace(/(["']?)$/, draw() < 0.5 ? ' Mind this.$1' : '$1')}`),
  unit: () => changeLine(join(defaults, 'measures.yaml'), (l) => /(ml|mid|size): \d/.test(l), (l) => l.replace(/\d+(\.\d+)?/, (m) => String(Number(m) * pick([1, 1.5])))),
  brokenTable: () => put(join(content, 'tables/foods/broken.yaml'), pick(['foods: [1, 2\n', 'foods:\n  x: 3\n', ''])),
  deleteOutput: () => { const all = walk(out).filter((p) => !basename(p).startsWith('foreign')); if (all.length > 0) unlinkSync(pick(all)); },
  // the whole folder is taken away, as a site's own cleaning may do; or all that is in it
  loseFolder: () => {
    const folder = join(out, pick(['data', 'preview']));
    rmSync(folder, { recursive: true, force: true });
    if (draw() < 0.5) mkdirSync(folder);
  },
  damageOutput: () => {
    const all = walk(out).filter((p) => !basename(p).startsWith('foreign') && statSync(p).size > 0);
    if (all.length === 0) return;
    const path = pick(all), bytes = readFileSync(path), s = statSync(path);
    bytes[below(bytes.length)] ^= 1;
    const fd = openSync(path, 'r+'); writeSync(fd, bytes, 0, bytes.length, 0); closeSync(fd);
    if (draw() < 0.3) utimesSync(path, s.atime, s.mtime);
  },
  appendOutput: () => { const all = walk(out).filter((p) => !basename(p).startsWith('foreign')); if (all.length > 0) appendFileSync(pick(all), 'x'); },
  damageLedger: () => {
    if (!existsSync(join(out, '.dariole'))) return;
    const path = join(out, '.dariole', pick(readdirSync(join(out, '.dariole'))));
    if (statSync(path).size > 0) { const bytes = readFileSync(path); bytes[below(bytes.length)] ^= 1; writeFileSync(path, bytes); }
  },
  // what the press remembers is lost or damaged, and in the same step a post goes or takes another name
  loseLedger: () => { hurt(['ledger']); moveOn(); },
  loseManifest: () => { hurt(['manifest']); moveOn(); },
  loseBoth: () => { hurt(['ledger', 'manifest']); moveOn(); },
  loseAll: () => { if (draw() < 0.5) rmSync(join(out, '.dariole'), { recursive: true, force: true }); else if (existsSync(join(out, '.dariole'))) hurt(readdirSync(join(out, '.dariole'))); moveOn(); },
  heading: () => { heading = 1 + below(4); },
  program: () => { which = below(programs.length); },
};
const names = Object.keys(edits);
const rare = new Set(['damageLedger', 'loseBoth', 'loseAll', 'program', 'heading', 'site', 'brokenTable']);

const press = (to, ...more) => {
  const r = spawnSync(programs[which], ['press', '-C', content, '-o', to, '-j', String(1 + below(3)), '--heading-level', String(heading), ...more], { env, maxBuffer: 1 << 28 });
  return { status: r.status, signal: r.signal, out: r.stdout.toString(), err: r.stderr.toString() };
};
const findings = (r) => r.err.replace(/^\d+ posts?, .*\n/m, '').replace(/^dariole: .* was lost or damaged, .*\n/m, '');
// the files that the press could not tell for ours or the writer's, and named
const named = (r) => r.err.match(/^dariole: .* was lost or damaged, .*: (.*)$/m)?.[1].split(/, | and \d+ more/) ?? [];
let number = 0;
const say = (good, name, why) => {
  console.log(`${good ? 'ok' : 'not ok'} ${++number} - ${name}`);
  if (!good) console.log(String(why).split('\n').slice(0, 40).map((l) => `# ${l.slice(0, 300)}`).join('\n'));
};
const lineDiff = (a, b) => {
  const [x, y] = [a.split('\n'), b.split('\n')];
  return [...x.filter((l) => !y.includes(l)).map((l) => `- ${l}`), ...y.filter((l) => !x.includes(l)).map((l) => `+ ${l}`)].slice(0, 8).join('\n');
};
const compare = (got, want) => [...new Set([...got.keys(), ...want.keys()])].sort()
  .filter((k) => !(got.has(k) && want.has(k) && got.get(k).equals(want.get(k))))
  .map((k) => `${k}: ${got.has(k) ? (want.has(k) ? 'differs' : 'should not be there') : 'is missing'}`);

for (const folder of ['fragments', 'images']) mkdirSync(join(out, folder), { recursive: true });
const foreign = ['fragments/foreign.html', 'images/foreign.svg', 'foreign.txt'];
for (const path of foreign) writeFileSync(join(out, path), 'of another hand');
press(out);
const fails = { named: [], bytes: [], report: [], idle: [], foreign: [], left: [], only: [] };
let made = 0, idle = 0, lost = 0, strays = 0;
for (let step = 0; step < steps; step++) {
  const done = [];
  for (let i = 1 + below(3); i > 0; i--) {
    let name = pick(names);
    if (rare.has(name) && draw() < 0.6) name = pick(names);
    edits[name]();
    done.push(name);
  }
  const told = press(out, '--why');
  const clean = join(work, 'clean');
  rmSync(clean, { recursive: true, force: true });
  const want = press(clean);
  const got = tree(out);
  const where = `step ${step} (${done.join(', ')}), exit ${told.status} ${told.signal ?? ''}: `;
  for (const path of foreign) {
    if (got.get(path)?.toString() !== 'of another hand') fails.foreign.push(where + path);
    got.delete(path);
  }
  // Where ledger and manifest are both lost, what the catalogue of before and the outputs' own bytes do not tell
  // for ours stays and is named; that takes an output that was damaged or deleted as well
  const wanted = tree(clean), left = [...got.keys()].filter((path) => !wanted.has(path));
  if (done.some((name) => /^lose(?!Folder)/.test(name))) lost++;
  for (const path of left.filter((name) => named(told).includes(name))) {
    if (!done.some((name) => /Output$|damageLedger|loseFolder/.test(name))) fails.named.push(`${where}${path} was not known for ours`);
    strays++;
    got.delete(path);
    unlinkSync(join(out, path));
  }
  for (const path of named(told)) if (path !== '' && wanted.has(path)) fails.named.push(`${where}${path} is made by a post, but named`);
  const differ = compare(got, wanted);
  // the one exception: a post that cannot be read any more keeps its last good output
  if (/cannot be read; (its|their) last good/.test(told.err)) { rmSync(join(out, '.dariole'), { recursive: true }); for (const p of walk(out)) if (!basename(p).startsWith('foreign')) unlinkSync(p); press(out); continue; }
  if (differ.length > 0) fails.bytes.push(`${where}${differ.slice(0, 5).join('; ')}\n${told.out.slice(0, 500)}`);
  if (told.status !== want.status || findings(told) !== findings(want)) fails.report.push(`${where}${want.status}\n${lineDiff(findings(told), findings(want))}`);
  if (walk(work).some((p) => basename(p).startsWith('.dariole-')) || existsSync(join(out, '.dariole/journal'))) fails.left.push(where);
  made += told.out.split('\n').length - 1;
  const again = press(out, '--why');
  if (again.out !== '' || !/; 0 made, /.test(again.err)) fails.idle.push(`${where}${again.out.slice(0, 300)}${again.err.slice(-200)}`);
  else idle++;
  if (differ.length > 0) { rmSync(out, { recursive: true }); for (const folder of ['fragments', 'images']) mkdirSync(join(out, folder), { recursive: true }); for (const path of foreign) writeFileSync(join(out, path), 'of another hand'); press(out); }
}
console.log(`# what the press remembers was lost in ${lost} steps; ${strays} outputs of ours were named as nobody's`);
console.log(`# ${made} posts were made again in ${steps} steps, ${idle} presses found nothing to do`);
say(fails.bytes.length === 0, 'outputs are what a clean press gives, byte for byte', fails.bytes.slice(0, 4).join('\n'));
say(fails.report.length === 0, 'report and exit status are those of a clean press', fails.report.slice(0, 3).join('\n'));
say(fails.foreign.length === 0, 'foreign files are untouched', fails.foreign.join('\n'));
say(fails.named.length === 0 && lost > steps / 15 && strays < lost / 4, 'what the press remembers may be lost: our outputs go, or are named', [`${lost} ${strays}`, ...fails.named.slice(0, 4)].join('\n'));
say(fails.left.length === 0, 'no temporary file is left', fails.left.join('\n'));
say(fails.idle.length === 0, 'a second press finds nothing to do', fails.idle.slice(0, 4).join('\n'));
say(made > steps && made < steps * 26 * 0.9, 'some posts were made again, and not all each time', made);
