/** Worst cases as `proved` keeps them: 12 significant digits of the unit, rounded outward. */
import { fromBase, toBase } from '../../quantity/conversion';
import { formatIn, withUnit } from '../../quantity/format';
import { exactNumber, magnitudeOf } from '../../quantity/format-number';
import type { Interval } from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';

const DIGITS = 12;
const SECONDS_A_DAY = rational.integer(86_400);

/** In base units. What has been rounded once stays as it is. */
export function roundedOutward({ low, high }: Interval, unit: Unit): Interval {
  return {
    low: low && rounded(low, unit, rational.floor),
    high: high && rounded(high, unit, rational.ceiling),
  };
}

/** `9.35278713056 d to 10.2880658437 d`, `{min: 36 V}`: reads back as the rounded interval. */
export function outwardText(interval: Interval, unit: Unit): string {
  const { low, high } = roundedOutward(interval, unit);
  const shown = (end: Rational) =>
    unit.point === 'date' ? formatIn(end, unit, 'nearest') : withUnit(exactNumber(fromBase(end, unit)) ?? '', unit);
  if (low === null || high === null) {
    const ends = [low && `min: ${shown(low)}`, high && `max: ${shown(high)}`].filter((end) => end !== null);
    return `{${ends.join(', ')}}`;
  }
  return rational.equals(low, high) ? shown(low) : `${shown(low)} to ${shown(high)}`;
}

function rounded(value: Rational, unit: Unit, round: (value: Rational) => Rational): Rational {
  if (unit.point === 'date') return rational.multiply(round(rational.divide(value, SECONDS_A_DAY)), SECONDS_A_DAY);
  const number = fromBase(value, unit);
  if (rational.sign(number) === 0) return value;
  const scale = rational.powerOfTen(DIGITS - 1 - magnitudeOf(number));
  return toBase(rational.divide(round(rational.multiply(number, scale)), scale), unit);
}
