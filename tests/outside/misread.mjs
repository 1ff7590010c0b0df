// Lines that were once read as another food than their writer's (misread.tsv): all foods of a line,
// its alternatives too.
import { ok, end } from './lib/tap.mjs';
import { readRows, scoreRows } from './lib/lines.mjs';

const rows = readRows('misread.tsv');
const { wrong } = scoreRows(rows);
ok(rows.length >= 70, `${rows.length} lines`);
ok(wrong.length === 0, `all but ${wrong.length} are understood`, wrong.join('\n'));
end();
