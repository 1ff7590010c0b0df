// The README's examples: every command in its console blocks is run, in order, in one empty folder, and
// must print what the README shows. UPDATE=1 writes what it prints into the README: read it.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { dariole, root } from './lib/site.mjs';

const path = join(root, 'README.md');
const text = readFileSync(path, 'utf8');
const folder = mkdtempSync(join(tmpdir(), 'readme-'));
symlinkSync(dariole, join(folder, 'dariole'));
const env = { ...process.env, PATH: `${folder}:${process.env.PATH}`, NO_COLOR: '1', DARIOLE_TABLES: join(root, 'content', 'tables'), LC_ALL: 'C.UTF-8' };

const renewed = text.replace(/```console\n([^]*?)```/g, (block, inside) => {
  const parts = inside.split(/^(?=\$ )/m);
  const fresh = parts.map((part) => {
    const [first, ...shown] = part.split('\n');
    const result = spawnSync('bash', ['-c', `${first.slice(2)} 2>&1`], { cwd: folder, env, encoding: 'utf8' });
    const got = result.stdout.trimEnd();
    ok(got === shown.join('\n').trimEnd() || process.env.UPDATE, `README: ${first}`, got);
    return `${first}\n${got}${got === '' ? '' : '\n'}`;
  });
  return `\`\`\`console\n${fresh.join('')}\`\`\``;
});
ok(/make demo/.test(text) && /make check/.test(text), 'README names the two commands');
if (process.env.UPDATE) writeFileSync(path, renewed);
end();
