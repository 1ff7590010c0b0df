// The larder against itself: what a food's kind says of its contents, weights and sums (of its allergens:
// allergens.mjs). Each exemption says why the rule does not hold.
import { ok, end } from './lib/tap.mjs';
import { names, spread, table } from './lib/tables.mjs';

const groups = ['lactose', 'excess-fructose', 'fructan', 'galacto-oligosaccharide', 'sorbitol', 'mannitol'];
const larder = names().filter((one) => one.startsWith('foods/')).flatMap((page) => {
  const { foods, 'all-of-these': shared } = table(page);
  return Object.entries(foods).map(([id, food]) => {
    const own = food['per-100-g'] ?? {}, lent = shared?.['per-100-g'] ?? {};
    return { ...food, id, page, own, lent, contents: own.all ? own : { ...lent, ...own },
      carried: new Set(food.allergens),
      called: [food.name, ...Object.values(food.names ?? {}).flat()].map((one) => String(one).toLowerCase()) };
  });
});
const most = (food, group) => {
  const figure = food.contents[group] ?? food.contents.all;
  return figure && spread(figure).high;
};
const middle = (food, group) => {
  const figure = food.contents[group] ?? food.contents.all;
  return figure && spread(figure).mid;
};

// tells each food that breaks a rule; a rule that meets fewer foods than expected tests nothing
function rule(what, fewest, meets, breaks) {
  const met = larder.filter(meets);
  const faults = met.map((food) => [food.id, breaks(food)]).filter(([, fault]) => fault);
  ok(met.length >= fewest && faults.length === 0, `${what} (${met.length} foods)`,
    faults.map(([id, fault]) => `${id}: ${fault === true ? '' : fault}`).join('\n'));
}

// contents that plain kinds of food hold: a nought there would make a portion look safe
rule('milk never borrows a nought of lactose from foods of its page', 80, (f) => f.carried.has('milk'),
  (f) => !f.own.all && !f.own.lactose && f.lent.lactose !== undefined);
// of what is made of several nothing is lent: not all of its parts are of the page's kind
rule('what is made of several borrows nothing from foods of its page', 200, (f) => !f.own.all && (f['usual-recipe'] || /^a usual recipe/.test(f.grounds?.source)),
  (f) => Object.keys(f.lent).find((group) => f.own[group] === undefined));
// what nobody knows of a food is bounded by the most of its class: of milk, next to no other sugar
rule('dairy is milk and what is made of it alone', 60, (f) => f.class === 'dairy', (f) => !f.page.endsWith('dairy.yaml'));
const kinds = [
  ['pulses', 'galacto-oligosaccharide', (f) => f.class === 'legume', []],
  ['wheat', 'fructan', (f) => f.carried.has('wheat'), ['wheaten-cornflour']], // washed starch
  ['onions and their kin', 'fructan', (f) => /\b(onion|garlic|leek|shallot|artichoke|inulin|yacon)\b/.test(f.name),
    ['onion-free-stock', 'onion-free-vegetable-stock', 'onion-free-meat-stock', 'onion-free-stock-cube',
      'gluten-free-sausage', // made without onion
      'garlic-infused-oil', // fructan does not pass into oil
      'spring-onion-green', 'leek-green']], // their leaves, told apart on purpose
  ['mushrooms', 'mannitol', (f) => /\b(button|chestnut|portobello|shiitake|champignon)/.test(f.name),
    ['chestnut', 'chestnut-flour', 'water-chestnut', 'water-chestnut-fresh']],
  ['apples, pears and stone fruit', 'sorbitol',
    (f) => /\b(apples?|pears?|plums?|prunes?|peach(es)?|nectarine|apricots?|cherr(y|ies)|quince|rowan)\b/.test(f.name)
      && f.class === 'fruit', ['pineapple', 'prickly-pear', 'java-plum', 'custard-apple']], // of other families
];
for (const [kind, group, is, exempt] of kinds)
  rule(`${kind} are never said to hold no ${group}`, 4, (f) => is(f) && !exempt.includes(f.id) && most(f, group) !== undefined,
    (f) => most(f, group) < 0.05 && `${group} up to ${most(f, group)}`);

// no group weighs more than the carbohydrate that the release gives, nor more sugar than sugars
rule('each group is a part of the carbohydrate', 700, (f) => f.nutrients?.carbohydrate !== undefined,
  (f) => groups.find((group) => middle(f, group) > f.nutrients.carbohydrate * 1.03 + 0.05)); // tables differ by a little
rule('fructose in excess is a part of the sugars', 250,
  (f) => f.nutrients?.sugars !== undefined && middle(f, 'excess-fructose') !== undefined,
  (f) => middle(f, 'excess-fructose') > f.nutrients.sugars + 0.1
    && `${middle(f, 'excess-fructose')} of ${f.nutrients.sugars} g`);

rule('milk sugar is a part of the sugars', 200,
  (f) => f.nutrients?.sugars !== undefined && middle(f, 'lactose') !== undefined,
  (f) => middle(f, 'lactose') > f.nutrients.sugars * 1.03 + 0.05 && `${middle(f, 'lactose')} of ${f.nutrients.sugars} g`);

// what the rows of nutrients say of one another
const given = (f, ...keys) => f.nutrients && keys.every((key) => f.nutrients[key] !== undefined);
rule('sugars are a part of the carbohydrate', 700, (f) => given(f, 'sugars', 'carbohydrate'),
  (f) => f.nutrients.sugars > f.nutrients.carbohydrate * 1.03 + 0.3 && `${f.nutrients.sugars} of ${f.nutrients.carbohydrate} g`);
