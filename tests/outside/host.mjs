// Fragments in pages of other hands: two in one page, under a theme that dresses every plain element.
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { ok, end } from './lib/tap.mjs';
import { press, root } from './lib/site.mjs';

const { out } = press('content', 'host', '--anew');
const fragments = ['roast-carrot-soup', 'picnic-basket'].map((slug) => readFileSync(join(out, 'fragments', `${slug}.html`), 'utf8'));
const theme = readFileSync(join(root, 'tests/outside/theme.css'), 'utf8');
const page = (before, after) => `<!DOCTYPE html><html lang="en"><head><meta charset="utf-8"><title>Two dishes</title><style>body { margin: 20px; font: 16px serif; }</style><style>${before}</style>
<link rel="stylesheet" href="dariole.css"><style>${after}</style></head><body><h1>Two dishes</h1><div id="one">${fragments.join('\n')}</div></body></html>`;
const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu', '--disable-quic',
  '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });

// what of each element a reader would see
const look = async (name, html, width) => {
  writeFileSync(join(out, `${name}.html`), html);
  const tab = await browser.newPage({ viewport: { width, height: 800 } });
  await tab.goto(pathToFileURL(join(out, `${name}.html`)).href);
  const seen = await tab.evaluate(() => {
    document.querySelectorAll('details').forEach((d) => { d.open = true; });
    const what = ['display', 'position', 'float', 'color', 'backgroundColor', 'fontSize', 'fontWeight', 'fontStyle', 'fontFamily', 'lineHeight',
      'textTransform', 'textAlign', 'textIndent', 'letterSpacing', 'listStyleType', 'listStylePosition', 'borderTopWidth', 'borderLeftWidth', 'borderRadius', 'boxShadow'];
    return [...document.querySelectorAll('#one *')].map((e) => {
      const style = getComputedStyle(e), box = e.getBoundingClientRect();
      return { who: `${e.tagName.toLowerCase()}.${e.getAttribute('class') ?? ''} in ${e.parentElement.getAttribute('class') ?? e.parentElement.tagName}`,
        is: Object.fromEntries([...what.map((w) => [w, style[w]]), ['width', Math.round(box.width)], ['height', Math.round(box.height)],
          ['before', getComputedStyle(e, '::before').content], ['marker', e.tagName === 'LI' ? getComputedStyle(e, '::marker').color : '']]) };
    });
  });
  const ids = await tab.evaluate(() => [...document.querySelectorAll('[id]')].map((e) => e.id));
  const names = await tab.evaluate(() => [...new Set([...document.querySelectorAll('[type=radio]')].map((e) => `${e.name} ${e.closest('article').id}`))]);
  const kept = await tab.evaluate(() => [...document.querySelectorAll('.dl-pick:checked')].length);
  await tab.close();
  return { seen, ids, names, kept };
};
for (const width of [390, 1200]) {
  const bare = await look('bare', page('', ''), width);
  ok(new Set(bare.ids).size === bare.ids.length && bare.ids.length > 10, `${width} px: two fragments on a page have no id twice`);
  ok(bare.names.length === bare.kept && new Set(bare.names.map((n) => n.split(' ')[0])).size === bare.kept, `${width} px: each switch of regions is its own`, bare.names);
  for (const [when, html] of [['before', page(theme, '')], ['behind', page('', theme)]]) {
    const dressed = await look(`theme-${when}`, html, width);
    const leaks = bare.seen.flatMap(({ who, is }, i) => Object.keys(is).filter((k) => String(is[k]) !== String(dressed.seen[i].is[k]))
      .map((k) => `${who}: ${k} ${is[k]} -> ${dressed.seen[i].is[k]}`));
    const each = [...new Set(leaks)];
    ok(each.length === 0, `${width} px: a theme ${when} the stylesheet dresses nothing of a fragment`, each.slice(0, 40).join('\n'));
  }
}
await browser.close();
end();
