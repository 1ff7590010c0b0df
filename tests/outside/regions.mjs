// One post as three regions read it: the words of foods in list and method, sticks, tins.
import { mkdirSync, mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { press } from './lib/site.mjs';

const content = mkdtempSync(join(tmpdir(), 'regions-'));
mkdirSync(join(content, 'posts'));
writeFileSync(join(content, 'site.yaml'), 'title: Regions\nregions: [uk, us, au]\nregions-apart: yes\n');
const post = (name, measures, lines, steps) => writeFileSync(join(content, 'posts', `${name}.md`),
  `---\ntitle: The ${name}\nserves: 4\nmeasures: ${measures}\ningredients:\n${lines.map((l) => `  - ${l}\n`).join('')}---\n## Method\n${steps.map((s, i) => `${i + 1}. ${s}\n`).join('')}`);
post('bake', 'uk', ['2 tbsp cornflour', '100 g prawns', '1 small bunch coriander, chopped', '1 courgette', '1 tsp bicarbonate of soda', '30 g icing sugar', '2 red peppers'],
  ['Grease a 20 cm tin and a 20 x 30 cm tray; the scales stand 2 cm from the wall.', 'Whisk the cornflour and the bicarbonate of soda with water, and sift the icing sugar.',
    'Fry the prawns, the courgette and the red peppers for 5 minutes.', 'Scatter the coriander over it.', 'Line a 23 cm (9-inch) tin.']);
post('sticks', 'us', ['2 sticks butter', '2 tbsp cornstarch', '1 small bunch cilantro'], ['Melt the butter in an 8-inch pan.', 'Stir in the cornstarch and the cilantro.']);
post('spice', 'uk', ['1 tsp black pepper', '1 red pepper', '1 tsp ground coriander', '1 small bunch coriander'], ['Season with pepper, and fry the red pepper.', 'Toast the ground coriander.']);
const { out } = press(content, 'regions', '--anew');
const read = (name, region, part) => {
  const html = readFileSync(join(out, 'fragments', `${name}.${region}.html`), 'utf8');
  const from = html.indexOf(`class="dl-${part}"`);
  return html.slice(from, html.indexOf('</section>', from)).replace(/<[^>]+>/g, '').replace(/[\u00a0\u202f]/g, ' ').replace(/\s+/g, ' ');
};
const says = (name, region, part, words, not = []) => {
  const text = read(name, region, part);
  const lacks = words.filter((w) => !text.includes(w)), has = not.filter((w) => text.includes(w));
  ok(lacks.length + has.length === 0, `${name}, ${region}, ${part}: ${[...words, ...not.map((w) => `no ${w}`)].join('; ')}`, [...lacks, ...has, text].join('\n'));
};
says('bake', 'uk', 'method', ['a 20 cm (8-inch) tin', 'a 20 x 30 cm (8 x 12-inch) tray', '2 cm from', 'the cornflour and the bicarbonate of soda', 'the prawns, the courgette and the red peppers', 'a 23 cm (9-inch) tin']);
says('bake', 'us', 'method', ['an 8-inch (20 cm) tin', 'an 8 x 12-inch (20 x 30 cm) tray', 'the cornstarch (cornflour) and the baking soda', 'the powdered sugar', 'the shrimp, the zucchini and the red bell peppers', 'the cilantro', 'a 23 cm (9-inch) tin'], ['soda of soda']);
says('bake', 'au', 'method', ['a 20 cm (8-inch) tin', 'the cornflour', 'the zucchini and the red capsicums', 'the coriander']);
says('bake', 'us', 'ingredients', ['cornstarch', 'shrimp', 'cilantro', 'red bell peppers']);
says('sticks', 'uk', 'ingredients', ['about 225 g butter', 'coriander'], ['stick']);
says('sticks', 'us', 'ingredients', ['2 sticks (about 225 g) butter']);
says('sticks', 'au', 'method', ['a 20 cm (8-inch) pan', 'coriander']);
says('spice', 'au', 'method', ['Season with pepper', 'ground coriander'], ['with capsicum']);
says('spice', 'us', 'method', ['Season with pepper', 'ground coriander'], ['with bell', 'ground cilantro']);
end();
