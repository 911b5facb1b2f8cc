/** Recorded is verified, whatever the criterion; and stale once any figure takes the worst case nearer to the limit. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { expect, test } from 'vitest';
import { filledRun } from '../../../server/features/record-run';
import type { Interval } from '../../../server/quantity/interval';
import * as rational from '../../../server/quantity/rational';
import { analyseFiles } from '../../support/analyse';
import { designText, type Given, givens } from '../../support/random-design';
import { evidenceIn, recordedIn } from '../../support/record';

const SHAPES = [
  'f0 + f1',
  'f0 * f1 / f2',
  'f0 - f1',
  'max(f0, f1) + f2',
  'f0 / (f1 + f2)',
  'abs(f0 - f1) + f2',
  'f0 * (f1 - f2)',
  'min(f0, f1 * f2)',
];
const LIMITS = ['at least -1000000', 'at most 1000000', 'more than -1000000', 'less than 1000000'];

function document(facts: readonly Given[], shape: string, limit: string): string {
  return [
    '---',
    'requirements: Test',
    'facts:',
    ...[...designText({ facts, rows: [], derived: [] }).facts.split('\n'), `root: = ${shape}`].map(
      (line) => `  ${line}`,
    ),
    'verification: TP-1',
    'method: test',
    'verifies: [P-1]',
    '---',
    '## P-1',
    `The root shall be ${limit} (\`root\`).`,
    '',
  ].join('\n');
}

/** So wide that no change of a figure leaves them. */
function sweeps(facts: readonly Given[]) {
  return facts
    .filter(({ spread, low, high }) => spread === 'range' && !low.equals(high))
    .map(({ name, low, high }) => ({ name, value: `${low.sub(9).toString()} to ${high.add(9).toString()}` }));
}

function scaled({ name, ...given }: Given, by: Fraction): Given {
  return { ...given, name, low: given.low.mul(by), typical: given.typical.mul(by), high: given.high.mul(by) };
}

function worstCase(text: string): Interval {
  const figures = analyseFiles({ 'product.md': text }).analysis.requirements[0]?.criteria[0]?.figures;
  if (figures == null) throw new Error('nothing was computed');
  return figures.value;
}

/** How far an end went toward the limit, as a share of itself; any way at all from 0. */
function approach(before: Interval, now: Interval, isLower: boolean): number {
  const [from, to] = isLower ? [before.low, now.low] : [before.high, now.high];
  if (from === null || to === null) throw new Error('an end is open');
  const way = rational.toDouble(isLower ? rational.subtract(from, to) : rational.subtract(to, from));
  return rational.sign(from) === 0 ? way * Number.POSITIVE_INFINITY || 0 : way / Math.abs(rational.toDouble(from));
}

const cases = fc.record({
  facts: givens('f', 3, 3, 3),
  shape: fc.constantFrom(...SHAPES),
  limit: fc.constantFrom(...LIMITS),
  changed: fc.integer({ min: 0, max: 2 }),
  digits: fc.integer({ min: -9, max: 9 }),
  places: fc.integer({ min: 2, max: 13 }),
});

test('a change of any figure makes it stale where the worst case comes nearer by more than 1e-11 of itself, and else not', () => {
  const seen = { stale: 0, verified: 0 };
  fc.assert(
    fc.property(cases, ({ facts, shape, limit, changed, digits, places }) => {
      const text = document(facts, shape, limit);
      const recorded = recordedIn(text, { at: sweeps(facts) });
      expect(evidenceIn(recorded)).toEqual({ 'P-1': 'verified' });
      const by = new Fraction(1).add(new Fraction(digits).div(new Fraction(10).pow(places) as Fraction));
      const moved = facts.map((fact, index) => (index === changed ? scaled(fact, by) : fact));
      const [now, runs] = [document(moved, shape, limit), recorded.slice(recorded.indexOf('verification:'))];
      const state = evidenceIn(now.slice(0, now.indexOf('verification:')) + runs)['P-1'];
      const way = approach(worstCase(text), worstCase(now), limit.includes('least') || limit.includes('more'));
      if (way > 1e-11) expect(state).toBe('stale');
      if (way <= 0) expect(state).toBe('verified');
      seen[state as 'stale' | 'verified'] += 1;
    }),
    { numRuns: 40 },
  );
  expect(Math.min(seen.stale, seen.verified)).toBeGreaterThan(5);
});

const SETTINGS = 'modes: [standby, record]\nscales: {ingress: [IP65, IP66]}\nunits: {lane: kind}\n';

