/** One number with its unit, and durations that add up. */
import { toBase } from '../../quantity/conversion';
import * as dimensions from '../../quantity/dimension';
import { SPACE_CLASS } from '../../quantity/fold';
import { matchAt } from '../../quantity/match-at';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { UNITY, type Unit } from '../../quantity/unit';
import type { UnitTable } from '../../quantity/unit-table';
import { type NumberForms, scanNumber } from './number';

/** A number as it stands, not yet in base units; `unit` is null when none follows. */
export interface Amount {
  readonly number: Rational;
  readonly unit: Unit | null;
  readonly end: number;
  readonly problems: readonly string[];
}

const SPACES = new RegExp(`[${SPACE_CLASS}]*`, 'y');
const SPACES_THEN_DIGIT = new RegExp(`[${SPACE_CLASS}]+(?=\\d)`, 'y');
/** Letters that touch a number and are no unit, or a hyphen with a letter, make the whole no number: 4k7, 3-pin. */
const TOUCHING = /[\p{L}\p{M}_°º]|-\p{L}/uy;
const TIME = dimensions.dimension({ time: 1 });

/** A number and the unit after it; null when no number stands at `offset`, or one that is part of a name. */
export function scanAmount(text: string, offset: number, units: UnitTable, forms: NumberForms): Amount | null {
  const number = scanNumber(text, offset, forms);
  if (!number) return null;
  const scanned = units.scan(text, offsetAfterSpaces(text, number.end));
  if (!scanned && (number.isFraction || matchAt(TOUCHING, text, number.end))) return null;
  return {
    number: number.value ?? rational.ZERO,
    unit: scanned?.unit ?? null,
    end: scanned?.end ?? number.end,
    problems: number.value ? [] : ['numbers lie within ±10^99'],
  };
}

/** As {@link scanAmount}; hours, minutes and seconds that follow one another are added: `1 min 30 s`, in the last one's unit. */
export function scanSum(text: string, offset: number, units: UnitTable, forms: NumberForms): Amount | null {
  let sum = scanAmount(text, offset, units, forms);
  const isNegative = sum !== null && rational.sign(sum.number) < 0;
  while (sum?.unit && sum.unit.dimension === TIME) {
    const next = nextOfDuration(text, sum, sum.unit, units, forms);
    if (!next?.unit) break;
    const part = isNegative ? rational.negate(next.number) : next.number;
    const total = rational.add(toBase(sum.number, sum.unit), toBase(part, next.unit));
    sum = { ...next, number: rational.divide(total, next.unit.factor), problems: [...sum.problems, ...next.problems] };
  }
  return sum;
}

/** The unit that a number without one is in. */
export function unitOf(amount: Amount): Unit {
  return amount.unit ?? UNITY;
}

function nextOfDuration(text: string, before: Amount, unit: Unit, units: UnitTable, forms: NumberForms): Amount | null {
  const gap = matchAt(SPACES_THEN_DIGIT, text, before.end);
  const next = gap && scanAmount(text, before.end + gap[0].length, units, { ...forms, signed: false });
  if (!next?.unit || next.unit.dimension !== TIME) return null;
  return rational.compare(next.unit.factor, unit.factor) < 0 ? next : null;
}

export function offsetAfterSpaces(text: string, offset: number): number {
  return offset + (matchAt(SPACES, text, offset)?.[0].length ?? 0);
}
