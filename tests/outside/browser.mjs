// Every page of the preview in headless Chromium: no console message, nothing wider than 320 px, axe-core
// finds nothing serious; screenshots under build/tests/screens for the eye.
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';
import { ok, end } from './lib/tap.mjs';
import { files, json, press, root, run } from './lib/site.mjs';

const axe = readFileSync(join(root, 'tests/node_modules/axe-core/axe.min.js'), 'utf8');
const screens = join(root, 'build', 'tests', 'screens');
mkdirSync(screens, { recursive: true });
const executablePath = ['/usr/bin/chromium', '/usr/bin/chromium-browser'].find(existsSync);
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu', '--disable-quic',
  '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });

// "vegan, under two hours, within, no nuts" and the like, by keyboard, against the catalogue
async function filterIndex(page, file) {
  const catalogue = json(join(root, 'build/tests/demo/catalogue.json'));
  const suited = catalogue.filter((p) => p.diets.includes('vegan') && p.seconds.total <= 7200
    && !p.allergens.includes('nuts') && !p.may_carry.includes('nuts'));
  const standing = ['within', 'close', 'unknown', 'over'].find((s) => suited.some((p) => p.phases.strict.standing === s));
  const wanted = suited.filter((p) => [p.phases.strict.standing, p.phases.strict['best-standing']].includes(standing)).map((p) => p.title);
  await page.locator('[name=standing]').selectOption(standing ?? '');
  await page.locator('[name=most]').selectOption('7200');
  for (const box of ['[name=diet][value=vegan]', '[name=without][value=nuts]']) {
    await page.locator(box).focus();
    await page.keyboard.press('Space');
  }
  const shown = await page.evaluate(() => [...document.querySelectorAll('.posts tbody tr')]
    .filter((row) => row.offsetParent !== null).map((row) => row.querySelector('th').textContent));
  ok(wanted.length > 0 && JSON.stringify(shown.sort()) === JSON.stringify(wanted.sort()), `${file}: the filter answers as the catalogue does`, { shown, wanted });
  await page.reload();
}

// a page of each kind: a choice, a caution and a note, nothing known, both round-ups, the list of all
const audited = ['roast-carrot-soup', 'rhubarb-ginger-jam', 'nettle-soup', 'four-suppers', 'picnic-basket', 'index'];
const modes = { light: { colorScheme: 'light' }, dark: { colorScheme: 'dark' }, forced: { forcedColors: 'active' }, large: {} };
// in each width and mode; `large`: text of twice the size, and nothing wider than the page
async function audit(page, widths, names) {
  const found = [];
  for (const width of widths)
    for (const mode of names) {
      await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none', ...modes[mode] });
      await page.setViewportSize({ width, height: 844 });
      await page.evaluate((size) => { document.documentElement.style.fontSize = size; }, mode === 'large' ? '200%' : '');
      const { violations } = await page.evaluate(() => globalThis.axe.run({ preload: false }));
      found.push(...violations.map((v) => `${width} px, ${mode}: ${v.id}: ${v.help}: ${v.nodes[0].html}`));
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (over > 0) found.push(`${width} px, ${mode}: ${over} px wider than the page`);
    }
  await page.evaluate(() => { document.documentElement.style.fontSize = ''; });
  return found;
}

