// Lines changed in ways that change no food: as they are pasted, as remarks are added, and known
// parts (amount, form, food, remark) put together at random. The same food is read, or the line is
// said to be unknown; never another food.
import { ok, end } from './lib/tap.mjs';
import { foodsOf, readRows, weighAll } from './lib/lines.mjs';

let seed = 20260314;
const random = (n) => {
  seed = (Math.imul(seed, 1103515245) + 12345) >>> 0;
  return Math.floor((seed / 2 ** 32) * n);
};
const pick = (list) => list[random(list.length)];

const pasted = [
  (line) => `• ${line}`, (line) => `▢ ${line}`, (line) => `- [ ] ${line}`, (line) => `<li>${line}</li>`,
  (line) => line.replace(/ /g, '\u00a0'), (line) => line.replace(/ /, '&nbsp;'), (line) => line.replace(/ /g, '  '),
  (line) => line.replace('½', '&frac12;').replace('¼', '&#188;'), (line) => `**${line}**`, (line) => `${line}.`,
  (line) => line.replace(/([a-z])([a-z]{3}\b)/, '$1\u00ad$2'), (line) => `${line}\u200b`, (line) => line.toUpperCase().replace(/\b(\d+ ?)(T|C|L|G|ML|KG|TBSP|TSP)\b/g, (all) => all.toLowerCase()),
];
const remarks = [
  ', rinsed and patted dry', ', washed and dried', ', at room temperature', ' (see note)', ', the best you can find',
  ', roughly prepared', ' (I buy mine at the market)', ', wiped clean with a damp cloth', ', checked over', ' (leave some for the end)',
];

// what is written in capitals is left alone where T and t are different spoons
const rows = readRows('lines.tsv').filter(({ food, text }) => food !== 'none' && !/[;]| or |\/|,.*,/.test(text) && !/\b[tTcCgL]\b/.test(text));
let tried = 0;
let unknown = 0;
const other = [];
for (const region of new Set(rows.map((row) => row.region))) {
  const own = rows.filter((row) => row.region === region);
  const changed = own.map((row) => ({ from: row.text, to: random(2) === 0 ? pick(pasted)(row.text) : `${row.text}${pick(remarks)}` }));
  const before = weighAll(region, own.map(({ text }) => text));
  const after = weighAll(region, changed.map(({ to }) => to));
  for (const { from, to } of changed) {
    const was = foodsOf(before.get(from)).flat();
    const now = foodsOf(after.get(to.trim()) ?? [{ food: null }]).flat();
    tried += 1;
    if (now.includes(null) && !was.includes(null))
      unknown += 1;
    else if (was.join() !== now.join())
      other.push(`${region}: ${from} is ${was}; ${to} is ${now}`);
  }
}
for (const one of other.slice(0, 40)) console.log(`# ${one}`);
ok(tried > 1500, `${tried} lines are changed`);
ok(other.length === 0, `${other.length} become another food`);
ok(unknown <= 0.02 * tried, `${unknown} become unknown`);

// lines with choices and kinds behind commas, each changed in one of the ways in which writers differ
const manners = [
  (line) => line.replace(/\b([a-z])([a-z]{3,})/g, (all, first, rest) => first.toUpperCase() + rest),
  (line) => (/^\d/.test(line) ? `about ${line}` : line), (line) => `For the dish: ${line}`, (line) => `- ${line}`,
  (line) => `${line} - see tip below`, (line) => `${line} – from the market`, (line) => `${line} (see notes)`,
  (line) => `${line}, plus extra to serve`, (line) => `${line}, optional`, (line) => line.replace(/, /g, '; '),
  (line) => line.replace(/-/g, '\u2011'), (line) => line.replace(/'/g, '\u2019'), (line) => line.replace(/([a-z]{5,})/, '**$1**'),
  (line) => line.replace(/^([\d½¼¾⅓⅔./ –-]+(?:g|kg|ml|cups?|tbsp|tsp|oz|lb)\b(?: of)?) /, '$1 organic '),
  (line) => line.replace(/([a-z]{3,})-([a-z]{3,})/g, '$1 $2'), (line) => line.replace(/ /g, '  '),
];
let changedLines = 0;
const changedFoods = [];
const written = [...readRows('misread.tsv'), ...readRows('rounds.tsv'), ...readRows('unseen.tsv'), ...readRows('unseen-2.tsv')]
  .filter(({ text }) => !/[<&~:]|each|^4 cloves|Tbsp|garlic, dried|chicken, beef/.test(text));
for (const region of new Set(written.map((row) => row.region))) {
  const own = written.filter((row) => row.region === region).map(({ text }) => ({ from: text, to: pick(manners)(text) }));
  const before = weighAll(region, own.map(({ from }) => from));
  const after = weighAll(region, own.map(({ to }) => to));
  for (const { from, to } of own) {
    const was = new Set(foodsOf(before.get(from)).flat());
    const now = new Set(foodsOf(after.get(to.trim()) ?? [{ food: null }]).flat());
    changedLines += 1;
    if (!was.has(null) && !now.has(null) && [...was].sort().join() !== [...now].sort().join())
      changedFoods.push(`${region}: ${from} is ${[...was]}; ${to} is ${[...now]}`);
  }
}
ok(changedFoods.length === 0, `${changedLines} lines with choices, written otherwise, keep their foods`, changedFoods.join('\n'));

const amounts = ['200 g', '2 tbsp', '1 cup (250 ml)', '100-150 g', '½ cup', '3/4 cup', 'about 90 g'];
const forms = ['', 'chopped ', 'finely grated ', 'organic ', 'fresh '];
const foods = { carrots: 'carrot', zucchini: 'courgette', walnuts: 'walnut', 'cheddar cheese': 'cheddar', spinach: 'spinach', 'red cabbage': 'red-cabbage', ginger: 'ginger', parsley: 'parsley', 'smoked tofu': 'tofu-smoked', 'dark chocolate': 'dark-chocolate', 'oyster mushrooms': 'oyster-mushroom', 'sun-dried tomatoes': 'sun-dried-tomato' };
const ends = ['', ', chopped', ', trimmed and sliced', ', to serve', ' (optional)', ', divided', ', rinsed, drained and patted dry', ', or to taste', ' for garnish', ', plus extra to serve'];
const built = [];
for (let i = 0; i < 600; i += 1) {
  const name = pick(Object.keys(foods));
  const finish = pick(ends);
  built.push({ text: `${pick(amounts)} ${pick(forms)}${name}${finish}`, food: foods[name], optional: finish.includes('optional') });
}
const found = weighAll('au', [...new Set(built.map(({ text }) => text))]);
const wrong = built.filter(({ text, food, optional }) => {
  const [first] = found.get(text);
  return first.food !== food || first.optional !== optional;
});
ok(wrong.length === 0, `${built.length} lines put together are read back as their parts`, wrong.slice(0, 20).map(({ text, food }) => `${text}: ${found.get(text)[0].food}, not ${food}`).join('\n'));
end();
