/** Puts amounts together: ranges, tolerances, added durations, ratios, relative figures, second units in brackets. */
import * as dimensions from '../../quantity/dimension';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { UNITY, type Unit } from '../../quantity/unit';
import { nextToken, readAmount } from './amount';
import { type Context, keyAt } from './context';
import { readConnected, readDistance } from './ends';
import type { Amount, Figure } from './figure';
import { readRelative } from './relative';
import { distanceFigure, readTolerance, readZeroTolerance } from './tolerance';

/** The figures of a statement in text order; figures that only say another again in brackets are part of it. */
export function findFigures(context: Context): readonly Figure[] {
  const figures: Figure[] = [];
  let index = 0;
  while (index < context.tokens.length) {
    const figure = readFigure(context, index);
    if (figure) figures.push(figure);
    index = figure ? figure.next : index + 1;
  }
  return figures;
}

function readFigure(context: Context, index: number): Figure | null {
  const figure = readInBrackets(context, index) ?? readBareFigure(context, index);
  return figure && withMarks(context, withRestatement(context, figure));
}

/** "(2.0 ± 0.1) m", "(36 to 57) V": one unit behind the bracket for both numbers (ISO 80000-1:2009, 7.1.4). */
function readInBrackets(context: Context, index: number): Figure | null {
  if (keyAt(context, index) !== '(') return null;
  const inside = readBareFigure(context, index + 1);
  if (inside === null || inside.form === 'plain' || inside.lowUnit !== null || inside.base !== null) return null;
  const close = context.tokens[inside.next];
  const behind = context.tokens[inside.next + 1];
  if (!close || !behind || keyAt(context, inside.next) !== ')') return null;
  const scanned = context.units.scan(context.text, behind.start);
  if (!scanned || scanned.unit.dimension === UNITY.dimension) return null;
  const { unit, end } = scanned;
  const inUnit = (value: Rational) => {
    const length = rational.multiply(value, unit.factor);
    return inside.form === 'around-zero' ? length : rational.add(length, unit.offset);
  };
  return {
    ...inside,
    start: context.tokens[index]?.start ?? inside.start,
    end,
    low: inUnit(inside.low),
    high: inUnit(inside.high),
    lowUnit: unit,
    highUnit: unit,
    first: index,
    next: nextToken(context, end, inside.next),
  };
}

function readBareFigure(context: Context, index: number): Figure | null {
  const relative = readRelative(context, index);
  if (relative) return relative;
  const zero = readZeroTolerance(context, index);
  if (zero) return zero;
  const lead = keyAt(context, index);
  const isLed = lead === 'between' || lead === 'from' || lead === 'within';
  const amount = readWhole(context, isLed ? index + 1 : index);
  if (!amount) return null;
  const ends = readConnected(context, amount, readWhole, lead);
  if (ends) return isLed ? startingAt(context, ends, index) : ends;
  const distance = readDistance(context, amount, readWhole, lead);
  if (distance) return distanceFigure(distance, index, context.tokens[index]?.start ?? amount.start);
  if (isLed) return null;
  return readTolerance(context, amount) ?? toleranceInBrackets(context, amount) ?? plainFigure(amount);
}

/** "100 mm (± 1 mm)": the deviation of the figure in front of the bracket. */
function toleranceInBrackets(context: Context, amount: Amount): Figure | null {
  if (keyAt(context, amount.next) !== '(') return null;
  const figure = readTolerance(context, { ...amount, next: amount.next + 1 });
  const close = figure && context.tokens[figure.next];
  if (!figure || !close || keyAt(context, figure.next) !== ')') return null;
  return { ...figure, end: close.end, next: figure.next + 1 };
}

/** An amount with what belongs to it: further parts of a duration, `(90)` behind a number word, `in M` of a ratio. */
function readWhole(context: Context, index: number): Amount | null {
  const amount = readAmount(context, index);
  if (!amount) return null;
  return rateOf(context, ratioOf(context, addedDurations(context, figureOfWords(context, amount))));
}

