// The structured data against schema.org's vocabulary (the types of schema-dts), a JSON-LD processor,
// and an independent parser of ISO 8601 durations.
import { spawnSync } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import jsonld from 'jsonld';
import { parse } from 'iso8601-duration';
import { ok, end } from './lib/tap.mjs';
import { files, json, press, root } from './lib/site.mjs';

const checks = join(root, 'tests', 'build-types');
mkdirSync(checks, { recursive: true });

// "Recipe" as WithContext<Recipe>: excess and misspelt properties are errors in object literals
function typeCheck(name, type, from, values) {
  const source = `import type { ${type} } from '${from}';\n`
    + (from === 'schema-dts' ? "import type { WithContext } from 'schema-dts';\n" : '')
    + values.map((v, i) => `export const v${i}: ${from === 'schema-dts' ? `WithContext<${type}>` : type} = ${JSON.stringify(v)};\n`).join('');
  const path = join(checks, `${name}.ts`);
  writeFileSync(path, source);
  const result = spawnSync(process.execPath, [join(root, 'tests/node_modules/typescript/bin/tsc'),
    '--noEmit', '--strict', '--skipLibCheck', '--moduleResolution', 'bundler', '--module', 'esnext', '--target', 'es2022', path],
  { encoding: 'utf8', cwd: join(root, 'tests') });
  ok(result.status === 0, `types of ${name} (${values.length})`, result.stdout);
}

async function properties(value) {
  const context = { '@vocab': 'http://schema.org/', '@base': 'https://base.example/' };
  const local = async (url) => ({ contextUrl: null, documentUrl: url, document: { '@context': context } });
  return jsonld.expand(value, { documentLoader: local });
}

const { out } = press('content', 'demo');
const recipes = files(join(out, 'data'), '.json').map((path) => [basename(path), json(path)]);
ok(recipes.length >= 12, 'a dozen recipes', recipes.length);
typeCheck('recipes', 'Recipe', 'schema-dts', recipes.map(([, value]) => value).filter((value) => value['@type'] === 'Recipe'));
typeCheck('round-ups', 'ItemList', 'schema-dts', recipes.map(([, value]) => value).filter((value) => value['@type'] === 'ItemList'));
typeCheck('datafeed', 'DataFeed', 'schema-dts', [json(join(out, 'recipes.json'))]);
typeCheck('sarif', 'Log', 'sarif', [json(join(out, 'findings.sarif'))]);

for (const [name, recipe] of recipes) {
  const expanded = await properties(recipe);
  const [type, filled] = recipe['@type'] === 'ItemList' ? ['ItemList', 'itemListElement'] : ['Recipe', 'recipeIngredient'];
  ok(expanded.length === 1 && expanded[0]['@type']?.[0] === `http://schema.org/${type}`
    && (expanded[0][`http://schema.org/${filled}`] ?? []).length > 0, `JSON-LD of ${name} expands to a ${type}`, expanded[0]);
  for (const key of ['prepTime', 'cookTime', 'totalTime']) {
    if (recipe[key] === undefined) continue;
    let parsed;
    try { parsed = parse(recipe[key]); } catch (error) { parsed = String(error); }
    ok(typeof parsed === 'object', `${name}: ${key} ${recipe[key]} is an ISO 8601 duration`, parsed);
  }
}
end();
