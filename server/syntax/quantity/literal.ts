/** Quantity literals: a number with its unit and tolerance, or a date. */
import { DATE, dateToBase, daysInMonth } from '../../quantity/calendar';
import { toBase } from '../../quantity/conversion';
import { matchAt } from '../../quantity/match-at';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import type { UnitTable } from '../../quantity/unit-table';
import type { Form, QuantityValue } from '../../quantity/value';
import { scanSum, unitOf } from './amount';
import type { NumberForms } from './number';
import { deviationOf, isRatioUnit, scanTolerance, type WrittenTolerance } from './tolerance';

export interface LiteralOptions {
  /** A sign may stand directly before the first digit. */
  readonly signed: boolean;
}

export interface ScannedLiteral {
  readonly value: QuantityValue;
  /** Offset after its last character. */
  readonly end: number;
  /** What is wrong with it, each a message; the value then stands in for the one that could not be read. */
  readonly problems: readonly string[];
}

/**
 * The literal that begins at `offset` of an expression, or null where none does: `5 V ± 5 %`, `1 min 30 s`, `1e-3`,
 * `2026-10-02`. Digits that belong to a name or a version (4k7, 88E15, 1.2.3) are none.
 */
export function scanLiteral(
  text: string,
  offset: number,
  units: UnitTable,
  options: LiteralOptions,
): ScannedLiteral | null {
  return scanQuantity(text, offset, units, { signed: options.signed, prose: false });
}

/** As {@link scanLiteral}, in the forms of numbers that the caller allows. */
export function scanQuantity(
  text: string,
  offset: number,
  units: UnitTable,
  forms: NumberForms,
): ScannedLiteral | null {
  const date = scanDate(text, offset);
  const amount = date ?? scanSum(text, offset, units, forms);
  if (!amount) return null;
  const tolerance = scanTolerance(text, amount.end, units, forms.prose);
  if (!tolerance) {
    const value = exactly(toBase(amount.number, unitOf(amount)), unitOf(amount));
    return { value, end: amount.end, problems: amount.problems };
  }
  const unit = amount.unit ?? sharedUnit(tolerance) ?? unitOf(amount);
  const deviation = deviationOf(tolerance, amount.number, unit);
  const shown = unitThatShows(amount.number, unit, tolerance);
  return {
    value: around(toBase(amount.number, unit), deviation.above, deviation.below, shown, deviation.form),
    end: tolerance.end,
    problems: [...amount.problems, ...deviation.problems],
  };
}

export function exactly(base: Rational, unit: Unit): QuantityValue {
  return { type: 'quantity', spread: 'exact', low: base, typical: base, high: base, unit, form: { type: 'plain' } };
}

/** The candidate in which the numbers have the fewest digits; the first one when decimals end in none of them. */
export function shortestUnit(
  candidates: readonly Unit[],
  numbers: (unit: Unit) => readonly Rational[],
): Unit | undefined {
  const lengths = candidates.map((unit) => numbers(unit).reduce((sum, number) => sum + decimalLength(number), 0));
  return candidates[lengths.indexOf(Math.min(...lengths))];
}

function decimalLength(number: Rational): number {
  return rational.toExactDecimal(number, 40)?.length ?? Number.MAX_SAFE_INTEGER / 100;
}

function around(typical: Rational, above: Rational, below: Rational, unit: Unit, form: Form): QuantityValue {
  const low = rational.subtract(typical, below);
  return { type: 'quantity', spread: 'tolerance', low, typical, high: rational.add(typical, above), unit, form };
}

/** `3.3 ± 0.1 V` gives both in volts; a ratio says nothing of the value's unit. */
function sharedUnit({ above, below }: WrittenTolerance): Unit | null {
  const unit = above.unit ?? below.unit;
  return isRatioUnit(unit) ? null : unit;
}

/** `5 ft ± 1 m` is written back in metres: a metre has no end to its decimals in feet. */
function unitThatShows(number: Rational, unit: Unit, { above, below }: WrittenTolerance): Unit {
  const widths = [above, below].filter(({ unit: own }) => own !== null && !isRatioUnit(own));
  if (unit.point !== null || widths.length === 0) return unit;
  const candidates = [unit, ...widths.map(unitOf)];
  return (
    shortestUnit(candidates, (candidate) =>
      [{ number, unit }, ...widths.map((width) => ({ number: width.number, unit: unitOf(width) }))].map((part) =>
        rational.divide(rational.multiply(part.number, part.unit.factor), candidate.factor),
      ),
    ) ?? unit
  );
}

const CALENDAR_DATE = /(\d{4})-(\d{2})-(\d{2})(?![\p{L}\d_]|-[\p{L}\d]|\.\d)/uy;

function scanDate(text: string, offset: number) {
  const found = matchAt(CALENDAR_DATE, text, offset);
  if (!found) return null;
  const [whole, year, month, day] = found;
  const base = dateToBase(Number(year), Number(month), Number(day));
  const problems = base ? [] : [dateProblem(Number(year), Number(month), whole)];
  return { number: base ?? rational.ZERO, unit: DATE, end: offset + whole.length, problems };
}

function dateProblem(year: number, month: number, text: string): string {
  if (month < 1 || month > 12) return `${text} is no date: there are 12 months`;
  return `${text} is no date: that month has ${daysInMonth(year, month)} days`;
}
