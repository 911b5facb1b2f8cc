/** No combination of inputs escapes the bounds, and where a figure only rises or falls the bounds are its corners exactly. */
import fc from 'fast-check';
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import type { FactContent } from '../../server/engine/analysis';
import type { Rational } from '../../server/quantity/rational';
import { analyseFiles, verdictsOf } from '../support/analyse';
import { type Design, designText, givens, type Node, pointOf, valueAt } from '../support/random-design';

const RUNS = { numRuns: 25 };
const MANY_RUNS = { numRuns: 100 };

/** The worst case that the product finds for `root`, and the verdicts of `root <= limit` and `root >= limit`. */
function judged(design: Design, limit: Fraction) {
  const text = designText(design);
  const shown = limit.toString(60);
  const result = analyseFiles({
    'product.md': [
      '---',
      'requirements: Test',
      'facts:',
      ...text.facts.split('\n').map((line) => `  ${line}`),
      '  rooted: = sqrt(abs(root))',
      ...(text.parts === '' ? [] : ['parts:', text.parts]),
      '---',
      `## S-1\n- Check: \`root <= ${shown}\``,
      `## S-2\n- Check: \`root >= ${shown}\``,
    ].join('\n'),
  });
  const contentOf = (name: string) => result.analysis.facts.find(({ fact }) => fact.name === name)?.values[0]?.content;
  return { content: contentOf('root'), rooted: contentOf('rooted'), verdicts: verdictsOf(result), result };
}

function fractionOf({ numerator, denominator }: Rational): Fraction {
  return new Fraction(numerator, denominator);
}

function endsOf(content: FactContent | undefined, extent: 'full' | 'typical'): readonly [Fraction, Fraction] | null {
  if (content?.type !== 'quantity') return null;
  const { low, high } = content[extent];
  return low === null || high === null ? null : [fractionOf(low), fractionOf(high)];
}

/** An expression over names and the derived figures before it. */
function expressions(names: readonly string[], withRows: boolean): fc.Arbitrary<Node> {
  const leaf: fc.Arbitrary<Node> = fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom(...names).map((name): Node => ({ op: 'name', name })) },
    { weight: 1, arbitrary: fc.integer({ min: -3, max: 5 }).map((value): Node => ({ op: 'number', value })) },
    ...(withRows
      ? [
          { weight: 1, arbitrary: fc.constantFrom<Node>({ op: 'sum' }, { op: 'greatest' }, { op: 'least' }) },
          { weight: 1, arbitrary: fc.integer({ min: 0, max: 5 }).map((above): Node => ({ op: 'count', above })) },
        ]
      : []),
  );
  const { node } = fc.letrec<{ node: Node }>((tie) => ({
    node: fc.oneof(
      { maxDepth: 3, depthSize: 'small' },
      leaf,
      fc.record({
        op: fc.constantFrom('+' as const, '-' as const, '*' as const, '/' as const),
        a: tie('node'),
        b: tie('node'),
      }),
      fc.record({ op: fc.constantFrom('min' as const, 'max' as const), a: tie('node'), b: tie('node') }),
      fc.record({ op: fc.constant('^' as const), a: tie('node'), exponent: fc.integer({ min: -2, max: 3 }) }),
      fc.record({ op: fc.constantFrom('abs' as const, 'floor' as const), a: tie('node') }),
      fc.record({ op: fc.constant('if' as const), left: tie('node'), right: leaf, met: tie('node'), otherwise: leaf }),
    ),
  }));
  return node;
}

function designs(withRows: boolean): fc.Arbitrary<Design> {
  return fc
    .tuple(givens('x', 1, 4, -5), withRows ? givens('r', 1, 3, -5) : fc.constant([]), fc.integer({ min: 1, max: 3 }))
    .chain(([facts, rows, count]) => {
      const names = facts.map(({ name }) => name);
      const derived = Array.from({ length: count }, (_, index) =>
        expressions([...names, ...Array.from({ length: index }, (__, before) => `d${before}`)], withRows),
      );
      return fc.tuple(...derived).map((list) => ({ facts, rows, derived: list }));
    });
}