/** Criteria of every kind, each with the facts that it needs. */
const KINDS: readonly (readonly [facts: string, sentence: string])[] = [
  ['a: 45 W ± 10 %', 'shall draw at most 60 W (`a`)'],
  ['a: {min: 4 W, typ: 5 W}', 'shall draw at least 3 W (`a`)'],
  ['a: {standby: 1 W, record: 5 W ± 1 W}', 'shall draw at most 60 W (`a`)'],
  ['a: 36 V to 57 V', 'shall operate from 40 V to 56 V (`a`)'],
  ['a: 5 V ± 2 %', 'shall stay within 4.5 V to 5.5 V (`a`)'],
  ['a: 5 V', 'shall be exactly 5 V (`a`)'],
  ['a: -20 °C ± 3 °C', 'shall be at least -40 °C (`a`)'],
  ['a: 2026-12-01', 'shall ship by 2027-01-31 (`a`)'],
  ['a: "IP66"', 'shall be good. \n\n- Check: `a >= "IP65"`'],
  ['a: yes', 'shall be good.\n\n- Check: `a`'],
  ['a: 6 lane', 'shall have at least 6 lanes (`a`)'],
  ['a: 3 W\n  b: 8 W ± 1 W', 'shall draw at most 80 % of `b` (`a`)'],
  ['a: 3 W\n  b: 5 W to 8 W', 'shall be good.\n\n- Check: `a <= b`'],
  ['a: 3 W\n  b: 5 W to 8 W', 'shall be good.\n\n- Check: `a within b.min / 2 to b.max`'],
  ['c: {at: {1: 3 EUR, 10: 2 EUR}, of: n, between: steps}\n  n: 20\n  a: 1 EUR', 'shall be good.\n\n- Check: `a <= c`'],
  ['a: = sum(power over parts)', 'shall draw at most 60 W (`a`)'],
  ['a: = 2 * sum(power over parts)', 'shall be good.\n\n- Check: `sum(power over parts) <= a`'],
  ['a: 1', 'shall be good.\n\n- Check: `all(power <= limit over parts)`'],
  ['a: 1', 'shall be good.\n\n- Check: `all(power <= 9 W over parts where role = "x")`'],
  ['a: 1', 'shall have exactly 1 part (`count(parts where role = "x")`)'],
  ['a: 1', 'shall be good.\n\n- Check: `a = 1 or a = 2`'],
  ['a: [5 V, 9 V]', 'shall be good.\n\n- Check: `a has 9 V`'],
  ['a: 1e-20 m +3 % / -0 %\n  b: = sqrt(a * 1 m)', 'shall be at most 1 m long (`b`)'],
  ['d: 1', 'shall be grey'],
];

function kindDocument([facts, sentence]: readonly [string, string], rows = ''): string {
  const parts = `parts:\n  - {id: p, role: "x", power: 3 W ± 1 W, limit: 5 W, quantity: 2}\n${rows}`;
  return `---\nrequirements: Test\nfacts:\n  ${facts}\n${parts}verification: TP-1\nmethod: test\nverifies: [P-1]\n---\n## P-1\nIt ${sentence.endsWith('`') || sentence.endsWith('.') ? sentence : `${sentence}.`}\n`;
}

function stateOf(text: string): string | undefined {
  return analyseFiles({ 'product.md': text, 'plimsoll.yaml': SETTINGS }).analysis.requirements[0]?.evidence.state;
}

/** As {@link recordedIn}, with settings. */
function recordedWith(text: string, at: readonly { readonly name: string; readonly value: string }[]): string {
  const { analysis } = analyseFiles({ 'product.md': text, 'plimsoll.yaml': SETTINGS });
  const request = { id: 'TP-1', result: 'pass', date: '2026-11-01', article: null, measured: [], at } as const;
  const filled = filledRun(analysis, request);
  if ('mistake' in filled) throw new Error(filled.mistake);
  const run = filled.entries.map((entry) =>
    'text' in entry
      ? `${entry.key}: ${entry.text}`
      : `${entry.key}: {${entry.pairs.map(([key, value]) => `${JSON.stringify(key)}: ${value}`).join(', ')}}`,
  );
  return text.replace('verifies: [P-1]', `verifies: [P-1]\nruns: [{${run.join(', ')}}]`);
}

test.each(KINDS)('%s, %s: recorded is verified', (facts, sentence) => {
  const at = /\bb: 5 W to 8 W/.test(facts) ? [{ name: 'b', value: '5 W to 8 W' }] : [];
  const recorded = recordedWith(kindDocument([facts, sentence]), at);
  expect(stateOf(recorded)).toBe('verified');
  // What was added since and moves nothing leaves it so.
  const more = recorded.replace(
    'limit: 5 W, quantity: 2}\n',
    'limit: 5 W, quantity: 2}\n  - {id: q, role: "y", power: 0 W, limit: 5 W}\n',
  );
  expect(more).not.toBe(recorded);
  expect(stateOf(more)).toBe('verified');
});
