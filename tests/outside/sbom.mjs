// The list of libraries against CycloneDX's own schema, and against what the loader says of the program.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { createRequire } from 'node:module';
import Ajv from 'ajv';
import formats from 'ajv-formats';
import { ok, end } from './lib/tap.mjs';
import { json } from './lib/site.mjs';

const dariole = process.env.DARIOLE ?? 'build/dariole';
const folder = join(dirname(createRequire(import.meta.url).resolve('@cyclonedx/cyclonedx-library/package.json')), 'res/schema');
const schema = (name) => json(join(folder, `${name}.SNAPSHOT.schema.json`));
const ajv = new Ajv({ strict: false, allErrors: true });
formats(ajv);
for (const name of ['iri-reference', 'idn-email']) ajv.addFormat(name, true);
ajv.addSchema(schema('spdx'), 'http://cyclonedx.org/schema/spdx.SNAPSHOT.schema.json');
ajv.addSchema(schema('jsf-0.82'), 'http://cyclonedx.org/schema/jsf-0.82.SNAPSHOT.schema.json');
const valid = ajv.compile(schema('bom-1.5'));

const list = () => execFileSync('tools/sbom', [dariole], { encoding: 'utf8' });
const text = list(), bom = JSON.parse(text);
ok(valid(bom), 'the list is valid CycloneDX 1.5', valid.errors?.slice(0, 4));
ok(text === list(), 'the same machine gives the same list');
const loaded = execFileSync('ldd', [dariole], { encoding: 'utf8' }).split('\n')
  .map((line) => line.match(/^\s*(\S+) => \//)?.[1]).filter(Boolean).sort();
const refs = bom.components.map((one) => one['bom-ref']);
ok(JSON.stringify(refs.toSorted?.() ?? [...refs].sort()) === JSON.stringify(loaded), 'it has every library that the program loads', refs);
ok(JSON.stringify(bom.dependencies[0].dependsOn) === JSON.stringify(refs), 'and the program depends on each');
const makefile = readFileSync('Makefile', 'utf8');
const wanted = makefile.match(/^PACKAGES = (.*)$/m)[1].split(' ').map((name) => name.replace(/-[\d.]+$/, '').replace(/^lib/, ''));
ok(wanted.every((name) => refs.some((ref) => ref.startsWith(`lib${name}`))), 'with those that the Makefile names', wanted);
let packaged = true;
try { execFileSync('dpkg-query', ['--version']); } catch { packaged = false; }
ok(!packaged || bom.components.every((one) => one.version && one.purl?.startsWith('pkg:deb/')), 'each has its version and package', bom.components.find((one) => !one.version));
end();
