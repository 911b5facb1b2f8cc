/** Designs whose figures are published or worked by hand: each must come to its value, exactly unless a slack is named. */
import Fraction from 'fraction.js';
import { describe, expect, test } from 'vitest';
import { fromBase } from '../../server/quantity/conversion';
import type { Rational } from '../../server/quantity/rational';
import { UNITY, type Unit } from '../../server/quantity/unit';
import { createUnitTable } from '../../server/quantity/unit-table';
import { analyseText } from '../support/analyse';
import { BUDGETS, EXACTNESS, POWER, type PublishedCheck, RATES, TOLERANCES } from './checks.fixture';

const units = createUnitTable();

function unitOf(symbol: string): Unit {
  const found = symbol === '1' ? UNITY : units.scan(symbol, 0)?.unit;
  if (found === undefined) throw new Error(`${symbol} is no unit`);
  return found;
}

function worstCase({ facts, result, unit }: PublishedCheck): readonly Fraction[] {
  const lines = Object.entries(facts).map(([name, value]) => `${name}: ${value}`);
  const { analysis, findings } = analyseText([...lines, `result: = ${result}`].join('\n'), '');
  const content = analysis.facts.find(({ fact }) => fact.name === 'result')?.values[0]?.content;
  if (content?.type !== 'quantity') throw new Error(findings.map(({ message }) => message).join('; '));
  const shown = unitOf(unit);
  expect(content.dimension.base).toEqual(shown.dimension.base);
  return [content.full.low, content.full.high].map((end) => {
    const { numerator, denominator } = fromBase(end as Rational, shown);
    return new Fraction(numerator, denominator);
  });
}

function expectValue(published: PublishedCheck): void {
  const found = worstCase(published);
  const expected = [published.low, published.high ?? published.low].map((text) => new Fraction(text));
  for (const [index, end] of expected.entries()) {
    const actual = found[index] as Fraction;
    if (published.within === undefined) expect(actual.toFraction()).toBe(end.toFraction());
    else expect(Math.abs(actual.div(end).valueOf() - 1)).toBeLessThan(published.within);
  }
}

describe.each([...EXACTNESS, ...TOLERANCES, ...POWER, ...RATES, ...BUDGETS])('$source', ({ checks }) => {
  test.each(checks.map((published) => [published.id, published] as const))('%s', (_, published) => {
    expectValue(published);
  });
});

test('a value that is off by a billionth is found out', () => {
  const byId = (id: string): PublishedCheck => {
    const all = [...TOLERANCES, ...RATES].flatMap(({ checks }) => checks);
    return all.find((one) => one.id === id) as PublishedCheck;
  };
  expect(() => expectValue({ ...byId('rfc5180-100M-64'), low: '148810', high: '148810' })).toThrow();
  expect(() => expectValue({ ...byId('stack-housing'), low: '0.005000000001' })).toThrow();
  expect(() => expectValue({ ...byId('wca-speed'), low: '17.9788764' })).toThrow();
});
