// Allergens and diets of every food, walked from words alone: what the names tell must be in the row or
// be told as possible; what the row says must be told by a name or by its ground; the ground of a food
// made of several, a usual recipe, must tell the same as its row. Each exception has its reason.
import { ok, end } from './lib/tap.mjs';
import { names, table } from './lib/tables.mjs';

const larder = names().filter((one) => one.startsWith('foods/')).flatMap((page) =>
  Object.entries(table(page).foods).map(([id, food]) => ({
    ...food, id, page,
    carried: food.allergens ?? [], perhaps: [...food['may-carry'] ?? [], ...food.traces ?? []], some: food['may-carry'] ?? [], few: food.traces ?? [],
    broken: food.breaks ?? [], asked: food.labelled ?? [], ground: String(food.grounds?.source ?? ''),
    called: [food.name, ...Object.values(food.names ?? {}).flat()].map((one) => String(one).toLowerCase()) })));

// words of a packet's list: the law has each allergen named beside them (1169/2011, article 21)
const onPackets = (food) => food.id.startsWith('packet-');

const bases = ['measured', 'published', 'calculated', 'practice', 'memory'];
let good = 0, walked = 0;
// one rule over all foods: `fault` gives what is wrong with one, or nothing; `met` says whom it is about
function rule(what, fewest, met, fault) {
  const about = larder.filter(met);
  const faults = about.map((food) => [food.id, fault(food)]).filter(([, one]) => one);
  walked += about.length;
  good += about.length - faults.length;
  ok(about.length >= fewest && faults.length === 0, `${what} (${about.length} foods)`, faults.map(([id, one]) => `${id}: ${one}`).join('\n'));
}

rule('each food says its allergens and the diets it breaks', 1500, () => true,
  (f) => (!Array.isArray(f.allergens) || !Array.isArray(f.breaks)) && 'a list is missing');
rule('each says where that comes from, and on what basis', 1500, () => true,
  (f) => (f.ground.length < 8 || !bases.includes(f.grounds?.basis)) && `grounds: ${JSON.stringify(f.grounds)}`);

