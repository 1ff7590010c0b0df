// Lines of five countries and messy ones, whose foods and bounds were written before the program
// first read them, in two rounds: all foods of a line, its alternatives too, and no other food.
import { ok, end } from './lib/tap.mjs';
import { readRows, scoreRows } from './lib/lines.mjs';

const rows = [...readRows('unseen.tsv'), ...readRows('unseen-2.tsv')];
const { wrong, silent } = scoreRows(rows);
for (const one of wrong) console.log(`# ${one}`);
ok(rows.length >= 250, `${rows.length} lines`);
ok(rows.length - wrong.length >= 0.96 * rows.length, `${rows.length - wrong.length} of ${rows.length} are understood`);
ok(silent.length === 0, `${silent.length} are another food`, silent.join('\n'));
end();
