/** Two ends: between A and B, from A to B, A to B, A through B, A–B, A..B, A…B. */
import * as dimensions from '../../quantity/dimension';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import { signAt } from './amount';
import { type Context, keyAt, touchesNext } from './context';
import type { Amount, Figure } from './figure';

type ReadAmount = (context: Context, index: number) => Amount | null;

const DASHES: ReadonlySet<string> = new Set(['-', '–', '—', '‐', '‑', '−']);
const DOTS: ReadonlySet<string> = new Set(['…', '..', '...', '⋯']);

/** The range that begins with `low`, or null when no second end is connected to it. */
export function readConnected(context: Context, low: Amount, read: ReadAmount, lead: string): Figure | null {
  const at = secondEnd(context, low, lead);
  const high = at === null ? null : read(context, at);
  return high && endsFigure(low, high, doubtOfChain(context, high));
}

/** "within 5 % of 12 V": a tolerance about the second figure, but not said so; it is shown as one and asked about. */
export function readDistance(
  context: Context,
  width: Amount,
  read: ReadAmount,
  lead: string,
): readonly [Amount, Amount] | null {
  if (lead !== 'within' || keyAt(context, width.next) !== 'of') return null;
  const nominal = read(context, width.next + 1);
  return nominal && [width, nominal];
}

/** Token at which the second end begins. */
function secondEnd(context: Context, low: Amount, lead: string): number | null {
  const key = keyAt(context, low.next);
  if (key === 'to' || key === 'through' || DOTS.has(key)) return low.next + 1;
  if (key === 'and' && (lead === 'between' || lead === 'within')) return low.next + 1;
  if (!DASHES.has(key)) return null;
  const touchesBefore = touchesNext(context, low.next - 1) || context.tokens[low.next]?.start === low.end;
  // `5 V -10 V` is a sign without a connection; a dash has the same space on both sides.
  if (touchesBefore !== touchesNext(context, low.next)) return null;
  return low.next + 1;
}

/** "5 W to 10 W to 20 W" leaves open which ends count. */
function doubtOfChain(context: Context, high: Amount): string | null {
  const isConnected = keyAt(context, high.next) === 'to' || DOTS.has(keyAt(context, high.next));
  return isConnected && signOrNumber(context, high.next + 1) ? 'has more than two ends: write one range' : null;
}

function signOrNumber(context: Context, index: number): boolean {
  return context.tokens[index]?.type === 'number' || signAt(context, index) !== null;
}

function endsFigure(first: Amount, second: Amount, doubt: string | null): Figure {
  const low = withUnit(first, second.unit);
  return {
    form: 'ends',
    start: first.start,
    end: second.end,
    low: low.value,
    high: second.value,
    lowUnit: low.unit,
    highUnit: second.unit,
    halfPlace: rational.maximum(low.halfPlace, second.halfPlace),
    base: null,
    doubt: first.doubt ?? second.doubt ?? doubt ?? doubtOfEnds(low, second),
    first: first.first,
    next: second.next,
    spelled: false,
    isOne: false,
    provisional: false,
    contradiction: null,
  };
}

/** A range shares the unit of its last number. */
export function withUnit(amount: Amount, unit: Unit | null): Amount {
  if (amount.unit !== null || unit === null) return amount;
  const value = rational.add(rational.multiply(amount.number, unit.factor), unit.offset);
  return { ...amount, unit, value, halfPlace: rational.absolute(rational.multiply(amount.halfPlace, unit.factor)) };
}

/** The figure of "at least 36" in "at least 36 and at most 57 V". */
export function withUnitOf(figure: Figure, other: Figure): Figure {
  if (figure.lowUnit !== null || figure.form !== 'plain' || other.lowUnit === null) return figure;
  const value = rational.add(rational.multiply(figure.low, other.lowUnit.factor), other.lowUnit.offset);
  return { ...figure, low: value, high: value, lowUnit: other.lowUnit, highUnit: other.lowUnit };
}

function doubtOfEnds(low: Amount, high: Amount): string | null {
  if (low.unit !== null && high.unit === null) return 'has a unit at its first end only: write it at the last';
  const isAlike =
    low.unit === null ||
    high.unit === null ||
    (dimensions.isComparable(low.unit.dimension, high.unit.dimension) && low.unit.point === high.unit.point);
  if (!isAlike) return 'has ends in units that do not compare';
  return rational.compare(low.value, high.value) > 0 ? 'has its ends in the wrong order' : null;
}