// allergen, words that tell it, words beside which they do not
const tells = [
  ['gluten', /wheat|barley|\brye\b|\boats?\b|\boat(meal|cake)|spelt|farro|semolina|couscous|bulgur|seitan|\bmalt(ed)?\b|\bbread(crumb)?s?\b|\bpasta\b|noodle|pastry|muffin|bagel|\bbun\b|tortilla|naan|\bpitt?a\b|croissant|\bbeer\b|panko|pretzel|crumpet|rusk/,
    /buckwheat|zucchini|courgette|gluten-free|\brice\b|vermicelli noodles|pad thai|maize|quinoa|legume|shirataki|glass|cellophane|\bbeans?\b|kelp|seaweed|kon(jac|nyaku)|corn |lentil|pea |pulse|chickpea|sweet potato|sauce|seasoning|spice|breadfruit|breadnut|bread (soda|and butter|flour blend)|ginger beer|root beer|sweetbread|pasta cooking water|^bread machine|oat ?free|maltitol/],
  ['wheat', /(?<!buck)wheat(?!grass)|spelt|farro|semolina|couscous|bulgur|seitan|freekeh|durum/, /gluten-free|free/],
  ['rye', /\brye\b|pumpernickel|triticale/, /gluten-free/],
  ['barley', /barley|malt (vinegar|extract|syrup)|\bmalted\b/, /gluten-free|wheat/],
  ['oats', /\boats?\b|\boat(meal|cake)/, /oat ?free/],
  ['milk', /milk|cream\b|butter\b|cheese|yog|whey|casein|ghee|kefir|custard\b|paneer|caramel/,
    /vegan|dairy-free|non-dairy|plant|soy|coconut|almond|\boat|\brice|cashew|peanut|hazelnut|macadamia|hemp|quinoa|seed|sesame|tahini|nut butter|butternut|butter (bean|lettuce|fish)|buttercup|apple butter|(cocoa|cacao) butter|cream (of tartar|of coconut|cracker)|cream-style|salad cream|quince cheese|custard apple|dutch cream|bread and butter|topping|butter cracker|butter cookie|sunflower|vegetable|creamed|sunbutter|\bpea (protein )?milk/],
  ['eggs', /\beggs?\b|meringue|mayo\b|mayonnaise|omelette|custard powder/,
    /vegan|egg-free|mung|plant|tofu|egg (replacer|substitute|tomato)|no egg|flax|chia|linseed|custard powder|easter egg|fish eggs/],
  ['fish', /\bfish\b|anchov|salmon|\btuna\b|\bcod\b|haddock|mackerel|sardine|herring|trout|caviar|\broe\b|bonito/, /^fish mint|tuna fruit|citrus caviar|shellfish|vegan|vegetarian|plant-based/],
  ['crustaceans', /shrimp|prawn|\bcrabs?\b|lobster|crayfish|langoustine|scampi/, /crab ?apple|crab seasoning/],
  ['molluscs', /oyster|mussel|\bclams?\b|scallop|squid|calamari|octopus|cockle|cuttlefish/,
    /oyster (mushroom|plant|cracker)|king oyster|vegetarian|vegan|mushroom oyster|scallop squash|scallopini/],
  ['soybeans', /\bsoya?(bean)?\b|tofu|tempeh|\bmiso\b|edamame|natto\b|okara|tamari\b|shoyu|teriyaki|soya beans/,
    /soy(a|bean) oil|annatto/], // refined soya oil is exempt, Regulation (EU) 1169/2011 Annex II
  ['peanuts', /peanut|groundnut|satay/, /^$/],
  ['nuts', /almond|cashew|walnut|pecan|hazelnut|macadamia|brazil nut|pistachio|marzipan|praline|amaretto/, /water|^$/],
  ['sesame', /sesame|tahini|gomasio|dukkah|hummus|furikake/, /^$/],
  ['mustard', /mustard|piccalilli|pickle relish|(sweet|bread and butter) pickle/, /mustard spinach/], // a kind of turnip
  ['celery', /celery|celeriac/, /celery cabbage|stewed tomatoes with/], // a kind of cabbage
  ['sulphites', /\bwine\b|dried (apricot|peach|pear|apple)/, /wine biscuit|vinegar|rice wine|shao ?hsing|shaoxing|cooking wine/],
  ['lupin', /lupin/, /^$/],
];
const told = (text, [, words, not]) => words.test(text) && !not.test(text);
for (const one of tells)
  rule(`names that tell ${one[0]}`, 3, (f) => f.called.some((name) => told(name, one)),
    (f) => !f.carried.includes(one[0]) && !f.perhaps.includes(one[0]) && f.called.find((name) => told(name, one)));

