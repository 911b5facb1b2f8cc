/**
 * One mistake a file, and beside it what its author is shown. `UPDATE=1` renews the texts; read every line of the
 * difference as the person who gets it: what is, what should be, by how much, and what would mend it.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { checkText } from '../../server/reports/check-text';
import { analyseFiles } from '../support/analyse';

const folder = import.meta.dirname;
const names = readdirSync(folder)
  .filter((name) => name.endsWith('.md'))
  .map((name) => name.slice(0, -'.md'.length))
  .sort();

function resultOf(name: string) {
  const configuration = join(folder, `${name}.yaml`);
  const files = {
    ...(existsSync(configuration) && { 'plimsoll.yaml': readFileSync(configuration, 'utf8') }),
    'product.md': readFileSync(join(folder, `${name}.md`), 'utf8'),
  };
  return analyseFiles(files, 'ranges');
}

describe.each(names)('%s', (name) => {
  const result = resultOf(name);

  test('is shown as it was read through', () => {
    const shown = checkText(result, 'Field recorder', {
      paint: (_, text) => text,
      pad: (text, columns) => text.padEnd(columns),
      padStart: (text, columns) => text.padStart(columns),
    });
    const path = join(folder, `${name}.txt`);
    if (process.env.UPDATE) writeFileSync(path, shown);
    expect(shown).toBe(readFileSync(path, 'utf8'));
  });

  test('is found, in sentences of one line that stand alone', () => {
    expect(result.findings.length).toBeGreaterThan(0);
    for (const { message } of result.findings) {
      expect(message).toMatch(/^\S[^\n]{10,320}$/);
      expect(message).not.toMatch(/undefined|null|NaN|\[object/);
    }
  });
});

test('every text has its mistake', () => {
  const texts = readdirSync(folder).filter((name) => name.endsWith('.txt') || name.endsWith('.yaml'));
  expect(texts.map((name) => name.replace(/\.\w+$/, '')).filter((name) => !names.includes(name))).toEqual([]);
});
