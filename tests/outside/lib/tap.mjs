// Prints TAP lines: one for each thing that was checked.
let n = 0;
let failed = 0;

export function ok(holds, name, detail) {
  n += 1;
  if (!holds) failed += 1;
  console.log(`${holds ? 'ok' : 'not ok'} ${n} - ${name}`);
  if (!holds && detail !== undefined) {
    const text = typeof detail === 'string' ? detail : JSON.stringify(detail, null, 1);
    console.log(text.split('\n').slice(0, 12).map((line) => `# ${line}`).join('\n'));
  }
}

export function end() {
  console.log(`1..${n}`);
  process.exitCode = failed > 0 ? 1 : 0;
}
