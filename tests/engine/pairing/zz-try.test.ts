import { readFileSync } from 'node:fs';
import { test } from 'vitest';
import { limitsOf, pair } from '../../support/statement';

test('try', () => {
  for (const line of readFileSync('/tmp/h2/try.txt', 'utf8').split('\n')) {
    if (!line.trim()) continue;
    const [text = '', ...names] = line.split(' || ');
    const types = Object.fromEntries(
      names
        .join(' || ')
        .split(/\s*;;\s*/)
        .filter(Boolean)
        .map((n) => n.split(/\s*:: ?/) as [string, string]),
    );
    const p = pair(text, types);
    console.log(
      text +
        '\n    => ' +
        [
          ...limitsOf(text, p),
          ...p.problems.map((x) => `${x.code}: ${x.message} [${x.fixes.map((f) => f.title).join(' | ')}]`),
          ...(p.modes.length ? [`modes ${p.modes}`] : []),
          ...(p.appliesWhen.length ? [`applies ${p.appliesWhen}`] : []),
        ].join('\n       '),
    );
  }
});
