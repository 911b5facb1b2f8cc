/** Tolerances behind a value: `± 5 %`, `+/- 0.1 V`, `+5 % / -10 %`. */

import * as dimensions from '../../quantity/dimension';
import { SPACE_CLASS } from '../../quantity/fold';
import { matchAt } from '../../quantity/match-at';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { UNITY, type Unit } from '../../quantity/unit';
import { asLength, haveSameRates } from '../../quantity/unit-arithmetic';
import type { UnitTable } from '../../quantity/unit-table';
import type { Form } from '../../quantity/value';
import { type Amount, scanAmount } from './amount';
import type { NumberForms } from './number';

/** What was written behind the value; both parts are magnitudes as they stand. */
export interface WrittenTolerance {
  readonly type: 'symmetric' | 'asymmetric';
  readonly above: Amount;
  readonly below: Amount;
  readonly end: number;
}

/** How far the value may move, in base units. */
export interface Deviation {
  readonly above: Rational;
  readonly below: Rational;
  readonly form: Form;
  readonly problems: readonly string[];
}

const SYMMETRIC = new RegExp(`[${SPACE_CLASS}]*(?:±|\\+/[-\\u2212])[${SPACE_CLASS}]*`, 'y');
const FIRST_SIGN = new RegExp(`[${SPACE_CLASS}]*([-+\\u2212])(?=\\d)`, 'y');
const SECOND_SIGN = new RegExp(`[${SPACE_CLASS}]*/[${SPACE_CLASS}]*([-+\\u2212])(?=\\d)`, 'y');

/** The tolerance that begins at `offset`. Signs touch their numbers and both parts are there, so that `5 V + 5 V` stays a sum. */
export function scanTolerance(text: string, offset: number, units: UnitTable, prose: boolean): WrittenTolerance | null {
  const forms: NumberForms = { signed: false, prose };
  const symmetric = matchAt(SYMMETRIC, text, offset);
  if (symmetric) {
    const width = scanAmount(text, offset + symmetric[0].length, units, forms);
    return width && { type: 'symmetric', above: width, below: width, end: width.end };
  }
  const sign = matchAt(FIRST_SIGN, text, offset);
  const first = sign && scanAmount(text, offset + sign[0].length, units, forms);
  const secondSign = first && matchAt(SECOND_SIGN, text, first.end);
  const second = secondSign && scanAmount(text, first.end + secondSign[0].length, units, forms);
  if (!second || (sign[1] === '+') === (secondSign[1] === '+')) return null;
  const [above, below] = sign[1] === '+' ? [first, second] : [second, first];
  return { type: 'asymmetric', above, below, end: second.end };
}

/**
 * Works the tolerance out for a value of `number` × `unit`. In % or ppm it is a ratio of the value, unless the value is
 * itself in such a unit: then it is points of it.
 */
export function deviationOf(written: WrittenTolerance, number: Rational, unit: Unit): Deviation {
  const aboveUnit = written.above.unit ?? unitOfZero(written.above, written.below);
  const belowUnit =
    written.below.unit ?? (written.type === 'symmetric' ? aboveUnit : unitOfZero(written.below, written.above));
  const problem = problemOf(aboveUnit, belowUnit, number, unit);
  const outOfRange =
    written.type === 'symmetric' ? written.above.problems : [...written.above.problems, ...written.below.problems];
  const problems = [...outOfRange, ...(problem === null ? [] : [problem])];
  const ratio = isRatioUnit(aboveUnit) && !isRatioUnit(unit);
  const of = ratio ? rational.absolute(rational.multiply(number, unit.factor)) : rational.ONE;
  return {
    above: rational.multiply(of, rational.multiply(written.above.number, (aboveUnit ?? UNITY).factor)),
    below: rational.multiply(of, rational.multiply(written.below.number, (belowUnit ?? UNITY).factor)),
    form: { type: written.type, ratio },
    problems,
  };
}

/** %, ppm, %RH and the like: a plain part of one. */
export function isRatioUnit(unit: Unit | null): boolean {
  return unit !== null && unit.dimension.base.size === 0 && rational.compare(unit.factor, rational.ONE) < 0;
}

/** In `+0.1 V / -0` and `+0.1 / -0.05 V` one unit stands for both parts. */
function unitOfZero(part: Amount, other: Amount): Unit | null {
  const standsBehind = other.end > part.end;
  return rational.sign(part.number) === 0 || standsBehind ? other.unit : null;
}

function problemOf(above: Unit | null, below: Unit | null, number: Rational, unit: Unit): string | null {
  const isPlain = unit.dimension === dimensions.DIMENSIONLESS && !isRatioUnit(unit);
  if ((above === null || below === null) && !isPlain)
    return `the tolerance needs a unit: ± … ${asLength(unit).symbol}, or %`;
  if (isRatioUnit(above) !== isRatioUnit(below)) return 'both parts of a tolerance are in %, or neither is';
  if (isRatioUnit(above) && !isRatioUnit(unit)) {
    if (unit.point !== null)
      return 'a percentage of a temperature, level or date depends on where its zero lies: give the tolerance as a difference';
    return rational.sign(number) === 0 ? 'a percentage of 0 is no tolerance' : null;
  }
  return unitProblem(above, unit) ?? unitProblem(below, unit);
}

function unitProblem(width: Unit | null, unit: Unit): string | null {
  if (width === null || (dimensions.isComparable(width.dimension, unit.dimension) && haveSameRates(width, unit)))
    return null;
  return `a tolerance in ${width.symbol} does not fit a value in ${unit.symbol}`;
}
