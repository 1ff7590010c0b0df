// The feeds against an independent parser, xmllint, and what RFC 4287, RFC 4151 and JSON Feed 1.1 ask.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseAtomFeed, parseJsonFeed } from 'feedsmith';
import { ok, end } from './lib/tap.mjs';
import { json, press } from './lib/site.mjs';

const { out } = press('content', 'demo');
const tag = /^tag:[a-z0-9.-]+(@[a-z0-9.-]+)?,\d{4}(-\d{2}(-\d{2})?)?:\S+$/; // RFC 4151, 2.1
const stamp = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})$/; // RFC 3339

for (const name of ['feed.xml', 'sitemap.xml']) {
  const lint = spawnSync('xmllint', ['--noout', '--nonet', join(out, name)], { encoding: 'utf8' });
  ok(lint.status === 0, `${name} is well formed`, lint.stderr);
}

const atomText = readFileSync(join(out, 'feed.xml'), 'utf8');
const atom = parseAtomFeed(atomText);
ok(tag.test(atom.id) && stamp.test(atom.updated) && atom.title?.value !== '' , 'the Atom feed has id, title, updated', atom);
ok(atom.entries.length >= 12, 'entries in the Atom feed', atom.entries.length);
ok(new Set(atom.entries.map((e) => e.id)).size === atom.entries.length, 'Atom ids differ');
for (const e of atom.entries) {
  ok(tag.test(e.id) && stamp.test(e.updated) && e.title && (e.authors?.length > 0 || atom.authors?.length > 0)
    && (e.content || e.links?.length > 0), `Atom entry ${e.id}`, e);
}
ok(atom.entries.every((e) => e.updated <= atom.updated), 'the feed is as new as its newest entry');

const feed = json(join(out, 'feed.json'));
ok(feed.version === 'https://jsonfeed.org/version/1.1', 'JSON Feed names its version', feed.version);
const parsed = parseJsonFeed(JSON.stringify(feed));
ok(parsed.items.length === atom.entries.length, 'both feeds hold the same posts');
for (const item of parsed.items) {
  ok(typeof item.id === 'string' && item.id !== '' && (item.content_html || item.content_text), `JSON Feed item ${item.id}`, item);
}
ok(feed.items.every((i) => stamp.test(i.date_published ?? i.date_modified ?? '')), 'JSON Feed dates are RFC 3339');
end();
