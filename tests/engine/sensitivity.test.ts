/** Sensitivities, shares and root sum squares: worked by hand, and from published examples. */
import { describe, expect, test } from 'vitest';
import { rootSumSquare } from '../../server/engine/rss';
import { driversOf } from '../../server/engine/sensitivity';
import * as rational from '../../server/quantity/rational';
import { checkJson } from '../../server/reports/check-json';
import { analyseFiles, analyseText, verdictsOf } from '../support/analyse';

function claimed(result: ReturnType<typeof analyseText>) {
  const claim = result.analysis.requirements[0]?.criteria[0]?.claim;
  if (claim?.type !== 'comparison') throw new Error('no comparison');
  return { term: claim.value.term, analysis: result.analysis };
}

function driversIn(facts: string, value: string) {
  const { term, analysis } = claimed(analyseText(facts, `## P-1\n- Check: \`${value}\``));
  return driversOf(analysis.lowering.extremes, term)?.map(
    ({ name, slope, share }) => [name, rational.toDouble(slope), share] as const,
  );
}

function rssIn(facts: string, value: string, limit: string) {
  const { term, analysis } = claimed(analyseText(facts, `## P-1\n- Check: \`${value} >= ${limit}\``));
  const found = rootSumSquare(analysis.product, analysis.lowering.extremes, term);
  return (
    found && [rational.toDouble(found.low as rational.Rational), rational.toDouble(found.high as rational.Rational)]
  );
}

/** JCGM 100:2008, Annex H.1, table H.1: an end gauge of 50 mm; u of each input as its half-width, kelvins as plain numbers. */
const END_GAUGE = `ls: 50000623 nm ± 25 nm
d: 215 nm ± 9.7 nm
al: 11.5e-6 ± 1.2e-6
th: -0.1 ± 0.41
da: 0 ± 0.58e-6
dt: 0 ± 0.029
l: = ls + d - ls * (da * th + al * dt)`;

describe('JCGM 100:2008, Annex H.1', () => {
  test('gum-h1-contrib: sensitivity times uncertainty of each input, in nm', () => {
    const { term, analysis } = claimed(analyseText(END_GAUGE, '## P-1\n- Check: `l >= 1 mm`'));
    const drivers = driversOf(analysis.lowering.extremes, term) ?? [];
    const half = new Map(
      [...term.support].map(({ name, full }) => [
        name,
        rational.subtract(full.high as rational.Rational, full.low as rational.Rational),
      ]),
    );
    const contribution = (name: string) => {
      const slope = drivers.find((driver) => driver.name === name)?.slope ?? rational.ZERO;
      return (Math.abs(rational.toDouble(slope)) * rational.toDouble(half.get(name) ?? rational.ZERO) * 1e9) / 2;
    };
    expect(contribution('ls')).toBeCloseTo(25, 3);
    expect(contribution('d')).toBeCloseTo(9.7, 6);
    expect(contribution('da')).toBeCloseTo(2.9000361339999996, 9);
    expect(contribution('dt')).toBeCloseTo(16.675207770500002, 9);
    expect(contribution('al')).toBe(0);
    expect(contribution('th')).toBe(0);
  });

  test('gum-h1-uc: the combined uncertainty is 32 nm (31.71 nm) about 50 000 838 nm', () => {
    const [low = 0, high = 0] = rssIn(END_GAUGE, 'l', '1 mm') ?? [];
    expect(((high - low) / 2) * 1e9).toBeCloseTo(31.710609640431848, 5);
    expect(((high + low) / 2) * 1e9).toBeCloseTo(50000838, 4);
  });
});

