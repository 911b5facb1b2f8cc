/** The language reference tells what the language is: its tables are fresh and its examples hold. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { blocksIn, schemaFiles, TABLES, withTables } from '../.ci/reference-tables';
import { ATTRIBUTES } from '../grammar/attributes';
import { FINDING_CODES } from '../grammar/findings';
import { analyseFiles } from './support/analyse';
import { differences, readSpec } from './support/spec';

const reference = readFileSync(join(import.meta.dirname, '..', 'grammar', 'README.md'), 'utf8');

test('the tables are fresh; otherwise run “npm run reference”', () => {
  expect(withTables(reference) === reference).toBe(true);
});

test.each(Object.entries(schemaFiles()))('%s is fresh; otherwise run “npm run reference”', (path, text) => {
  expect(readFileSync(join(import.meta.dirname, '..', path), 'utf8') === text).toBe(true);
});

test('every table stands in it once', () => {
  expect([...blocksIn(reference)].sort()).toEqual([...TABLES.keys()].sort());
});

test('a table that nothing makes is an error', () => {
  expect(() => withTables('<!-- generated: nothing -->\n<!-- end -->')).toThrow('no such table');
  expect(withTables('<!-- generated: findings -->\n<!-- end -->')).toContain('| `unmet` | error | error |');
});

describe('every example says what the product says', () => {
  const cases = readSpec(reference);
  test('there are some', () => expect(cases.length).toBeGreaterThan(8));
  test.each(cases.map((example) => [example.name, example] as const))('%s', (_, example) => {
    expect(differences(example), `grammar/README.md:${example.line}`).toEqual([]);
  });
});

test('every attribute is read from its example', () => {
  const text = ['---', 'requirements: T', '---', '## P-1 T', 'The unit shall beep.', ''].join('\n');
  for (const { key, example } of ATTRIBUTES) {
    const { analysis } = analyseFiles({ 'a.md': `${text}\n${example}\n` });
    expect(analysis.requirements[0]?.requirement.attributes.map((attribute) => attribute.key)).toEqual([key]);
  }
});

test('every finding is in it', () => {
  for (const code of FINDING_CODES) expect(reference).toContain(`| \`${code}\` |`);
});
