/** One line for a whole product, and signs for every verdict. */
import { expect, test } from 'vitest';
import { EVIDENCE, signOf, summaryLine, VERDICTS, worstVerdict } from '../../client/verdict-words';
import { EVIDENCE_STATES } from '../../server/engine/evidence/state';
import type { Verdict } from '../../server/engine/verdict';
import type { ProductSummary } from '../../server/lsp/messages';

const product = (verdicts: Readonly<Record<string, number>>): ProductSummary => ({
  uri: 'file:///p',
  name: 'P',
  phase: 'design',
  judged: 1,
  requirements: Object.values(verdicts).reduce((sum, count) => sum + count, 0),
  verdicts,
  overSpecified: 0,
  findings: { error: 0, warning: 0, information: 0, hint: 0 },
});

test('what needs somebody stands first', () => {
  expect(summaryLine(product({ met: 3, 'at risk': 1, unmet: 2, waived: 1 }))).toBe('2 unmet · 1 at risk · 3 met');
  expect(summaryLine(product({ met: 3 }))).toBe('all 3 met');
  expect(summaryLine(product({ met: 3, waived: 1 }))).toBe('3 met');
  expect(summaryLine(product({ waived: 2 }))).toBe('2 requirements');
  expect(summaryLine(product({}))).toBe('no requirements');
});

test('the worst verdict gives the sign', () => {
  expect(worstVerdict(product({ met: 3, open: 1 }))).toBe('open');
  expect(worstVerdict(product({}))).toBe('met');
});

test('every verdict has a sign of its own', () => {
  expect(new Set(VERDICTS.map((verdict) => signOf(verdict).icon)).size).toBe(VERDICTS.length);
});

test('the words are those of the server', () => {
  expect([...EVIDENCE]).toEqual([...EVIDENCE_STATES]);
  const all: Readonly<Record<Verdict, true>> = {
    unmet: true,
    'at risk': true,
    undecided: true,
    open: true,
    waived: true,
    met: true,
    'not applicable': true,
  };
  expect([...VERDICTS].sort()).toEqual(Object.keys(all).sort());
});
