/** Ranges of random designs against the verdicts of the same design with the figure moved, judged from the text's values on. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { type BoundEnd, type FigureRanges, rangesOf } from '../../../server/engine/ranges/ranges';
import type { Rational } from '../../../server/quantity/rational';
import * as rational from '../../../server/quantity/rational';
import { analyseFiles } from '../../support/analyse';
import { type Design, designText, expressionText, givens, type Node } from '../../support/random-design';
import { verdictsWith } from './support';

const RUNS = { numRuns: Number(process.env.FUZZ_RUNS ?? 15) };

interface Asked {
  readonly design: Design;
  /** `expression relation limit`, one requirement each. */
  readonly conditions: readonly string[];
}

function analysed({ design, conditions }: Asked) {
  const { facts, parts } = designText(design);
  const lines = facts.split('\n').map((line) => `  ${line}`);
  const rows = parts === '' ? [] : ['parts:', parts];
  const requirements = conditions.map((condition, index) => `## P-${index}\n- Check: \`${condition}\``);
  const text = ['---', 'requirements: T', 'facts:', ...lines, ...rows, '---', ...requirements].join('\n');
  return analyseFiles({ 'product.md': text }).analysis;
}

/** Sums, products, quotients and greatest values of positive figures: each bends, none jumps. */
function smooth(names: readonly string[]): fc.Arbitrary<Node> {
  const leaf: fc.Arbitrary<Node> = fc.constantFrom(...names).map((name): Node => ({ op: 'name', name }));
  const { node } = fc.letrec<{ node: Node }>((tie) => ({
    node: fc.oneof(
      { maxDepth: 3, depthSize: 'small' },
      leaf,
      fc.record({ op: fc.constantFrom('+' as const, '*' as const, '/' as const), a: tie('node'), b: tie('node') }),
      fc.record({ op: fc.constantFrom('min' as const, 'max' as const), a: tie('node'), b: tie('node') }),
      fc.record({ op: fc.constant('^' as const), a: tie('node'), exponent: fc.integer({ min: 1, max: 2 }) }),
    ),
  }));
  return node;
}

/** Anything, with steps, conditions and changing signs. */
function wild(names: readonly string[]): fc.Arbitrary<Node> {
  const leaf: fc.Arbitrary<Node> = fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...names).map((name): Node => ({ op: 'name', name })) },
    { weight: 1, arbitrary: fc.integer({ min: -3, max: 5 }).map((value): Node => ({ op: 'number', value })) },
    { weight: 1, arbitrary: fc.constantFrom<Node>({ op: 'sum' }, { op: 'greatest' }, { op: 'count', above: 3 }) },
  );
  const { node } = fc.letrec<{ node: Node }>((tie) => ({
    node: fc.oneof(
      { maxDepth: 3, depthSize: 'small' },
      leaf,
      fc.record({ op: fc.constantFrom('+' as const, '-' as const, '*' as const), a: tie('node'), b: tie('node') }),
      fc.record({ op: fc.constantFrom('abs' as const, 'floor' as const), a: tie('node') }),
      fc.record({ op: fc.constant('^' as const), a: tie('node'), exponent: fc.integer({ min: 2, max: 3 }) }),
      fc.record({ op: fc.constant('if' as const), left: tie('node'), right: leaf, met: tie('node'), otherwise: leaf }),
    ),
  }));
  return node;
}

function asked(
  nodes: (names: readonly string[]) => fc.Arbitrary<Node>,
  lowest: number,
  rows: fc.Arbitrary<Design['rows']>,
): fc.Arbitrary<Asked> {
  return fc.tuple(givens('x', 1, 4, lowest), rows).chain(([facts, own]) => {
    const node = nodes(facts.map(({ name }) => name));
    const limit = fc.integer({ min: -20, max: 400 }).map((tenths) => new Fraction(tenths, 10).toString(10));
    const condition = fc
      .tuple(node, fc.constantFrom('<=', '>=', '<', '>'), limit)
      .map(([value, relation, at]) => `${expressionText(value)} ${relation} ${at}`);
    return fc.array(condition, { minLength: 1, maxLength: 3 }).map((conditions) => ({
      design: { facts, rows: own, derived: [{ op: 'name', name: 'x0' }] },
      conditions,
    }));
  });
}

const SHARES = [0, 0.37, 0.81, 1].map(rational.fromDouble);
/** Ends found by trying are within a billionth. */
const BILLIONTHS = rational.fraction(4n, 1_000_000_000n);

/** Places from where the figure is to an end; a strict end is left out by a hair. */
function placesUpTo(now: Rational, end: BoundEnd | null, direction: 1 | -1): readonly Rational[] {
  const size = rational.maximum(rational.absolute(now), rational.ONE);
  const far = end?.value ?? rational.add(now, rational.multiply(rational.integer(direction * 3), size));
  const last = end?.strict ? rational.subtract(far, hair(far, now, direction)) : far;
  return SHARES.map((share) => rational.add(now, rational.multiply(rational.subtract(last, now), share)));
}