describe('root sum square', () => {
  test('unc-indep-sub: x − y of 10 ± 1 each is ±√2 (JCGM 100:2008, equation 10); x − x is 0', () => {
    const [low, high] = rssIn('x: 10 ± 1\ny: 10 ± 1', 'x - y', '-9') ?? [];
    expect(low).toBeCloseTo(-Math.SQRT2, 12);
    expect(high).toBeCloseTo(Math.SQRT2, 12);
    expect(rssIn('x: 10 ± 1', 'x - x', '-9')).toEqual([0, 0]);
  });

  test('stack-ficient: a published stack, 0.020 in ± 0.00794 in', () => {
    const facts = 'h: 4.020 in ± 0.005 in\na: 2.000 in ± 0.005 in\nb: 1.500 in ± 0.003 in\nc: 0.500 in ± 0.002 in';
    const [low = 0, high = 0] = rssIn(facts, 'h - a - b - c', '0.001 in') ?? [];
    expect((high - low) / 2 / 0.0254).toBeCloseTo(0.007937253933193772, 12);
    expect((high + low) / 2 / 0.0254).toBeCloseTo(0.02, 12);
  });

  test('stack-ten: ten of ±0.1 mm are ±0.316 mm, and ±1 mm in the worst case', () => {
    const names = Array.from({ length: 10 }, (_, index) => `p${index}`);
    const facts = names.map((name) => `${name}: 0 mm ± 0.1 mm`).join('\n');
    const [, high = 0] = rssIn(facts, names.join(' + '), '-5 mm') ?? [];
    expect(high * 1000).toBeCloseTo(0.31622776601683794, 12);
  });

  test('rc-cutoff-rss: a product of 5 % and 1 % is 5.099 % (relative tolerances of products)', () => {
    const [low = 0, high = 0] = rssIn('r: 1 ± 1 %\nc: 1 ± 5 %', 'r * c', '0.5') ?? [];
    expect((high - low) / 2).toBeCloseTo(0.050990195135927854, 12);
  });

  test.each([
    // A range and unequal sides stand at their worse end: 36 · 0.9 … 57 · 1.1 is the worst case, 36 − 3.6 the lower end.
    ['a range at its worse end', 'v: 36 to 57\ni: 1 ± 10 %', 'v * i', [32.4, 62.7]],
    ['unequal sides', 'a: 5 +1 / -2\nb: 5 ± 1', 'a + b', [7, 12]],
    ['a mapping', 'a: {min: 4, typ: 5, max: 6}\nb: 5 ± 1', 'a + b', [8, 12]],
    ['never outside the worst case', 'a: 5 ± 1', 'a^2', [16, 35]],
  ])('%s', (_, facts, value, expected) => {
    const [low, high] = rssIn(facts, value, '1') ?? [];
    expect(low).toBeCloseTo(expected[0] as number, 9);
    expect(high).toBeCloseTo(expected[1] as number, 9);
  });

  test.each([
    ['floor', 'a: 5 ± 1', 'floor(a)'],
    ['a condition with spread', 'a: 5 ± 1', 'if(a > 5, 1, 2)'],
    ['a kink where it stands', 'a: 0 ± 1', 'abs(a)'],
  ])('none where there is no derivative: %s', (_, facts, value) => {
    expect(rssIn(facts, value, '-9')).toBeNull();
  });

  const row = (more: string) =>
    analyseFiles({
      'product.md': `---\nrequirements: T\nparts:\n  - {id: r, m: 1 g ± 10 %, quantity: 4${more}}\n---\n## P-1\n- Check: \`sum(m over parts) <= 9 g\``,
    });

  test('items of a row move together, unless the row says that they do not', () => {
    const half = (result: ReturnType<typeof analyseText>) => {
      const { term, analysis } = claimed(result);
      const found = rootSumSquare(analysis.product, analysis.lowering.extremes, term);
      return (rational.toDouble(found?.high as rational.Rational) - 0.004) * 1000;
    };
    expect(half(row(''))).toBeCloseTo(0.4, 12);
    // √4 · 0.1 g.
    expect(half(row(', spread: independent'))).toBeCloseTo(0.2, 12);
  });
});

describe('Judge by: rss', () => {
  const facts = 'a: 5 ± 0.1\nb: 5 ± 0.1';
  const verdict = (limit: string, more = '- Judge by: rss') => {
    const result = analyseText(facts, `## P-1\n- Check: \`a + b <= ${limit}\`\n${more}`);
    return [verdictsOf(result)['P-1'], result.analysis.requirements[0]?.basis];
  };

  test('meets what the worst case leaves at risk: ±0.1414 in place of ±0.2', () => {
    expect(verdict('10.15')).toEqual(['met', 'rss']);
    expect(verdict('10.15', '')).toEqual(['at risk', 'worst-case']);
    expect(verdict('10.14')).toEqual(['at risk', 'rss']);
    expect(verdict('9.9')).toEqual(['unmet', 'rss']);
  });

  test('never for safety', () => {
    expect(verdict('10.15', '- Judge by: rss\n- Safety: yes')).toEqual(['at risk', 'worst-case']);
  });

  test('is counted apart', () => {
    const result = analyseText(facts, '## P-1\n- Check: `a + b <= 10.15`\n- Judge by: rss\n## P-2\n- Check: `a <= 6`');
    expect(checkJson(result, 'T').summary).toMatchObject({ met: 1, 'met-rss': 1, 'at-risk': 0 });
  });
});

describe('drivers', () => {
  test('by their share of the spread', () => {
    expect(driversIn('a: 10 ± 1\nb: 2 ± 0.5\nc: 7', 'a + 4 * b - c >= 0')).toEqual([
      ['b', 4, 2 / 3],
      ['a', 1, 1 / 3],
    ]);
  });

  test('what rests on one figure twice has one slope', () => {
    expect(driversIn('a: 10 ± 1', 'a * a + a >= 0')).toEqual([['a', 21, 1]]);
  });

  test('in the units of the value and of the figure, as the interface shows it', () => {
    const facts = 'cap: 8 TB\nrate: 12 Mbit/s +10 % / -0 %\nkept: = cap / (6 * rate)';
    const result = analyseText(facts, '## P-1\n- Check: `kept >= 7 d`', 'ranges');
    const json = JSON.parse(JSON.stringify(checkJson(result, 'T'))) as {
      requirements: { criteria: { rss: { min: number; max: number }; drivers: { sensitivity: number }[] }[] }[];
      facts: { name: string; allowed: unknown; needed: unknown }[];
    };
    const [criterion] = json.requirements[0]?.criteria ?? [];
    expect(criterion?.drivers).toMatchObject([{ fact: 'rate', share: 1, unit: 'd/(Mbit/s)' }]);
    expect(criterion?.drivers[0]?.sensitivity).toBeCloseTo(-0.857, 3);
    expect(criterion?.rss).toMatchObject({ min: 9.352787130564908, max: 10.2880658436214 });
    expect(json.facts.find(({ name }) => name === 'cap')).toMatchObject({
      allowed: { min: 5.98752, max: null, unit: 'TB', bindsMin: 'P-1', bindsMax: null },
      needed: [],
    });
  });
});