for (const [content, name] of [['content', 'demo'], ['tests/posts', 'posts']]) {
  const { out } = press(content, name);
  for (const path of files(join(out, 'preview'), '.html')) {
    const page = await browser.newPage({ viewport: { width: 320, height: 640 } });
    const said = [];
    page.on('console', (m) => said.push([m.text(), m.location().url]));
    page.on('pageerror', (e) => said.push([String(e)]));
    page.on('dialog', (d) => { said.push([`dialog: ${d.message()}`]); d.dismiss(); });
    await page.goto(pathToFileURL(path).href);
    const file = `${name}/${basename(path)}`;
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    ok(width <= 320, `${file} fits 320 px`, `scrollWidth ${width}`);
    const small = await page.evaluate(() => [...document.querySelectorAll('a, summary, label')]
      .filter((e) => !e.closest('p, li, dd')).map((e) => [e.getBoundingClientRect().height, e.outerHTML])
      .filter(([height]) => height > 0 && height < 44));
    ok(small.length === 0, `${file}: what is touched is 44 px high`, small.join('\n'));
    // each region in turn: all that is its own is shown, nothing else
    const mixed = await page.evaluate(() => [...document.querySelectorAll('.dl-pick')].flatMap((pick) => {
      pick.click();
      const own = pick.className.replace('dl-pick dl-pick-', 'dl-in-');
      return [...pick.closest('.dl-recipe').querySelectorAll('.dl-in')]
        .filter((e) => (getComputedStyle(e).display !== 'none') !== e.classList.contains(own))
        .map((e) => `${pick.value}: ${e.outerHTML}`);
    }));
    ok(mixed.length === 0, `${file}: a region shows its own words alone`, mixed.slice(0, 5).join('\n'));
    if (name === 'demo' && await page.locator('.dl-recipe:not(.dl-round-up) .dl-list').count() > 0 && await page.locator('.dl-round-up').count() === 0) {
      // on a phone the verdict is on the first screen, and the list soon after
      await page.setViewportSize({ width: 390, height: 844 });
      const [verdict, list] = await page.evaluate(() => [document.querySelector('.dl-standing')?.getBoundingClientRect().bottom,
        document.querySelector('.dl-list')?.getBoundingClientRect().top]);
      ok(verdict <= 844, `${file}: the verdict is on a phone's first screen`, `${verdict} px`);
      ok(list <= 1250, `${file}: the ingredients begin within 1,250 px`, `${list} px`);
    }
    if (name === 'demo' && basename(path) === 'index.html') await filterIndex(page, file);
    await page.setViewportSize({ width: 1000, height: 800 });
    await page.evaluate(axe);
    const whole = name === 'demo' && audited.includes(basename(path, '.html'));
    const violations = await audit(page, whole ? [320, 768, 1200] : [1000], whole ? Object.keys(modes) : ['light']);
    ok(violations.length === 0, `${file}: axe-core finds nothing`, violations.join('\n'));
    await page.emulateMedia({ colorScheme: 'light', forcedColors: 'none' });
    await page.setViewportSize({ width: 1000, height: 800 });
    // pictures in the prose stay where the writer has them (finding image-left), and those with an address elsewhere
    const elsewhere = await page.evaluate(() => [...document.querySelectorAll('.dl-prose img, .dl-steps img, .dl-picture img[src^=http]')].map((i) => i.src));
    const loud = said.filter(([, url]) => !elsewhere.includes(url));
    ok(loud.length === 0, `${file} is silent on the console`, loud.join('\n'));
    if (name === 'demo') {
      await page.screenshot({ path: join(screens, `${basename(path, '.html')}-1000.png`), fullPage: true });
      const missing = await page.evaluate(async () => {
        const pictures = [...document.querySelectorAll('.dl-picture img')];
        for (const one of pictures) one.loading = 'eager';
        await Promise.all(pictures.map((one) => one.decode().catch(() => {})));
        return pictures.filter((one) => !(one.naturalWidth > 0)).map((one) => one.src);
      });
      ok(missing.length === 0, `${file} shows its picture`, missing.join('\n'));
      // verdict, ingredients and method of a dish on one sheet, with the margins that browsers take
      const dishes = await page.evaluate(() => document.querySelectorAll('article.dl-recipe:not(.dl-round-up), .dl-dishes > li').length);
      for (const format of dishes > 0 ? ['A4', 'Letter'] : []) {
        const paper = await page.pdf({ format, margin: { top: '15mm', bottom: '15mm', left: '15mm', right: '15mm' } });
        const sheets = [...paper.toString('latin1').matchAll(/\/Type\s*\/Page\b/g)].length;
        ok(sheets >= 1 && sheets <= dishes, `${file} prints on one sheet of ${format} a dish`, `${sheets} sheets`);
      }
      await page.emulateMedia({ media: 'print' });
      const printed = await page.evaluate(() => document.querySelector('article, main')?.getBoundingClientRect().height > 0);
      ok(printed, `${file} prints`);
    }
    await page.close();
  }
}
{
  const file = join(root, 'build/tests/impact-audit.html');
  run(['impact', '-C', 'content', '--try', 'sitting 0.3 g', '--html', file]);
  const page = await browser.newPage({ viewport: { width: 320, height: 844 } });
  await page.goto(pathToFileURL(file).href);
  await page.evaluate(axe);
  const violations = await audit(page, [320, 768, 1200], Object.keys(modes));
  ok(violations.length === 0, 'the page of a change of tables: axe-core finds nothing', violations.join('\n'));
  await page.close();
}
await browser.close();
end();