function figureOfWords(context: Context, amount: Amount): Amount {
  if (!amount.spelled || keyAt(context, amount.next) !== '(') return amount;
  const inside = readAmount(context, amount.next + 1);
  if (!inside || inside.spelled || keyAt(context, inside.next) !== ')') return amount;
  const close = context.tokens[inside.next];
  const hasWords = rational.sign(amount.number) !== 0 && amount.doubt === null;
  const isEqual = !hasWords || rational.equals(amount.number, inside.number);
  const behind = readUnitBehind(context, inside, amount.first);
  const doubt = isEqual ? (behind.doubt ?? inside.doubt) : 'differs from the figure in brackets';
  return { ...behind, start: amount.start, end: Math.max(behind.end, close?.end ?? 0), doubt, isOne: false };
}

/** "ninety (90) days": the unit stands behind the bracket. */
function readUnitBehind(context: Context, inside: Amount, first: number): Amount {
  const after = inside.next + 1;
  const offset = context.tokens[after]?.start ?? context.text.length;
  const scanned = inside.unit ? null : context.units.scan(context.text, offset);
  const base = { ...inside, first, next: after };
  if (!scanned) return base;
  const { unit, end } = scanned;
  const next = nextToken(context, end, after - 1);
  const value = rational.add(rational.multiply(inside.number, unit.factor), unit.offset);
  return {
    ...base,
    unit,
    value,
    halfPlace: rational.absolute(rational.multiply(inside.halfPlace, unit.factor)),
    end,
    next,
  };
}

/** 1 min 30 s: each part in a smaller unit of time than the one before. */
function addedDurations(context: Context, amount: Amount): Amount {
  let sum = amount;
  let smallest = amount.unit;
  while (isDuration(smallest)) {
    const part = context.tokens[sum.next]?.type === 'number' ? readAmount(context, sum.next) : null;
    if (!part || !isDuration(part.unit) || rational.compare(part.unit.factor, smallest.factor) >= 0) break;
    sum = {
      ...sum,
      value: rational.add(sum.value, part.value),
      number: rational.add(sum.number, rational.divide(part.value, sum.unit?.factor ?? rational.ONE)),
      halfPlace: part.halfPlace,
      doubt: sum.doubt ?? part.doubt,
      end: part.end,
      next: part.next,
    };
    smallest = part.unit;
  }
  return sum;
}

function isDuration(unit: Unit | null): unit is Unit {
  return unit !== null && unit.point === null && unit.dimension === dimensions.dimension({ time: 1 });
}

/** "1 in 1000": a ratio, unless the second number has a unit. */
function ratioOf(context: Context, amount: Amount): Amount {
  if (amount.unit !== null || keyAt(context, amount.next) !== 'in') return amount;
  const of = readAmount(context, amount.next + 1);
  if (!of || of.spelled) return amount;
  const doubt = of.unit !== null || rational.sign(of.number) <= 0 ? 'counts events in a span: write a rate' : null;
  const number = doubt === null ? rational.divide(amount.number, of.number) : amount.number;
  return {
    ...amount,
    number,
    value: number,
    doubt: amount.doubt ?? of.doubt ?? doubt,
    end: of.end,
    next: of.next,
    isOne: false,
  };
}

const MOST_NOUNS = 3;

/** "10 000 messages per hour", "5 per second", "2 times a day": a count in a span of time or length is a rate. */
function rateOf(context: Context, amount: Amount): Amount {
  if (amount.unit !== null) return withoutAmountBehindPer(context, amount);
  let index = amount.next;
  while (index < amount.next + MOST_NOUNS && isNoun(context, index)) index++;
  const isPer = ['per', '/'].includes(keyAt(context, index));
  if (!isPer && !['a', 'an', 'each', 'every'].includes(keyAt(context, index))) return amount;
  const token = context.tokens[index + 1];
  if (!token) return amount;
  if (token.type === 'number') return { ...amount, doubt: amount.doubt ?? PER_NUMBER };
  const scanned = context.units.scan(context.text, token.start);
  if (!scanned || (!isPer && !isDuration(scanned.unit))) return amount;
  return perUnit(context, amount, scanned.unit, scanned.end, index + 1);
}

const PER_NUMBER = 'is counted per several: write it per one';

