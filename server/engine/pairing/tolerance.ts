/** Tolerances: N ± t, N +a / −b, ±t about zero, ±t of N; ends in % are ratios, of a percentage they are points. */
import * as dimensions from '../../quantity/dimension';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import { readAmount, signAt } from './amount';
import { type Context, keyAt, touchesNext } from './context';
import { withUnit } from './ends';
import type { Amount, Figure } from './figure';

/** Two deviations with their signs; for ± the same one twice. */
interface Deviations {
  readonly first: Amount;
  readonly second: Amount;
  readonly next: number;
  readonly end: number;
  readonly doubt: string | null;
}

/** `N ± t` or `N +a / −b` where `nominal` is N; null when no tolerance follows. */
export function readTolerance(context: Context, nominal: Amount): Figure | null {
  const at = keyAt(context, nominal.next) === ',' ? nominal.next + 1 : nominal.next;
  const found = readPlusMinus(context, at) ?? (at === nominal.next ? readSignedPair(context, at) : null);
  const { first, start } = nominal;
  if (found) return toleranceFigure(nominal, found, { first, start, next: found.next, end: found.end });
  const isLoose = signAt(context, nominal.next) !== null && context.tokens[nominal.next]?.start !== nominal.end;
  if (!isLoose || !touchesNext(context, nominal.next)) return null;
  const second = readAmount(context, nominal.next);
  return second && looseFigure(nominal, second);
}

/** `±t`, `to ±t`, `+a / −b`, `±t of N` with nothing before it. */
export function readZeroTolerance(context: Context, index: number): Figure | null {
  const isTo = keyAt(context, index) === 'to' && isPlusMinus(context, index + 1) !== null;
  const at = isTo ? index + 1 : index;
  const found = readPlusMinus(context, at) ?? readSignedPair(context, at);
  if (!found) return null;
  const start = context.tokens[index]?.start ?? 0;
  const nominalAt = keyAt(context, found.next) === 'of' ? found.next + 1 : null;
  const nominal = nominalAt === null ? null : readAmount(context, nominalAt);
  if (nominal) return toleranceFigure(nominal, found, { first: index, start, next: nominal.next, end: nominal.end });
  const isOfCode = nominalAt !== null && context.tokens[nominalAt]?.type === 'code';
  return zeroFigure(found, { first: index, start, next: found.next, end: found.end }, isOfCode);
}

/** "within 5 % of 12 V", where the figure before *of* may be a tolerance. */
export function distanceFigure([width, nominal]: readonly [Amount, Amount], first: number, start: number): Figure {
  const below = { ...width, number: rational.negate(width.number) };
  const deviations: Deviations = { first: below, second: width, next: nominal.next, end: nominal.end, doubt: DISTANCE };
  return toleranceFigure(nominal, deviations, { first, start, next: nominal.next, end: nominal.end });
}

const DISTANCE = 'is a distance from another figure: write “N ± t” or both ends';

function isPlusMinus(context: Context, index: number): number | null {
  const key = keyAt(context, index);
  if (key === '±' || key === '+/-') return index + 1;
  return key === 'plus' && keyAt(context, index + 1) === 'or' && keyAt(context, index + 2) === 'minus'
    ? index + 3
    : null;
}

function readPlusMinus(context: Context, index: number): Deviations | null {
  const at = isPlusMinus(context, index);
  const width = at === null ? null : readAmount(context, at);
  if (!width) return null;
  const below = { ...width, number: rational.negate(width.number) };
  return { first: below, second: width, next: width.next, end: width.end, doubt: width.doubt };
}

/** `+5 % / −10 %`, `+5/−10 %`, `−10/+5 %`, `−1 % / −3 %`. */
function readSignedPair(context: Context, index: number): Deviations | null {
  const first = readSigned(context, index);
  if (!first || !['/', ','].includes(keyAt(context, first.next))) return null;
  const second = readSigned(context, first.next + 1);
  const isList = keyAt(context, first.next) === ',';
  if (!second || (isList && rational.sign(first.number) === rational.sign(second.number))) return null;
  const shared = withUnit(first, second.unit);
  const isHalf = shared.unit !== null && second.unit === null;
  const doubt = isHalf ? 'has a unit at its first end only: write it at both' : (shared.doubt ?? second.doubt);
  return { first: shared, second, next: second.next, end: second.end, doubt };
}