/** Corners from bits, and places inside. */
const choices = fc.array(fc.oneof(fc.constantFrom(0, 12), fc.integer({ min: 0, max: 12 })), {
  minLength: 13,
  maxLength: 13,
});

const samples = fc.array(choices, { minLength: 12, maxLength: 12 });

function sampled(design: Design, extent: 'full' | 'typical', shares: readonly (readonly number[])[]) {
  return shares.map((share) =>
    valueAt(
      design,
      pointOf(design, extent, (at) => new Fraction(share[at % 13] ?? 0, 12)),
    ),
  );
}

describe.each([
  ['figures', false],
  ['figures and rows', true],
])('random designs of %s', (_, withRows) => {
  test('every value at a corner or inside lies within the worst case, of the typical extent too', () => {
    let decided = 0;
    fc.assert(
      fc.property(designs(withRows), samples, (design, shares) => {
        const { content, rooted } = judged(design, new Fraction(1));
        for (const extent of ['full', 'typical'] as const) {
          const ends = endsOf(content, extent);
          if (ends !== null) decided += 1;
          for (const value of sampled(design, extent, shares)) {
            // Where a figure has no value somewhere, none is claimed for it.
            if (value === null) expect(ends).toBeNull();
            else if (ends !== null) expectInside(value, ends, endsOf(rooted, extent));
          }
        }
      }),
      RUNS,
    );
    expect(decided).toBeGreaterThan(RUNS.numRuns / 2);
  });

  test('met: no sample breaks the limit; at risk: none does with typical tolerances', () => {
    fc.assert(
      fc.property(designs(withRows), samples, choices, (design, shares, limitShare) => {
        const [limit] = sampled(design, 'full', [limitShare]);
        if (limit === null || limit === undefined || !isDecimal(limit)) return;
        const { verdicts, result } = judged(design, limit);
        for (const [id, sign] of [
          ['S-1', 1],
          ['S-2', -1],
        ] as const) {
          const breaks = (value: Fraction | null) => value !== null && value.compare(limit) * sign > 0;
          const remark = result.analysis.requirements.find(({ requirement }) => requirement.id === id)?.criteria[0]
            ?.remark;
          if (verdicts[id] === 'met') expect(sampled(design, 'full', shares).some(breaks)).toBe(false);
          if (verdicts[id] === 'at risk' && remark !== 'not-shown')
            expect(sampled(design, 'typical', shares).some(breaks)).toBe(false);
        }
      }),
      RUNS,
    );
  });
});

/** The figure lies within its bounds, and its size within the squares of the bounds of its root. */
function expectInside(value: Fraction, ends: readonly Fraction[], root: readonly Fraction[] | null): void {
  const [low, high] = ends as readonly [Fraction, Fraction];
  expect([low.compare(value) <= 0, value.compare(high) <= 0]).toEqual([true, true]);
  const [rootLow, rootHigh] = root as readonly [Fraction, Fraction];
  expect([rootLow.mul(rootLow).compare(value.abs()) <= 0, value.abs().compare(rootHigh.mul(rootHigh)) <= 0]).toEqual([
    true,
    true,
  ]);
}

function isDecimal({ d }: Fraction): boolean {
  return 10n ** 40n % d === 0n;
}

/** Over positive figures: each kept figure only raises the value, each other one only lowers it. */
function monotone(rising: readonly string[], falling: readonly string[]): fc.Arbitrary<Node> {
  const name = (names: readonly string[]): fc.Arbitrary<Node> =>
    names.length === 0
      ? fc.integer({ min: 1, max: 5 }).map((value) => ({ op: 'number', value }))
      : fc.constantFrom(...names).map((one) => ({ op: 'name', name: one }));
  const { up } = fc.letrec<{ up: Node; down: Node }>((tie) => ({
    up: side(name(rising), tie('up'), tie('down')),
    down: side(name(falling), tie('down'), tie('up')),
  }));
  return up;
}

function side(leaf: fc.Arbitrary<Node>, same: fc.Arbitrary<Node>, other: fc.Arbitrary<Node>): fc.Arbitrary<Node> {
  return fc.oneof(
    { maxDepth: 4, depthSize: 'small' },
    leaf,
    fc.record({ op: fc.constantFrom('+' as const, '*' as const, 'min' as const, 'max' as const), a: same, b: same }),
    fc.record({ op: fc.constant('/' as const), a: same, b: other }),
    fc.record({ op: fc.constant('^' as const), a: same, exponent: fc.integer({ min: 1, max: 3 }) }),
  );
}

