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
writeFileSync(join(content, 'posts', 'jars.md'), `---
title: Two jars on film
dishes:
  White rice: {serves: 2, ingredients: [100 g rice]}
  Plain polenta: {serves: 2, ingredients: [80 g polenta]}
video: {url: "https://v.example/jars.mp4", uploaded: 2026-01-02, length: 3:00, clips: [{at: 0:00, name: Welcome}, {at: 0:30, name: Boiling, dish: White rice, step: 2}, {at: 1:30, name: Stirring, dish: plain-polenta, step: 1}, {at: 2:00, name: Late, dish: Nowhere}, {at: 3:00, name: Past the end, dish: White rice}]}
---
## White rice
1. Rinse the rice.
2. Boil it for 12 minutes.
## Plain polenta
1. Stir the polenta for 20 minutes.
`);
const { out, log } = press(content, 'clips');

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

// of a round-up, by dish
const jars = json(join(out, 'data', 'jars.json'));
const wanted = ['Welcome', 'White rice: Boiling', 'Plain polenta: Stirring', 'Late'];
ok(JSON.stringify(jars.subjectOf?.hasPart.map((p) => p.name)) === JSON.stringify(wanted), 'a round-up has its film with clips by dish', jars.subjectOf);
ok(readFileSync(join(out, 'clips', 'jars.txt'), 'utf8') === wanted.map((n, i) => `${['0:00', '0:30', '1:30', '2:00'][i]} ${n}\n`).join(''), 'and lines by dish');
const [rice, polenta] = jars.itemListElement.map((e) => e.item);
ok(rice.video.length === 1 && rice.video[0].startOffset === 30 && rice.video[0].endOffset === 90 && rice.recipeInstructions[1].video.startOffset === 30, 'a dish has the clips that show it, and its step', rice);
ok(polenta.video[0].startOffset === 90 && polenta.recipeInstructions[0].video.name === 'Plain polenta: Stirring', 'named by slug too', polenta);
ok(/jars\.md:6.*names a dish that is not among the dishes/.test(log) && /jars\.md:6.*begins at or past the end/.test(log), 'a dish that is not there and a clip past the end are told', log);
end();
