/** Runs every specification of this folder. `UPDATE=1` renews the snapshots; look at the difference before you keep it. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { differences, readSpec, reportOf, withReport } from '../support/spec';

const folder = import.meta.dirname;
const specifications = readdirSync(folder)
  .filter((name) => name.endsWith('.md'))
  .sort();

describe.each(specifications)('%s', (name) => {
  const text = readFileSync(join(folder, name), 'utf8');
  const cases = readSpec(text);

  test('has cases', () => expect(cases.length).toBeGreaterThan(0));

  test.each(cases.map((specCase) => [specCase.name, specCase] as const))('%s', (_, specCase) => {
    expect(differences(specCase), `${name}:${specCase.line}`).toEqual([]);
    if (specCase.report === null) return;
    if (process.env.UPDATE) renew(join(folder, name), specCase.name);
    else expect(reportOf(specCase)).toBe(specCase.report.text);
  });
});

/** One snapshot at a time, from the file as it then stands, so that line numbers stay right. */
function renew(path: string, caseName: string): void {
  const text = readFileSync(path, 'utf8');
  const specCase = readSpec(text).find(({ name }) => name === caseName);
  if (specCase !== undefined) writeFileSync(path, withReport(text, specCase, reportOf(specCase)));
}