const monotoneDesigns: fc.Arbitrary<Design> = givens('x', 2, 6, 3).chain((facts) => {
  const names = facts.map(({ name }) => name);
  const half = Math.ceil(names.length / 2);
  return monotone(names.slice(0, half), names.slice(half)).map((root) => ({ facts, rows: [], derived: [root] }));
});

function cornerRange(design: Design, extent: 'full' | 'typical'): readonly [Fraction, Fraction] {
  const values: Fraction[] = [];
  for (let corner = 0; corner < 2 ** design.facts.length; corner += 1) {
    const value = valueAt(
      design,
      pointOf(design, extent, (at) => new Fraction((corner >> at) & 1)),
    );
    if (value !== null) values.push(value);
  }
  values.sort((a, b) => a.compare(b));
  return [values[0] as Fraction, values[values.length - 1] as Fraction];
}

describe('figures that only rise or fall in each input', () => {
  test('the worst case is attained at a corner, exactly', () => {
    fc.assert(
      fc.property(monotoneDesigns, (design) => {
        const { content } = judged(design, new Fraction(1));
        for (const extent of ['full', 'typical'] as const) {
          expect(endsOf(content, extent)?.map(String)).toEqual(cornerRange(design, extent).map(String));
        }
      }),
      MANY_RUNS,
    );
  });

  test('the verdict is that of all corners: met, at risk, unmet', () => {
    fc.assert(
      fc.property(monotoneDesigns, choices, (design, share) => {
        const limit = sampled(design, 'full', [share])[0] as Fraction;
        if (!isDecimal(limit)) return;
        const { verdicts } = judged(design, limit);
        const [full, typical] = [cornerRange(design, 'full'), cornerRange(design, 'typical')];
        expect(verdicts['S-1']).toBe(verdictOf(full[1].compare(limit), typical[1].compare(limit)));
        expect(verdicts['S-2']).toBe(verdictOf(limit.compare(full[0]), limit.compare(typical[0])));
      }),
      MANY_RUNS,
    );
  });
});

function verdictOf(worst: number, typically: number): string {
  return worst <= 0 ? 'met' : typically <= 0 ? 'at risk' : 'unmet';
}

test('a parabola: its vertex lies inside the bounds and is reached to a billionth of the width', () => {
  const wholes = fc.integer({ min: -5, max: 5 });
  fc.assert(
    fc.property(
      wholes.filter((a) => a !== 0),
      wholes,
      wholes,
      givens('x', 1, 1, -5),
      (a, b, c, [x]) => {
        const given = { ...x, spread: 'range' as const } as Design['facts'][number];
        const power: Node = { op: '^', a: { op: 'name', name: 'x0' }, exponent: 2 };
        const times = (value: number, node: Node): Node => ({ op: '*', a: { op: 'number', value }, b: node });
        const linear: Node = { op: '+', a: times(b, { op: 'name', name: 'x0' }), b: { op: 'number', value: c } };
        const design: Design = { facts: [given], rows: [], derived: [{ op: '+', a: times(a, power), b: linear }] };
        const at = (value: Fraction) => valueAt(design, new Map([['x0', value]])) as Fraction;
        const vertex = new Fraction(-b, 2 * a);
        const inside = vertex.compare(given.low) > 0 && vertex.compare(given.high) < 0 ? [at(vertex)] : [];
        const values = [at(given.low), at(given.high), ...inside].sort((p, q) => p.compare(q));
        const [low, high] = [values[0] as Fraction, values[values.length - 1] as Fraction];
        const ends = endsOf(judged(design, new Fraction(1)).content, 'full') as readonly [Fraction, Fraction];
        const slack = high.sub(low).div(1_000_000_000);
        expect(ends[0].compare(low) <= 0 && ends[0].compare(low.sub(slack)) >= 0).toBe(true);
        expect(ends[1].compare(high) >= 0 && ends[1].compare(high.add(slack)) <= 0).toBe(true);
      },
    ),
    { numRuns: 60 },
  );
});