function readSigned(context: Context, index: number): Amount | null {
  return signAt(context, index) === null ? null : readAmount(context, index);
}

/** The amount as a length in base units, without the zero of its scale; signed. */
function lengthOf({ number, unit }: Amount): Rational {
  return unit ? rational.multiply(number, unit.factor) : number;
}

/** Where a figure was written. */
interface Extent {
  readonly first: number;
  readonly start: number;
  readonly next: number;
  readonly end: number;
}

function toleranceFigure(written: Amount, deviations: Deviations, extent: Extent): Figure {
  const nominal = withUnit(written, isRatio(deviations.second.unit) ? null : deviations.second.unit);
  const ends = [deviationOf(nominal, deviations.first), deviationOf(nominal, deviations.second)] as const;
  const low = rational.minimum(ends[0] ?? rational.ZERO, ends[1] ?? rational.ZERO);
  const high = rational.maximum(ends[0] ?? rational.ZERO, ends[1] ?? rational.ZERO);
  const mismatch = ends.includes(null) ? 'has a tolerance in a unit that does not compare' : null;
  return {
    ...emptyFigure,
    ...extent,
    form: 'tolerance',
    low: rational.add(nominal.value, low),
    high: rational.add(nominal.value, high),
    lowUnit: nominal.unit,
    highUnit: nominal.unit,
    halfPlace: nominal.halfPlace,
    doubt: written.doubt ?? deviations.doubt ?? doubtOfRatio(written, nominal, deviations) ?? mismatch,
  };
}

function zeroFigure({ first, second, doubt }: Deviations, extent: Extent, isOfCode: boolean): Figure {
  const ends = [lengthOf(first), lengthOf(second)] as const;
  return {
    ...emptyFigure,
    ...extent,
    form: 'around-zero',
    low: rational.minimum(...ends),
    high: rational.maximum(...ends),
    lowUnit: first.unit,
    highUnit: second.unit,
    halfPlace: second.halfPlace,
    doubt: doubt ?? (isOfCode ? 'is a tolerance about another fact: write both ends' : null),
  };
}

/** `5 V -10 V`: a sign that belongs to the second number, and nothing that connects the two. */
function looseFigure(low: Amount, high: Amount): Figure {
  return {
    ...emptyFigure,
    form: 'ends',
    start: low.start,
    end: high.end,
    low: low.value,
    high: high.value,
    lowUnit: low.unit ?? high.unit,
    highUnit: high.unit,
    halfPlace: high.halfPlace,
    doubt: 'may be a range, a tolerance or two figures: write "A to B", "± t" or "+a / -b"',
    first: low.first,
    next: high.next,
  };
}

/** In base units; null when the deviation's unit does not compare with the nominal's. */
function deviationOf(nominal: Amount, deviation: Amount): Rational | null {
  if (isRatio(deviation.unit) && !isRatio(nominal.unit)) {
    return rational.multiply(rational.absolute(nominal.value), lengthOf(deviation));
  }
  if (deviation.unit === null || nominal.unit === null) {
    return deviation.unit === nominal.unit ? lengthOf(deviation) : null;
  }
  return dimensions.isComparable(deviation.unit.dimension, nominal.unit.dimension) ? lengthOf(deviation) : null;
}

function doubtOfRatio(written: Amount, nominal: Amount, { second }: Deviations): string | null {
  if (!isRatio(second.unit)) return null;
  if (written.unit === null) return 'has a tolerance in % or ppm but no unit of its own: write its unit';
  const isPoint = nominal.unit?.point === 'temperature' || nominal.unit?.point === 'level';
  return isPoint ? 'has a percentage of a point on a scale: write the tolerance in its unit' : null;
}

/** %, ppm and the like: a plain number with a factor of its own. */
export function isRatio(unit: Unit | null): boolean {
  return unit !== null && unit.dimension === dimensions.DIMENSIONLESS && !rational.equals(unit.factor, rational.ONE);
}

const emptyFigure = {
  base: null,
  spelled: false,
  isOne: false,
  provisional: false,
  contradiction: null,
} as const;
