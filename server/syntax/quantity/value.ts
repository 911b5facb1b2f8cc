/** Plain values of front matter: a figure, a figure that was meant but cannot be read, or text. */
import { fromBase } from '../../quantity/conversion';
import * as dimensions from '../../quantity/dimension';
import { foldText, SPACE_CLASS } from '../../quantity/fold';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import { UNITY } from '../../quantity/unit';
import { haveSameRates } from '../../quantity/unit-arithmetic';
import type { UnitTable } from '../../quantity/unit-table';
import type { QuantityValue } from '../../quantity/value';
import { misreading } from './bad-value';
import { exactly, scanQuantity, shortestUnit } from './literal';

export type ReadValue =
  /** `provisional`: marked TBR or TBC. */
  | { readonly type: 'quantity'; readonly value: QuantityValue; readonly provisional: boolean }
  /** `message` goes on from “this is no value: ”; `fix` is the whole value as it should be, where there is one right way. */
  | { readonly type: 'bad'; readonly message: string; readonly fix: string | null }
  | { readonly type: 'text' };

const TEXT: ReadValue = { type: 'text' };
const PROVISIONAL = new RegExp(`[${SPACE_CLASS}]*(?:\\((?:TBR|TBC)\\)|(?<![\\p{L}\\d])(?:TBR|TBC))$`, 'u');
const RANGE_WORD = new RegExp(`[${SPACE_CLASS}]+to[${SPACE_CLASS}]+`);
const RATIO = /^(\d{1,15}) in (\d{1,15})$/;
const MONEY_IN_FRONT = new RegExp(`^(\\p{Lu}{1,2}\\$|\\p{Lu}{3}|[€£¥$])[${SPACE_CLASS}]*(?=[-+\u2212]?\\d)`, 'u');
/** Longer texts are no figures, and would only be read in vain. */
const LONGEST_VALUE = 400;

/** Reads a whole plain scalar as a figure. Never throws; time is linear in the text. */
export function readValue(text: string, units: UnitTable): ReadValue {
  const trimmed = text.trim();
  if (trimmed.length > LONGEST_VALUE) return TEXT;
  const marker = PROVISIONAL.exec(trimmed);
  if (!marker) return readFigure(trimmed, units);
  if (marker.index === 0) return { type: 'bad', message: 'it marks a value, but there is none; write TBD', fix: 'TBD' };
  const read = readFigure(trimmed.slice(0, marker.index), units);
  if (read.type === 'quantity') return { ...read, provisional: true };
  return read.type === 'bad' && read.fix !== null ? { ...read, fix: read.fix + marker[0] } : read;
}

/** Reads a figure; what is none is looked at again for what was meant. */
function readFigure(text: string, units: UnitTable): ReadValue {
  return (
    readRatio(text) ??
    readRange(text, units) ??
    readWhole(text, units) ??
    misreading(text, units, isFigure(units)) ??
    TEXT
  );
}

function isFigure(units: UnitTable): (text: string) => boolean {
  return (text) => (readRange(text, units) ?? readWhole(text, units))?.type === 'quantity';
}

/** One quantity that takes up all of the text; null when it does not. */
function readWhole(text: string, units: UnitTable): ReadValue | null {
  const read = readEnd(text, units);
  if (!read) return null;
  const [problem] = read.problems;
  return problem === undefined
    ? { type: 'quantity', value: read.value, provisional: false }
    : { type: 'bad', message: problem, fix: null };
}

interface ReadEnd {
  readonly value: QuantityValue;
  readonly problems: readonly string[];
}

function readEnd(text: string, units: UnitTable): ReadEnd | null {
  const money = MONEY_IN_FRONT.exec(text);
  const unit = money && moneyUnit(money[1] ?? '', units);
  const figure = withPlainSign(money && unit ? text.slice(money[0].length) : text);
  const read = scanQuantity(figure, 0, units, { signed: true, prose: true });
  if (!read || read.end !== figure.length) return null;
  if (!unit) return read;
  // Money stands in front: the figure behind it has no unit of its own.
  return read.value.unit === UNITY ? { ...read, value: inUnit(read.value, unit) } : null;
}

/** An en dash directly before a digit, with no number before it, is a minus sign. */
function withPlainSign(text: string): string {
  return text.replace(/^\u2013(?=\d)/, '-');
}

function moneyUnit(word: string, units: UnitTable): Unit | null {
  const unit = units.word(word);
  const isMoney = unit !== null && [...unit.dimension.base.keys()].some((base) => base.startsWith('money:'));
  return isMoney ? unit : null;
}

/** A plain figure read again as a number of `unit`. */
function inUnit(value: QuantityValue, unit: Unit): QuantityValue {
  const end = (plain: Rational | null) => plain && rational.add(rational.multiply(plain, unit.factor), unit.offset);
  return { ...value, low: end(value.low), typical: end(value.typical), high: end(value.high), unit };
}

/** `1 in 1000` is a ratio. */
function readRatio(text: string): ReadValue | null {
  const [, part, whole] = RATIO.exec(foldText(text)) ?? [];
  if (part === undefined || whole === undefined || /^0+$/.test(whole)) return null;
  const value = rational.fraction(BigInt(part), BigInt(whole));
  return { type: 'quantity', value: exactly(value, UNITY), provisional: false };
}

function readRange(text: string, units: UnitTable): ReadValue | null {
  const gap = RANGE_WORD.exec(text);
  if (!gap) return null;
  const lowText = text.slice(0, gap.index);
  const highText = text.slice(gap.index + gap[0].length);
  const low = readEnd(lowText, units);
  const high = readEnd(highText, units);
  if (!low || !high) return null;
  const problem = low.problems[0] ?? high.problems[0] ?? spreadProblem(low.value, high.value);
  if (problem !== undefined) return { type: 'bad', message: problem, fix: null };
  if (high.value.unit === UNITY && low.value.unit !== UNITY) {
    const fix = `${lowText} to ${highText} ${low.value.unit.symbol}`;
    return { type: 'bad', message: 'the unit of a range stands after its last number', fix };
  }
  const shared = low.value.unit === UNITY ? inUnit(low.value, high.value.unit) : low.value;
  return rangeBetween(shared, high.value, `${highText} to ${lowText}`);
}

function rangeBetween(low: QuantityValue, high: QuantityValue, swapped: string): ReadValue {
  const isAlike =
    dimensions.isComparable(low.unit.dimension, high.unit.dimension) && haveSameRates(low.unit, high.unit);
  if (!isAlike || low.unit.point !== high.unit.point) {
    return {
      type: 'bad',
      message: `its ends do not fit each other: ${low.unit.symbol} and ${high.unit.symbol}`,
      fix: null,
    };
  }
  const from = low.typical as Rational;
  const to = high.typical as Rational;
  if (rational.compare(from, to) > 0) return { type: 'bad', message: 'its ends are in the wrong order', fix: swapped };
  const numbers = (unit: Unit) => [fromBase(from, unit), fromBase(to, unit)];
  const unit = shortestUnit([low.unit, high.unit], numbers) ?? high.unit;
  const value: QuantityValue = {
    ...high,
    spread: 'range',
    low: from,
    typical: null,
    high: to,
    unit,
    form: { type: 'range' },
  };
  return { type: 'quantity', value, provisional: false };
}

function spreadProblem(low: QuantityValue, high: QuantityValue): string | undefined {
  if (low.spread === 'exact' && high.spread === 'exact') return undefined;
  return 'the ends of a range have no tolerance of their own';
}
