/** The JSON Schemas that editors get, held by an independent validator against what the program itself says. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import Ajv from 'ajv';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { extensionData } from '../../.ci/extension-data';
import { VALUE_PARTS } from '../../grammar/front-matter';
import { VALUE_KEYS } from '../../server/model/fact';
import { findFrontMatter } from '../../server/syntax/front-matter';
import { analyseFiles } from '../support/analyse';
import { readSpec } from '../support/spec';

const ROOT = join(import.meta.dirname, '..', '..');
const data = extensionData();
const ajv = new Ajv({
  strict: true,
  allowUnionTypes: true,
  strictRequired: false,
  strictTypes: false,
  validateFormats: false,
});
const acceptsConfiguration = ajv.compile(data['schemas/plimsoll.schema.json'] as object);
const acceptsFrontMatter = ajv.compile(data['schemas/front-matter.schema.json'] as object);

/** Null where there is none, or where it is no YAML. */
function frontMatterOf(text: string): unknown {
  const found = findFrontMatter(text);
  try {
    return found === null ? null : parse(text.slice(found.content.start, found.content.end), { logLevel: 'error' });
  } catch {
    return null;
  }
}

const markdownBelow = (folder: string) =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => join(folder, name));

describe('front matter', () => {
  test.each(markdownBelow('sample-workspace'))('%s is accepted', (path) => {
    const value = frontMatterOf(readFileSync(join(ROOT, path), 'utf8'));
    if (value === null) return;
    expect(acceptsFrontMatter(value), JSON.stringify(acceptsFrontMatter.errors)).toBe(true);
  });

  test('nothing is refused that the program reads', () => {
    const mistakes = markdownBelow('tests/mistakes').map((path) => ({
      'p.md': readFileSync(join(ROOT, path), 'utf8'),
    }));
    const specs = markdownBelow('tests/spec').flatMap((path) =>
      readSpec(readFileSync(join(ROOT, path), 'utf8')).map(({ files }) => Object.fromEntries(Object.entries(files))),
    );
    let held = 0;
    for (const files of [...mistakes, ...specs]) {
      const texts = Object.entries(files).filter(([path]) => path.endsWith('.md'));
      const refused = texts.filter(([, text]) => {
        const value = frontMatterOf(text);
        held += value === null ? 0 : 1;
        return value !== null && !acceptsFrontMatter(value);
      });
      if (refused.length === 0) continue;
      const { findings } = analyseFiles(files);
      for (const [path, text] of refused)
        expect(
          findings.some(({ severity, place }) => severity === 'error' && place.file === path),
          text,
        ).toBe(true);
    }
    expect(held).toBeGreaterThan(200);
  });

  test.each([
    ['facts: 45 W'],
    ['facts: {a: {value: 1 W, sauce: bench}}'],
    ['facts: {a: {at: {1: 2 V}, of: x, between: dots}}'],
    ['facts: {a: {value: 1 W, choices: 1 W}}'],
    ['parts: {soc: {power: 1 W}}'],
    ['parts: [{power: 1 W}]'],
    ['parts: {rows: [{id: soc}], default: {power: 0 W}}'],
    ['facts: {pumps: {rows: [{flow: 1 L/min}]}}'],
    ['connections: soc to phy'],
    ['option: birch'],
    ['verifications: [{id: TP-1, method: guess}]'],
    ['verifications: [{id: TP-1, method: test, runs: [{date: 2026-10-02, result: maybe}]}]'],
    ['verifications: [{id: TP-1, method: test, run: []}]'],
    ['verifications: [TP-1]'],
    ['verifications: [{id: TP-1, method: test, runs: [yesterday]}]'],
  ])('%s is refused, and the program finds a mistake', (yaml) => {
    expect(acceptsFrontMatter(parse(yaml))).toBe(false);
    const isRead = !yaml.startsWith('connections');
    if (isRead) expect(analyseFiles({ 'p.md': `---\n${yaml}\n---\n` }).findings).not.toEqual([]);
  });

  test.each([
    ['title: something of another program\nlayout: {wide: true}'],
    ['facts: {a: {standby: 1 W, record: 2 W}, b: ~, c: [1 V, 2 V], d: yes, e: 2026-10-02, f.g: = a}'],
    ['parts: {from: bom.csv, id: Designator, fields: {cost: Price}, units: {cost: EUR}}'],
    ['method: my own\nrequirements: P'],
    ['verification: TP-1\nmethod: test\nruns: []'],
  ])('%s is accepted', (yaml) => {
    expect(acceptsFrontMatter(parse(yaml)), JSON.stringify(acceptsFrontMatter.errors)).toBe(true);
  });

  test('the parts of a value are those that the program knows', () => {
    expect(new Set(VALUE_PARTS.map(({ key }) => key))).toEqual(VALUE_KEYS);
  });
});

describe('plimsoll.yaml', () => {
  test('of the sample product is accepted', () => {
    const value = parse(readFileSync(join(ROOT, 'sample-workspace', 'plimsoll.yaml'), 'utf8'));
    expect(acceptsConfiguration(value), JSON.stringify(acceptsConfiguration.errors)).toBe(true);
  });

  test.each([
    ['phase: desing'],
    ['modes: standby'],
    ['severity: {untestd: hint}'],
    ['severity: {untested: loud}'],
    ['choose: {processor: {choice: alder}}'],
    ['interfaces: {UART: [io-voltage]}'],
    ['interfaces: {UART: io-voltage}'],
    ['produkt: x'],
    [readFileSync(join(ROOT, 'tests', 'mistakes', 'bad-configuration.yaml'), 'utf8')],
  ])('%s is refused, and the program finds a mistake', (yaml) => {
    expect(acceptsConfiguration(parse(yaml))).toBe(false);
    const { findings } = analyseFiles({ 'plimsoll.yaml': yaml, 'p.md': '---\nrequirements: P\n---\n' });
    expect(findings.map(({ code }) => code)).toContain('bad-configuration');
  });
});
