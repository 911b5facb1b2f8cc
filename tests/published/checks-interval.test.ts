/** Interval arithmetic against the published elementary cases of IEEE Std 1788-2015 (ITF1788, libieeep1788_tests_elem.itl). */
import { describe, expect, test } from 'vitest';
import type { Interval } from '../../server/quantity/interval';
import * as interval from '../../server/quantity/interval';
import { fromDecimal, ONE, type Rational } from '../../server/quantity/rational';

/** `[1.0, infinity]`; an infinite end is an open one. */
function read(text: string): Interval {
  const [low = '', high = ''] = text.replace(/[[\]\s]/g, '').split(',');
  const end = (word: string): Rational | null => (word.includes('infinity') ? null : fromDecimal(word));
  return { low: end(low), high: end(high) };
}

const UNIT = interval.point(ONE);

const OPERATIONS: Readonly<Record<string, (a: Interval, b: Interval) => Interval | null>> = {
  add: interval.add,
  sub: interval.subtract,
  mul: interval.multiply,
  div: interval.divide,
  sqr: (a) => interval.power(a, 2),
  abs: interval.absolute,
  min: interval.minimum,
  max: interval.maximum,
  recip: (a) => interval.divide(UNIT, a),
};

describe('cases of the standard that agree', () => {
  test.each([
    ['itl-01', 'add', '[1.0,2.0]', '[3.0,4.0]', '[4.0,6.0]'],
    ['itl-03', 'add', '[-infinity,2.0]', '[3.0,4.0]', '[-infinity,6.0]'],
    ['itl-04', 'sub', '[1.0,2.0]', '[3.0,4.0]', '[-3.0,-1.0]'],
    ['itl-05', 'sub', '[0.0,0.0]', '[-3.0,4.0]', '[-4.0,3.0]'],
    ['itl-08', 'mul', '[-infinity,-3.0]', '[-5.0,-1.0]', '[3.0,infinity]'],
    ['itl-09', 'div', '[-30.0,-15.0]', '[-5.0,-3.0]', '[3.0,10.0]'],
    ['itl-10', 'div', '[-30.0,15.0]', '[3.0,5.0]', '[-10.0,5.0]'],
    ['itl-15', 'sqr', '[-1.0,1.0]', '[0,0]', '[0.0,1.0]'],
    ['itl-17', 'abs', '[-1.1,2.0]', '[0,0]', '[0.0,2.0]'],
    ['itl-19', 'min', '[1.0,5.0]', '[2.0,8.0]', '[1.0,5.0]'],
  ])('%s: %s %s %s is %s', (_, operation, a, b, expected) => {
    expect(OPERATIONS[operation]?.(read(a), read(b))).toEqual(read(expected));
  });
});

describe('cases where the product claims nothing', () => {
  // The standard gives the empty set, or all numbers; a figure of a design then has no value, and is asked about.
  test.each([
    ['itl-11', 'div', '[-30.0,-15.0]', '[0.0,0.0]'],
    ['itl-20', 'recip', '[-10.0,10.0]', '[0,0]'],
  ])('%s: %s %s %s', (_, operation, a, b) => {
    expect(OPERATIONS[operation]?.(read(a), read(b))).toBeNull();
  });
});