function hair(at: Rational, now: Rational, direction: 1 | -1): Rational {
  const size = rational.maximum(rational.absolute(at), rational.absolute(now));
  const small = rational.multiply(rational.sign(size) === 0 ? rational.ONE : size, BILLIONTHS);
  return direction > 0 ? small : rational.negate(small);
}

function between(value: Rational, low: Rational, high: Rational): boolean {
  return rational.compare(low, value) <= 0 && rational.compare(value, high) <= 0;
}

/** Every requirement met now stays met at places inside; the one named breaks just outside. */
function expectRange(
  analysis: ReturnType<typeof analysed>,
  { figure, allowed }: FigureRanges,
  isTight: boolean,
): number {
  if (allowed === null) return 0;
  const met = analysis.requirements.filter(({ verdict }) => verdict === 'met').map(({ requirement }) => requirement.id);
  let tight = 0;
  for (const direction of [1, -1] as const) {
    const end = direction > 0 ? allowed.high : allowed.low;
    for (const place of placesUpTo(figure.now, end, direction)) {
      const at = figure.steps.type === 'whole' ? rational.round(place) : place;
      if (rational.compare(at, figure.lowest?.value ?? at) < 0) continue;
      if (end !== null && !between(at, ...sorted(figure.now, end.value))) continue;
      const verdicts = verdictsWith(analysis, figure, at);
      expect(met.filter((id) => verdicts.get(id) !== 'met')).toEqual([]);
    }
    if (end === null || end.by === null || !met.includes(end.by) || !isTight) continue;
    const outside = end.strict ? end.value : rational.add(end.value, hair(end.value, figure.now, direction));
    expect([end.by, verdictsWith(analysis, figure, outside).get(end.by)]).not.toEqual([end.by, 'met']);
    tight += 1;
  }
  return tight;
}

function sorted(a: Rational, b: Rational): [Rational, Rational] {
  return rational.compare(a, b) <= 0 ? [a, b] : [b, a];
}

/** Put in, a needed range meets its requirement and breaks none; its inner end is as near as it can be. */
function expectNeeded(analysis: ReturnType<typeof analysed>, { figure, needed }: FigureRanges): number {
  const met = analysis.requirements.filter(({ verdict }) => verdict === 'met').map(({ requirement }) => requirement.id);
  let worked = 0;
  for (const { requirement, range } of needed) {
    if (range.type !== 'range') continue;
    for (const at of figure.steps.type === 'whole' ? endsOf(range) : placesIn(range)) {
      const verdicts = verdictsWith(analysis, figure, at);
      expect([...met, requirement.id].filter((id) => verdicts.get(id) !== 'met')).toEqual([]);
    }
    worked += 1;
  }
  return worked;
}

function endsOf({ low, high }: Ends): readonly Rational[] {
  return [low, high].flatMap((end) => (end === null || end.strict ? [] : [end.value]));
}

function placesIn({ low, high }: Ends): readonly Rational[] {
  const ends = endsOf({ low, high });
  if (low === null || high === null) return ends;
  return [...ends, rational.divide(rational.add(low.value, high.value), rational.integer(2))];
}

interface Ends {
  readonly low: Pick<BoundEnd, 'value' | 'strict'> | null;
  readonly high: Pick<BoundEnd, 'value' | 'strict'> | null;
}

const noRows: fc.Arbitrary<Design['rows']> = fc.constant([]);

describe('random designs whose figures bend but do not jump', () => {
  test('every allowed end is tight, and every needed range works', () => {
    const counts = { tight: 0, worked: 0, all: 0, shown: 0 };
    fc.assert(
      fc.property(asked(smooth, 3, noRows), (one) => {
        const analysis = analysed(one);
        for (const ranges of rangesOf(analysis).figures) {
          counts.all += 1;
          counts.shown += Number(ranges.allowed !== null);
          counts.tight += expectRange(analysis, ranges, true);
          counts.worked += expectNeeded(analysis, ranges);
        }
      }),
      RUNS,
    );
    expect(counts.tight).toBeGreaterThan(RUNS.numRuns / 2);
    expect(counts.worked).toBeGreaterThan(0);
    // A step limit may leave one or another open, never wrong.
    expect(counts.shown).toBeGreaterThan(0.8 * counts.all);
  });
});

describe('random designs with steps, conditions and rows', () => {
  test('nothing breaks inside an allowed range, and every needed range works', () => {
    let checked = 0;
    fc.assert(
      fc.property(asked(wild, -5, givens('r', 1, 3, -5)), (one) => {
        const analysis = analysed(one);
        for (const ranges of rangesOf(analysis).figures) {
          checked += Number(ranges.allowed !== null);
          expectRange(analysis, ranges, false);
          expectNeeded(analysis, ranges);
        }
      }),
      { numRuns: Number(process.env.FUZZ_RUNS ?? 10) },
    );
    expect(checked).toBeGreaterThan(10);
  });
});
