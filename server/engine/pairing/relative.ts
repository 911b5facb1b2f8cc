/** Limits that are a factor of another fact: N % of `x`, N times `x`, twice `x`, half `x`, N % above or below `x`. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { readAmount } from './amount';
import { type Context, keyAt } from './context';
import type { Amount, Figure } from './figure';
import { isRatio } from './tolerance';

const FACTOR_WORDS: ReadonlyMap<string, Rational> = new Map([
  ['twice', rational.integer(2)],
  ['double', rational.integer(2)],
  ['half', rational.fraction(1n, 2n)],
]);
const SHIFT_WORDS: ReadonlyMap<string, 1 | -1> = new Map([
  ['above', 1],
  ['over', 1],
  ['more', 1],
  ['higher', 1],
  ['greater', 1],
  ['below', -1],
  ['under', -1],
  ['less', -1],
  ['lower', -1],
]);

/** The relative figure that begins at a token, or null. */
export function readRelative(context: Context, index: number): Figure | null {
  const factor = FACTOR_WORDS.get(keyAt(context, index));
  const token = context.tokens[index];
  if (factor && token) return toCode(context, factor, index, token.start, index + 1, null);
  const amount = readAmount(context, index);
  if (!amount) return null;
  return readTimes(context, amount) ?? readPercentage(context, amount);
}

function readTimes(context: Context, amount: Amount): Figure | null {
  if (amount.unit !== null || !['times', '×', 'x'].includes(keyAt(context, amount.next))) return null;
  return toCode(context, amount.number, amount.first, amount.start, amount.next + 1, amount.doubt);
}

function readPercentage(context: Context, amount: Amount): Figure | null {
  if (!isRatio(amount.unit)) return null;
  const word = keyAt(context, amount.next);
  if (word === 'of') return toCode(context, amount.value, amount.first, amount.start, amount.next, amount.doubt);
  const direction = SHIFT_WORDS.get(word);
  if (direction === undefined) return null;
  const shift = direction === 1 ? amount.value : rational.negate(amount.value);
  const at = keyAt(context, amount.next + 1) === 'than' ? amount.next + 2 : amount.next + 1;
  return toCode(context, rational.add(rational.ONE, shift), amount.first, amount.start, at, amount.doubt);
}

/** The figure when a code span follows, with *of* and *the* between at most. */
function toCode(
  context: Context,
  factor: Rational,
  first: number,
  start: number,
  at: number,
  doubt: string | null,
): Figure | null {
  let index = at;
  while (['of', 'the', 'that'].includes(keyAt(context, index)) && index < at + 3) index++;
  const token = context.tokens[index];
  if (token?.type !== 'code') return null;
  return {
    form: 'relative',
    start,
    end: token.end,
    low: factor,
    high: factor,
    lowUnit: null,
    highUnit: null,
    halfPlace: rational.ZERO,
    base: token.code,
    doubt,
    first,
    next: index + 1,
    spelled: false,
    isOne: false,
    provisional: false,
    contradiction: null,
  };
}
