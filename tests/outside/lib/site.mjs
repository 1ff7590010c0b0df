// Presses the demo, and the posts that try to do harm, into folders that the checks look at.
import { execFileSync, spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, mkdirSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..');
export const dariole = join(root, process.env.DARIOLE ?? 'build/dariole');

export function run(args, input) {
  return spawnSync(dariole, args, { input, encoding: 'utf8', cwd: root, maxBuffer: 1 << 28 });
}

export function press(content, name, ...options) {
  const out = join(root, 'build', 'tests', name);
  mkdirSync(out, { recursive: true });
  const result = run(['press', '-C', content, '-o', out, ...options]);
  return { out, status: result.status, log: result.stderr };
}

export function files(folder, ending) {
  return readdirSync(folder).filter((name) => name.endsWith(ending)).sort()
    .map((name) => join(folder, name));
}

export function json(path) {
  return JSON.parse(readFileSync(path, 'utf8'));
}

export function posts(folder) {
  return readdirSync(folder, { recursive: true })
    .filter((name) => name.endsWith('.md') && !name.endsWith('README.md')).sort()
    .map((name) => join(folder, name));
}

export function node(args) {
  return execFileSync(process.execPath, args, { cwd: join(root, 'tests'), encoding: 'utf8' });
}
