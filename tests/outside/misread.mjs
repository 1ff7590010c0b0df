// Lines that were once read as another food than their writer's (misread.tsv), and those of later
// rounds (rounds.tsv): all foods of a line, its alternatives too.
import { ok, end } from './lib/tap.mjs';
import { readRows, scoreRows } from './lib/lines.mjs';

const rows = [...readRows('misread.tsv'), ...readRows('rounds.tsv')];
const { wrong } = scoreRows(rows);
ok(rows.length >= 600, `${rows.length} lines`);
ok(wrong.length === 0, `all but ${wrong.length} are understood`, wrong.join('\n'));
end();
