// Every page and fragment against the Nu Html Checker, the stylesheet too.
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync, mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { files, press, root, run } from './lib/site.mjs';

const jar = join(root, 'tests/node_modules/vnu-jar/build/dist/vnu.jar');

function check(name, paths, ...options) {
  const result = spawnSync('java', ['-jar', jar, '--format', 'json', '--stdout', ...options, ...paths],
    { encoding: 'utf8', maxBuffer: 1 << 28 });
  const messages = JSON.parse(result.stdout).messages.filter((m) => m.type !== 'info' || m.subType === 'warning');
  const seen = new Map(paths.map((path) => [basename(path), []]));
  for (const m of messages) {
    const file = m.url ? basename(new URL(m.url).pathname) : basename(paths[0]);
    seen.get(file)?.push(`${m.lastLine}:${m.lastColumn} ${m.message} … ${m.extract ?? ''}`);
  }
  for (const [file, found] of seen) ok(found.length === 0, `${name}: ${file}`, found.join('\n'));
}

for (const [content, name] of [['content', 'demo'], ['tests/posts', 'posts']]) {
  const { out } = press(content, name);
  check(`${name} page`, files(join(out, 'preview'), '.html'));
  // two fragments in one page, so that names that clash are seen
  const shell = join(out, '..', `${name}-shells`);
  mkdirSync(shell, { recursive: true });
  const fragments = files(join(out, 'fragments'), '.html');
  const pages = fragments.map((path, i) => {
    const other = fragments[(i + 1) % fragments.length];
    const page = join(shell, basename(path));
    const both = [...new Set([path, other])].map((p) => readFileSync(p, 'utf8')).join('\n');
    writeFileSync(page, `<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>Two posts</title></head><body><main><h1>Two posts</h1>\n${both}</main></body></html>\n`);
    return page;
  });
  check(`${name} fragment`, pages);
  if (name === 'demo') check('stylesheets', [join(out, 'dariole.css'), join(out, 'preview/preview.css')], '--css');
}
// the page of a change of tables: valid, whole by itself, every post on it, what is over before what only moves
const shown = join(root, 'build/tests/impact.html');
run(['impact', '-C', 'content', '--try', 'sitting 0.3 g', '--html', shown]);
check('impact', [shown]);
const page = readFileSync(shown, 'utf8');
const told = JSON.parse(run(['impact', '-C', 'content', '--try', 'sitting 0.3 g', '--json']).stdout);
const moves = [...page.matchAll(/<b>Now<\/b>: ([^<]*)<[\s\S]*?<b>Then<\/b>: ([^<]*)</g)].map((m) => [m[1], m[2]]);
ok(moves.length === told.posts, 'impact: every post is on its page', [moves.length, told.posts]);
const firstStill = moves.findIndex(([now, then]) => now === then);
ok(firstStill > 0 && moves.slice(firstStill).every(([now, then]) => now === then), 'impact: what comes to stand otherwise comes first', moves);
ok(!/(?:src|href|url)\s*[=(]/.test(page) && !/<script/.test(page), 'impact: the page needs no other file');
end();
