/** Headrooms as people write them. */
import { describe, expect, test } from 'vitest';
import { readHeadroom } from '../../server/model/headroom';
import * as rational from '../../server/quantity/rational';
import { createUnitTable } from '../../server/quantity/unit-table';

const units = createUnitTable();
const number = (text: string) => rational.fromDecimal(text) as rational.Rational;

describe('a headroom', () => {
  test.each([
    ['100 %', '1'],
    ['50%', '0.5'],
    ['0 %', '0'],
    ['500 ppm', '0.0005'],
  ])('%s is a share', (text, share) => {
    expect(readHeadroom(text, units)).toEqual({ type: 'share', share: number(share) });
  });

  test.each([
    ['5 W', '5'],
    ['2', '2'],
    ['5 K', '5'],
    ['5 °C', '5'],
    ['3 dB', '3'],
  ])('%s is a distance', (text, distance) => {
    expect(readHeadroom(text, units)).toMatchObject({ type: 'distance', distance: number(distance) });
  });

  test.each(['', 'generous', '-5 W', '5 W to 10 W', '10 % ± 1 %', '2026-10-02', 'fifty'])('“%s” is none', (text) => {
    expect(readHeadroom(text, units).type).toBe('bad');
  });
});
