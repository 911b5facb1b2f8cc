/** Writes a quantity in its author's form, so that reading it gives the same value again. */
import { dateOfBase } from './calendar';
import { differenceUnit, fromBase } from './conversion';
import { exactNumber } from './format-number';
import type { Rational } from './rational';
import * as rational from './rational';
import { UNITY, type Unit } from './unit';
import type { QuantityValue } from './value';

/** `5 V ± 5 %`, `36 V to 57 V`, `{typ: 0.75 A, max: 1.1 A}`: every digit of it. */
export function formatValue(value: QuantityValue): string {
  const { form, low, typical, high, unit } = value;
  if (form.type === 'mapping') return formatMapping(value);
  if (form.type === 'range' && low && high) return `${formatPlace(low, unit)} to ${formatPlace(high, unit)}`;
  if (form.type === 'plain' && typical) return formatPlace(typical, unit);
  if (!typical || !low || !high || form.type === 'plain' || form.type === 'range') return formatMapping(value);
  const above = rational.subtract(high, typical);
  const below = rational.subtract(typical, low);
  const width = (part: Rational) => (form.ratio ? formatRatio(part, typical) : formatWidth(part, unit));
  const place = formatPlace(typical, unit);
  return form.type === 'symmetric' ? `${place} ± ${width(above)}` : `${place} +${width(above)} / -${width(below)}`;
}

function formatMapping({ low, typical, high, unit }: QuantityValue): string {
  const ends = [
    ['min', low],
    ['typ', typical],
    ['max', high],
  ] as const;
  return `{${ends.flatMap(([name, end]) => (end ? [`${name}: ${formatPlace(end, unit)}`] : [])).join(', ')}}`;
}

function formatPlace(value: Rational, unit: Unit): string {
  const date = unit.point === 'date' ? dateOfBase(value) : null;
  return date ?? written(fromBase(value, unit), unit);
}

function formatWidth(width: Rational, unit: Unit): string {
  // ± 5 °C is 5 K: after ± a degree is a length, and the author's own spelling of it stays.
  const shown = unit.point === 'date' || unit.point === 'level' ? differenceUnit(unit) : unit;
  return written(rational.divide(width, shown.factor), shown);
}

function formatRatio(width: Rational, typical: Rational): string {
  const ratio = rational.divide(width, rational.absolute(typical));
  const isTiny = rational.compare(ratio, rational.fraction(1n, 1000n)) < 0 && rational.sign(ratio) !== 0;
  return isTiny ? written(rational.multiply(ratio, MILLION), PPM) : written(rational.multiply(ratio, HUNDRED), PERCENT);
}

function written(number: Rational, unit: Unit): string {
  const decimal = exactNumber(number);
  if (unit.symbol === UNITY.symbol) return decimal ?? `${number.numerator} in ${number.denominator}`;
  return `${decimal ?? `${number.numerator}/${number.denominator}`} ${unit.symbol}`;
}

const HUNDRED = rational.integer(100);
const MILLION = rational.integer(1_000_000);
const PERCENT: Unit = { ...UNITY, symbol: '%' };
const PPM: Unit = { ...UNITY, symbol: 'ppm' };
