/** `check --format sarif` against the schema that OASIS publishes and the clauses that a schema cannot say. */
import { createRequire } from 'node:module';
import Ajv from 'ajv';
import fc from 'fast-check';
import type { Log } from 'sarif';
import { describe, expect, test } from 'vitest';
import { FINDING_CODES } from '../../grammar/findings';
import { messageText } from '../../server/reports/sarif/message';
import { sarifLog } from '../../server/reports/sarif/sarif';
import { TOOL } from '../../server/reports/tool';
import { analyseFiles, analyseText } from '../support/analyse';

const require = createRequire(import.meta.url);

/** SARIF 2.1.0's own schema (draft-04), as the package carries it. Keys that only draft-04 knows are dropped. */
const { $schema: _, id: __, ...schema } = require('@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json');
const isValid = new Ajv({ strict: false, allErrors: true, validateFormats: false, unicodeRegExp: false }).compile(
  schema,
);

const SETTINGS = { prefix: 'products/tern/', incomplete: false };

function logOf(facts: string, requirements: string): Log {
  return sarifLog(analyseText(facts, requirements), 'Test', SETTINGS);
}

const BROKEN = logOf('supply: {draw: 65 W}', '## P-1 Power\nIt shall draw no more than 60 W (`supply.draw`).\n');

function runOf(log: Log) {
  const [run] = log.runs;
  if (run === undefined) throw new Error('a log has one run');
  return run;
}

test('the schema refuses what is no SARIF, so that a pass means something', () => {
  expect(isValid({ version: '2.1.0' })).toBe(false);
  expect(isValid({ ...BROKEN, runs: [{ ...runOf(BROKEN), results: [{ level: 'severe', message: {} }] }] })).toBe(false);
});

test('a log is valid', () => {
  isValid(BROKEN);
  expect(isValid.errors).toBeNull();
});

test('there is a rule for each finding, with help', () => {
  const rules = runOf(BROKEN).tool.driver.rules ?? [];
  expect(rules.map(({ id }) => id)).toEqual(FINDING_CODES);
  for (const rule of rules) expect(rule.help?.text).toContain(rule.shortDescription?.text);
  expect(rules.find(({ id }) => id === 'at-risk')).toMatchObject({
    name: 'AtRisk',
    defaultConfiguration: { level: 'warning' },
    help: { markdown: expect.stringContaining('warning in design, error at release') },
  });
});

test('a result names its rule, its requirement and its place below the top of the repository', () => {
  const results = runOf(BROKEN).results ?? [];
  const unmet = results.find(({ ruleId }) => ruleId === 'unmet');
  const rules = runOf(BROKEN).tool.driver.rules ?? [];
  expect(rules[unmet?.ruleIndex ?? -1]?.id).toBe('unmet');
  expect(unmet).toMatchObject({
    level: 'error',
    partialFingerprints: { 'finding/v1': 'unmet P-1 1' },
    locations: [
      {
        physicalLocation: {
          artifactLocation: { uri: 'products/tern/product.md', uriBaseId: '%SRCROOT%' },
          // `no more than 60 W`; columns from 1, the end exclusive.
          region: { startLine: 7, startColumn: 15, endLine: 7, endColumn: 32 },
        },
        logicalLocations: [{ name: 'P-1' }],
      },
    ],
  });
  expect(unmet?.relatedLocations?.[0]).toMatchObject({
    physicalLocation: { region: { startLine: 4 } },
    message: { text: 'supply.draw is 65 W' },
  });
});

test('hints stay with whoever writes, and levels are those of SARIF', () => {
  const log = logOf('a: 1 W\nunused: 2 W', '## P-1 A\nIt shall draw at most 2 W (`a`).\n');
  const ids = (runOf(log).results ?? []).map(({ ruleId }) => ruleId);
  expect(ids).not.toContain('unused');
  expect(new Set((runOf(log).results ?? []).map(({ level }) => level))).toEqual(new Set(['note']));
});

test('a second finding of one code on one requirement has a fingerprint of its own', () => {
  const log = logOf('a: 3 W\nb: 3 W', '## P-1 A\n- Check: `a <= 2 W`\n- Check: `b <= 2 W`\n');
  const unmet = (runOf(log).results ?? []).filter(({ ruleId }) => ruleId === 'unmet');
  expect(unmet.map(({ partialFingerprints }) => partialFingerprints?.['finding/v1'])).toEqual([
    'unmet P-1 1',
    'unmet P-1 2',
  ]);
});

test('paths are URIs (3.10.1)', () => {
  const text = '---\nrequirements: A\nfacts: {a: 3 W}\n---\n## P-1 A\n- Check: `a <= 2 W`\n';
  const log = sarifLog(analyseFiles({ 'a b/ü#1?%.md': text }), 'A', { prefix: '', incomplete: false });
  isValid(log);
  expect(isValid.errors).toBeNull();
  const [result] = runOf(log).results ?? [];
  expect(result?.locations?.[0]?.physicalLocation?.artifactLocation?.uri).toBe('a%20b/%C3%BC%231%3F%25.md');
});

test('input that could not be read is no success (3.20.14)', () => {
  const log = sarifLog(analyseFiles({}), 'A', { prefix: '', incomplete: true });
  expect(runOf(log).invocations).toEqual([{ executionSuccessful: false }]);
});

describe('messages are plain', () => {
  test('braces are doubled (3.11.5), brackets before a target escaped (3.11.6)', () => {
    expect(messageText('write {a: 1} [b](c) [d]')).toBe('write {{a: 1}} \\[b](c) [d]');
  });

  test('whatever stands in a document', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const facts = 'a: 3 W';
        const log = logOf(facts, `## P-1 ${text}\nIt shall draw at most 2 W (\`a\`).\n\n- Owner: ${text}\n`);
        isValid(log);
        expect(isValid.errors).toBeNull();
        expect(JSON.stringify(log)).not.toMatch(/\p{Surrogate}/u);
      }),
      { numRuns: 10 },
    );
  });
});

test('the version is the package’s', () => {
  expect(TOOL.version).toBe(require('../../package.json').version);
});
