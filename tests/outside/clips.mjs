// A video's chapters by an independent WebVTT parser, against the Clips of the structured data and the
// lines to paste.
import { mkdirSync, mkdtempSync, readFileSync, existsSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ok, end } from './lib/tap.mjs';
import { json, press } from './lib/site.mjs';

const { WebVTTParser } = createRequire(import.meta.url)('webvtt-parser');
const content = mkdtempSync(join(tmpdir(), 'clips-'));
mkdirSync(join(content, 'posts'));
const post = (name, video) => writeFileSync(join(content, 'posts', `${name}.md`), `---
title: Rice on film
serves: 2
ingredients: [100 g rice]
video: ${video}
---
## Method
1. Boil the rice for 12 minutes.
2. Drain it.
`);
const names = ['Start & <b>go</b>', 'Rice --> water', 'Ende: “größer”'];
post('film', `{url: "https://v.example/watch?v=1", length: 1:02:03, clips: [{at: 0:00, name: "${names[0]}"}, {at: 0:42, name: "${names[1]}", step: 2}, {at: 61:00, name: "${names[2]}"}]}`);
post('endless', '{url: "https://v.example/a.mp4", clips: [{at: 5 s, name: Rice}, {at: 0:42, name: Water}]}');
post('silent', '{url: "https://v.example/a.mp4"}');
const { out } = press(content, 'clips');

const { cues, errors } = new WebVTTParser({ '&amp;': '&', '&lt;': '<', '&gt;': '>' }).parse(readFileSync(join(out, 'clips', 'film.vtt'), 'utf8'), 'chapters');
ok(errors.length === 0, 'the chapters are WebVTT', errors);
const text = (node) => node.type === 'text' ? node.value : (node.children ?? []).map(text).join('');
ok(JSON.stringify(cues.map((c) => text(c.tree))) === JSON.stringify(names), 'each clip has its name', cues.map((c) => text(c.tree)));
const data = json(join(out, 'data', 'film.json'));
const parts = data.video.hasPart;
ok(cues.length === parts.length && cues.every((c, i) => c.startTime === parts[i].startOffset && c.endTime === parts[i].endOffset),
  'chapters and Clips have the same times', parts);
ok(cues.every((c, i) => i === 0 || c.startTime === cues[i - 1].endTime), 'each chapter begins where the one before ends');
ok(cues.at(-1).endTime === 3723 && data.video.duration === 'PT1H2M3S', 'the last ends with the video');
ok(data.recipeInstructions[1].video.startOffset === 42 && data.recipeInstructions[0].video === undefined, 'the step has its Clip');
ok(parts.every((p) => new URL(p.url).searchParams.get('t') === String(p.startOffset)), 'a Clip has the address of its moment');
ok(readFileSync(join(out, 'clips', 'film.txt'), 'utf8') === names.map((n, i) => `${['0:00:00', '0:00:42', '1:01:00'][i]} ${n}\n`).join(''), 'lines to paste below the video');
ok(!existsSync(join(out, 'clips', 'endless.vtt')), 'no chapters where the last has no end');
ok(readFileSync(join(out, 'clips', 'endless.txt'), 'utf8') === '0:05 Rice\n0:42 Water\n', 'but lines');
ok(!existsSync(join(out, 'clips', 'silent.txt')), 'no lines where there are no clips');
end();