function isNoun(context: Context, index: number): boolean {
  return (
    context.tokens[index]?.type === 'word' && !context.termFrom.has(index) && !FUNCTION_WORDS.has(keyAt(context, index))
  );
}

const FUNCTION_WORDS: ReadonlySet<string> = new Set([
  'per',
  'a',
  'an',
  'and',
  'or',
  'but',
  'of',
  'to',
  'in',
  'at',
  'with',
  'for',
  'the',
]);

function perUnit(context: Context, amount: Amount, unit: Unit, end: number, token: number): Amount {
  const rate: Unit = {
    ...UNITY,
    symbol: `1/${unit.symbol}`,
    dimension: dimensions.divide(UNITY.dimension, unit.dimension),
    factor: rational.divide(rational.ONE, unit.factor),
    rates: new Map([...unit.rates].map(([name, exponent]) => [name, -exponent])),
  };
  const next = nextToken(context, end, token);
  const value = rational.multiply(amount.number, rate.factor);
  return {
    ...amount,
    unit: rate,
    value,
    halfPlace: rational.multiply(amount.halfPlace, rate.factor),
    end,
    next,
    isOne: false,
  };
}

/** "5 W per 10 m" is no 5 W. */
function withoutAmountBehindPer(context: Context, amount: Amount): Amount {
  const isPer = keyAt(context, amount.next) === 'per' && context.tokens[amount.next + 1]?.type === 'number';
  return isPer ? { ...amount, doubt: amount.doubt ?? PER_NUMBER } : amount;
}

function plainFigure(amount: Amount): Figure {
  return {
    form: 'plain',
    start: amount.start,
    end: amount.end,
    low: amount.value,
    high: amount.value,
    lowUnit: amount.unit,
    highUnit: amount.unit,
    halfPlace: amount.halfPlace,
    base: null,
    doubt: amount.doubt,
    first: amount.first,
    next: amount.next,
    spelled: amount.spelled,
    isOne: amount.isOne,
    provisional: false,
    contradiction: null,
  };
}

function startingAt(context: Context, figure: Figure, first: number): Figure {
  return { ...figure, first, start: context.tokens[first]?.start ?? figure.start };
}

/** "6.7 N (1.5 lbf)": the same again in another unit; where the digits given do not agree, a contradiction. */
function withRestatement(context: Context, figure: Figure): Figure {
  if (keyAt(context, figure.next) !== '(' || figure.base !== null || figure.doubt !== null) return figure;
  const inside = readBareFigure(context, figure.next + 1);
  const close = inside && context.tokens[inside.next];
  if (!inside || !close || keyAt(context, inside.next) !== ')' || inside.form !== figure.form) return figure;
  if (!saysTheSame(figure, inside)) return figure;
  const agrees = isNear(figure.low, inside.low, figure, inside) && isNear(figure.high, inside.high, figure, inside);
  const contradiction = agrees ? null : { start: inside.start, end: inside.end };
  return { ...figure, next: inside.next + 1, end: close.end, contradiction };
}

function saysTheSame(figure: Figure, inside: Figure): boolean {
  if (figure.lowUnit === null || inside.lowUnit === null) return false;
  return (
    dimensions.isComparable(figure.lowUnit.dimension, inside.lowUnit.dimension) &&
    figure.lowUnit.point === inside.lowUnit.point
  );
}

function isNear(a: Rational, b: Rational, figure: Figure, inside: Figure): boolean {
  const difference = rational.absolute(rational.subtract(a, b));
  return rational.compare(difference, rational.add(figure.halfPlace, inside.halfPlace)) <= 0;
}

/** TBR and TBC behind a figure, with or without brackets. */
function withMarks(context: Context, figure: Figure): Figure {
  const isBracketed = keyAt(context, figure.next) === '(';
  const at = isBracketed ? figure.next + 1 : figure.next;
  if (!['tbr', 'tbc'].includes(keyAt(context, at))) return figure;
  if (isBracketed && keyAt(context, at + 1) !== ')') return figure;
  return { ...figure, provisional: true, next: isBracketed ? at + 2 : at + 1 };
}