// meat, and what else an animal gives: foods that no vegan or vegetarian eats
rule('names that tell meat', 60, (f) => f.called.some((one) => /\b(chicken|beef|pork|lamb|turkey|bacon|ham|veal|venison|duck|goose|lard|suet|gelatine?|chorizo|salami|sausage|liver)\b/.test(one)
  && !/vegan|soya|vegetarian|vegetable|meatless|meat-free|plant|veggie|\beggs?\b|chicken of the woods|mushroom|lamb'?s|seasoning|duck sauce|style|agar|beefsteak|tomato/.test(one)),
  (f) => !['vegan', 'vegetarian'].every((diet) => f.broken.includes(diet) || f.asked.includes(diet)) && 'keeps vegan or vegetarian');
rule('names that tell honey', 2, (f) => f.called.some((one) => /\bhoney\b/.test(one) && !/honeydew|vegan|bee-free|alternative|style|honey (mushroom|pomelo)|comb cereal/.test(one)),
  (f) => !f.broken.includes('vegan') && !f.asked.includes('vegan') && f.called.find((one) => /honey/.test(one)));

// what an allergen says of diets
const diets = { milk: ['vegan', 'dairy-free'], eggs: ['vegan'], fish: ['vegan', 'vegetarian'], crustaceans: ['vegan', 'vegetarian'],
  molluscs: ['vegan', 'vegetarian'], gluten: ['gluten-free'] };
for (const [allergen, breaks] of Object.entries(diets))
  rule(`${allergen} decides ${breaks.join(' and ')}`, 12, (f) => !onPackets(f) && (f.carried.includes(allergen) || f.perhaps.includes(allergen)),
    (f) => breaks.find((diet) => !f.broken.includes(diet) && !f.asked.includes(diet)));
rule('what is gluten-free by its label alone names gluten', 100, (f) => !onPackets(f) && f.asked.includes('gluten-free'),
  (f) => !f.carried.includes('gluten') && !f.perhaps.includes('gluten') && 'no gluten is named');
for (const cereal of ['wheat', 'rye', 'barley', 'oats'])
  rule(`${cereal} is told with gluten`, 5, (f) => f.carried.includes(cereal) || f.perhaps.includes(cereal),
    (f) => (f.carried.includes(cereal) ? !f.carried.includes('gluten') : !f.carried.includes('gluten') && !f.perhaps.includes('gluten')) && 'without gluten');
rule('where gluten is, its cereal is named', 150, (f) => f.carried.includes('gluten'),
  (f) => !['wheat', 'rye', 'barley', 'oats'].some((one) => f.carried.includes(one)) && 'of which cereal?');
rule('an allergen is there or may be, a diet is broken or asked of the label', 1500, () => true,
  (f) => f.perhaps.find((one) => f.carried.includes(one)) ?? f.asked.find((one) => f.broken.includes(one)));

// the ground: a usual recipe, and what is in some of the kind
const called = { soya: 'soybeans', 'sesame seeds': 'sesame', 'cereals with gluten': 'gluten' };
const cereals = ['wheat', 'rye', 'barley', 'oats'];
const listed = (text) => (text ?? '').split(', ').filter(Boolean).map((one) => called[one] ?? one).sort().join();
// where a cereal is named, gluten is not said again
const named = (row) => row.filter((one) => one !== 'gluten' || !cereals.some((cereal) => row.includes(cereal))).sort().join();
rule('what the ground says of some, and of few, is what the row says', 150, (f) => !onPackets(f) && (f.perhaps.length > 0 || /; in (some|few)/.test(f.ground)), (f) => {
  const [, some] = /; in some: ([^;]*)/.exec(f.ground) ?? [], [, few] = /; in few, or near it: ([^;]*)/.exec(f.ground) ?? [];
  if (/milled beside wheat/.test(f.ground)) return !f.perhaps.includes('gluten') && 'no gluten';
  return (listed(some) !== named(f.some) || listed(few) !== named(f.few)) && `some: ${some}, few: ${few}`;
});
const recipeTells = [...tells.filter(([allergen]) => !['gluten', 'sulphites'].includes(allergen)),
  ['milk', /butter(?!s)|buttermilk|cream\b|milk (protein|powder)/, /cocoa butter|coconut|vegetable|butter or oil|palm/]];
rule('a usual recipe holds no allergen that its row does not', 300, (f) => f.ground.startsWith('a usual recipe'), (f) => {
  const recipe = f.ground.slice(16).replace(/; in (some|few, or near it): .*$/, '').split(/, |; | of | and | or /);
  const found = recipeTells.find((one) => recipe.some((part) => told(part, one) && !/gluten|without/.test(part)) && !f.carried.includes(one[0]) && !f.perhaps.includes(one[0]));
  return found && `${found[0]}: ${f.ground}`;
});
const alike = { nuts: /\bnuts?\b|almond|hazelnut|pecan/, gluten: /./, sulphites: /sulph|wine|dried/, soybeans: /soy|tofu|lecithin/, fish: /fish|surimi|dashi|tuna|anchov/,
  eggs: /egg|yolk|mayonnaise/, milk: /milk|cheese|dairy|yog|cream|whey|butter/, peanuts: /peanut/, sesame: /sesame|tahini/, wheat: /wheat|flour|bread/,
  molluscs: /mollusc|oyster/, crustaceans: /crustacean|scampi/, celery: /celer/, mustard: /mustard/, lupin: /lupin/, rye: /rye/, barley: /barley|malt/, oats: /oat/ };
rule('what a row says is there, a name or its ground tells', 500, (f) => f.carried.length > 0, (f) =>
  f.carried.find((one) => ![...f.called, f.ground].some((text) => alike[one].test(text))));
console.log(`# walked ${walked}: ok ${good}, not ok ${walked - good}`);
end();
