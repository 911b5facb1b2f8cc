/** The figures of a criterion: its worst case, margin and surplus, in base units. */
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import type { Rational } from '../../server/quantity/rational';
import { analyseText } from '../support/analyse';

const FACTS = `draw: 45 W
risky: 58 W ± 5 %
retention: 9 d
ambient: -20 °C to 60 °C
input: 36 V to 57 V
rail: 5 V ± 2 %
loss: -3 W
zero: 0 W
launch: 2026-10-02
open: {typ: 1 A, max: 2 A}
ports: 6`;

function figuresOf(check: string) {
  const { analysis } = analyseText(FACTS, `## F-1\n- Check: \`${check}\``);
  const [criterion] = analysis.requirements[0]?.criteria ?? [];
  return criterion?.figures ?? null;
}

function text(value: Rational | null | undefined): string | null {
  return value == null ? null : new Fraction(value.numerator, value.denominator).toFraction();
}

describe('margin: the worst-case distance to the limit, negative when broken', () => {
  test.each([
    ['draw <= 60 W', '15'],
    ['60 W >= draw', '15'],
    ['draw <= 40 W', '-5'],
    ['draw <= 45 W', '0'],
    ['draw < 45 W', '0'],
    ['draw >= 40 W', '5'],
    ['draw > 45 W', '0'],
    ['draw = 45 W', '0'],
    ['draw = 44 W', '-1'],
    ['risky <= 60 W', '-9/10'],
    ['risky >= 50 W', '51/10'],
    ['risky = 58 W', '-29/10'],
    ['ambient <= 70 °C', '10'],
    ['ambient >= -30 °C', '10'],
    ['ambient <= 55 °C', '-5'],
    ['retention >= 7 d', '172800'],
    ['launch <= 2026-10-04', '172800'],
    ['rail within 4.8 V to 5.5 V', '1/10'],
    ['rail within 4.95 V to 5.5 V', '-1/20'],
    ['input spans 40 V to 50 V', '4'],
    ['input spans 30 V to 50 V', '-6'],
    ['risky - draw <= 20 W', '41/10'],
    ['draw != 60 W', null],
    ['open >= 0 A', null],
    ['draw <= 60 W or draw >= 70 W', undefined],
  ])('%s: %s', (check, margin) => {
    const figures = figuresOf(check);
    expect(figures === null ? undefined : text(figures.margin)).toBe(margin);
  });

  test('of two ends both are told, the smaller is the margin', () => {
    const figures = figuresOf('rail within 4.8 V to 5.5 V');
    expect([text(figures?.margins?.low), text(figures?.margins?.high)]).toEqual(['1/10', '2/5']);
    const spans = figuresOf('input spans 40 V to 50 V');
    expect([text(spans?.margins?.low), text(spans?.margins?.high)]).toEqual(['4', '7']);
  });
});

describe('surplus: by how much more than asked, as a share', () => {
  test.each([
    ['retention >= 6 d', '1/2'],
    ['retention >= 9 d', '0'],
    ['draw <= 60 W', '1/3'],
    ['draw <= 40 W', '-1/9'],
    ['risky <= 87 W', '3/7'],
    ['ports >= 4', '1/2'],
    // None on a scale without a true zero, at zero and below it, for two ends and for =.
    ['ambient <= 70 °C', null],
    ['launch <= 2027-01-01', null],
    ['loss <= 0 W', null],
    ['zero >= -1 W', null],
    ['zero <= 5 W', null],
    ['rail within 4.8 V to 5.5 V', null],
    ['input spans 40 V to 50 V', null],
    ['draw = 45 W', null],
  ])('%s: %s', (check, surplus) => {
    expect(text(figuresOf(check)?.surplus)).toBe(surplus);
  });
});

describe('the worst case and the typical value', () => {
  test.each([
    ['risky <= 60 W', ['551/10', '609/10'], ['58', '58']],
    ['ambient - ambient.min <= 100 K', ['0', '80'], ['0', '80']],
    ['input * 1 A <= 60 W', ['36', '57'], ['36', '57']],
    ['input * (1 A ± 10 %) <= 70 W', ['162/5', '627/10'], ['36', '57']],
  ])('%s', (check, value, typical) => {
    const figures = figuresOf(check);
    expect([text(figures?.value.low), text(figures?.value.high)]).toEqual(value);
    expect([text(figures?.typical.low), text(figures?.typical.high)]).toEqual(typical);
  });

  test.each([
    ['draw <= 60 W', 'W'],
    ['draw <= 0.06 kW', 'kW'],
    ['ambient <= 140 °F', '°F'],
    ['draw <= risky', 'W'],
    ['retention >= 1 week', 'week'],
  ])('%s is shown in %s', (check, unit) => {
    expect(figuresOf(check)?.unit.symbol).toBe(unit);
  });
});

describe('what a criterion rests on', () => {
  test('every given figure below it, and the names between', () => {
    const facts = 'a: 1 W\nb: = a * 2\nc: = b + d\nd: 3 W\nunused: 5 W';
    const { analysis } = analyseText(facts, '## F-1\n- Check: `c <= 60 W`');
    expect([...(analysis.requirements[0]?.uses ?? [])].sort()).toEqual(['a', 'b', 'c', 'd']);
  });
});