rule('fibre is a part of the carbohydrate, which is by difference', 900, (f) => given(f, 'fibre', 'carbohydrate') && /^sr28/.test(f.nutrients.source),
  (f) => f.nutrients.fibre > f.nutrients.carbohydrate * 1.03 + 0.3 && `${f.nutrients.fibre} of ${f.nutrients.carbohydrate} g`);
rule('saturated fat is a part of the fat', 800, (f) => given(f, 'saturated-fat', 'fat'),
  (f) => f.nutrients['saturated-fat'] > f.nutrients.fat * 1.03 + 0.1 && `${f.nutrients['saturated-fat']} of ${f.nutrients.fat} g`);
rule('protein, fat and carbohydrate are no more than the whole', 900, (f) => given(f, 'protein', 'fat', 'carbohydrate'),
  (f) => f.nutrients.protein + f.nutrients.fat + f.nutrients.carbohydrate > 101 && 'more than 100 g');
rule('all short-chain carbohydrates together are a part of the carbohydrate and fibre', 900, (f) => given(f, 'carbohydrate'),
  (f) => groups.reduce((sum, group) => sum + (middle(f, group) ?? 0), 0) > (f.nutrients.carbohydrate + (/^sr28/.test(f.nutrients.source) ? 0 : f.nutrients.fibre ?? 0)) * 1.05 + 0.3);
// energy by the general factors of Atwater, 4, 9 and 4 kcal a gram; fibre counts from none to all
const thin = /wine|beer|cider|spirits|liqueur|sake|mirin|vinegar|verjuice|extract|sorbitol|mannitol|maltitol|isomalt|xylitol|erythritol|gum|stevia|kombucha|citric|tartar|baking-powder|coffee|cocoa|cacao|bran|psyllium|agar|taco-seasoning/; // alcohol, acids, sugar alcohols, fibre; one that the release prints so (02075)
rule('energy is that of protein, fat and carbohydrate', 900, (f) => given(f, 'energy-kcal', 'protein', 'fat', 'carbohydrate') && !thin.test(f.id), (f) => {
  const { protein, fat, carbohydrate, fibre = 0 } = f.nutrients, most = 4.3 * protein + 9.1 * fat + 4.2 * carbohydrate;
  const least = 2.4 * protein + 8.3 * fat + 3.4 * Math.max(0, carbohydrate - fibre);
  return (f.nutrients['energy-kcal'] > most * 1.08 + 8 || f.nutrients['energy-kcal'] < least * 0.92 - 8) && `${f.nutrients['energy-kcal']} kcal, ${least.toFixed(0)} to ${most.toFixed(0)}`;
});

// how dense things of a kind can be, g/mL
const densest = [
  ['oils', 15, (f) => f.page.endsWith('fats.yaml') && / oil$/.test(f.name), 0.86, 0.98],
  ['syrups', 10, (f) => /(syrup|honey|treacle|molasses|nectar)$/.test(f.name) && f.page.endsWith('sugars.yaml'), 1.2, 1.5],
  ['flours', 30, (f) => /\bflour$/.test(f.name), 0.2, 0.8],
  ['milks and drinks', 15, (f) => /\b(milk|drink|juice|vinegar|stock)$/.test(f.name) && !/condensed| in juice/.test(f.name), 0.95, 1.12],
  ['grated cheese', 10, (f) => f.class === 'dairy' && f.forms?.grated, 0.15, 0.6, ['grated']],
  ['salad leaves', 8, (f) => /\b(spinach|rocket|leaves|cress|greens)$/.test(f.name) && f.fresh, 0.03, 0.35, ['leaves', 'whole']],
  ['all but sugar, salt and syrup', 900, (f) => !/sugars|baking|condiments|prepared/.test(f.page), 0.01, 1.35],
];
for (const [kind, fewest, is, low, high, forms] of densest)
  rule(`${kind} weigh ${low} to ${high} g/mL`, fewest, is, (f) => Object.entries(f.forms ?? {})
    .filter(([form, one]) => one?.density && (!forms || forms.includes(form)))
    .map(([form, one]) => (one.density.mid < low || one.density.mid > high) && `${form} ${one.density.mid}`).find(Boolean));
rule('one of no said size is about a medium one', 60, (f) => Object.values(f.forms ?? {}).some((one) => one?.pieces?.medium && one.pieces.each),
  (f) => Object.values(f.forms).map((one) => one?.pieces).find((p) => p?.medium && p.each
    && (p.each.high < p.medium.mid || p.each.low > p.medium.mid)) && 'each and medium do not meet');

// one name, one food: what a writer writes must not hang on the order of the pages
for (const region of ['any', 'us', 'uk', 'au', 'nz', 'ca']) {
  const owners = new Map();
  for (const food of larder)
    for (const name of new Set([...region === 'any' ? [food.name] : [], ...food.names?.[region] ?? []].map((one) => String(one).toLowerCase())))
      owners.set(name, [...owners.get(name) ?? [], food.id]);
  const twice = [...owners].filter(([, ids]) => ids.length > 1);
  ok(owners.size > (region === 'any' ? 3000 : 20) && twice.length === 0,
    `${owners.size} names (${region}) belong to one food each`, twice.map(([name, ids]) => `${name}: ${ids.join(', ')}`).join('\n'));
}
end();
