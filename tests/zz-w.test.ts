/** Scratch. */
import { test } from 'vitest';
import { readFileSync } from 'node:fs';
import { analyseFiles } from './support/analyse';
test('x', () => {
  const lines = readFileSync('/tmp/sentences.txt', 'utf8').split('\n').filter(Boolean);
  const md = lines.map((l, i) => `## A-${i} T\n${l}\n`).join('\n');
  const text = `---\nrequirements: Test\nfacts: {draw: 45 W, temp: 20 °C, pf: 0.95}\n---\n${md}`;
  const r = analyseFiles({ 'product.md': text });
  const out = r.findings.filter((f) => f.code === 'wording').map((f) => `${f.requirement} [${text.slice(f.place.span.start, f.place.span.end)}] ${f.message}`);
  for (const [i, l] of lines.entries()) { console.log(l); for (const o of out) if (o.startsWith(`A-${i} `)) console.log('     ', o); }
});
