// Walks every figure of every table: each has a source and a basis. Shows how many of each basis.
import { ok, end } from './lib/tap.mjs';
import { figures, names, table } from './lib/tables.mjs';

const bases = ['measured', 'published', 'calculated', 'practice', 'memory'];
const count = Object.fromEntries(bases.map((basis) => [basis, 0]));
let all = 0;
for (const name of names()) {
  if (name === 'sources.yaml' || name === 'site.yaml' || name === 'swaps.yaml') continue;
  const bare = [];
  let figureCount = 0;
  for (const [path, figure] of figures(table(name))) {
    figureCount += 1;
    const lent = /\/(celsius|seconds|with-grams)$/.test(path); // bounds of a caution's trigger, whose row has the source
    if (lent) continue;
    if (typeof figure.source !== 'string' || figure.source.trim() === '' || !bases.includes(figure.basis))
      bare.push(path);
    else
      count[figure.basis] += 1;
    if (figure.low > figure.mid || figure.mid > figure.high) bare.push(`${path} is out of order`);
  }
  all += figureCount;
  ok(bare.length === 0, `${name}: ${figureCount} figures have source and basis`, bare.join('\n'));
}
ok(all > 3000, `${all} figures were walked`);
for (const basis of bases)
  console.log(`# ${basis}: ${count[basis]} (${((100 * count[basis]) / all).toFixed(1)} %)`);
end();
