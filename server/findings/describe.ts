/** How findings put a judged criterion into words: what is, what should be, and by how much. */

import type { Figures } from '../engine/criterion';
import type { CriterionResult } from '../engine/judge-criterion';
import { distinguish, formatIn, formatOutward } from '../quantity/format';
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { printExpression } from '../syntax/expression/print';

/** Limits are shown with all the digits that people write. */
export const AS_WRITTEN = { significant: 12 };

/** What the criterion speaks of: `supply.draw`, with the worst mode and row where it runs over several. */
export function subjectOf({ criterion, mode, row }: CriterionResult): string {
  const { condition } = criterion;
  const value =
    condition.type === 'comparison'
      ? condition.left.type === 'literal'
        ? condition.right
        : condition.left
      : condition.type === 'ends'
        ? condition.value
        : condition;
  const of = row === null ? '' : ` of ${row}`;
  const inMode = mode === null ? '' : ` in mode ${mode}`;
  return `${printExpression(value)}${of}${inMode}`;
}

/** Dates are early and late, not great and small. */
const DATE_WORDS: ReadonlyMap<string, string> = new Map([
  ['>=', 'not before'],
  ['>', 'after'],
  ['<=', 'not after'],
  ['<', 'before'],
]);

/** `at most 60 W`. */
export function limitText({ relation, low, high, unit }: Figures): string {
  const shown = (end: Rational | null) => (end === null ? 'an open end' : formatIn(end, unit, 'nearest', AS_WRITTEN));
  const ofDate = unit.point === 'date' ? DATE_WORDS.get(relation) : undefined;
  if (ofDate !== undefined) return `${ofDate} ${shown(low ?? high)}`;
  switch (relation) {
    case '>=':
      return `at least ${shown(low)}`;
    case '>':
      return `more than ${shown(low)}`;
    case '<=':
      return `at most ${shown(high)}`;
    case '<':
      return `less than ${shown(high)}`;
    case '=':
      return `exactly ${shown(high)}`;
    case '!=':
      return `not ${shown(high)}`;
    case 'within':
      return `within ${shown(low)} to ${shown(high)}`;
    case 'spans':
      return `${shown(low)} to ${shown(high)} spanned`;
  }
}

/** How far the limit is missed over all ranges with typical tolerances: `supply.draw is 65 W, 5 W above at most 60 W`. */
export function shortfall(figures: Figures, of: 'value' | 'typical'): { readonly is: string; readonly missed: string } {
  const extent = figures[of];
  const { relation, unit } = figures;
  const { end, limit, side } = worstEnd(figures, extent);
  if (end === null || limit === null) return { is: formatOutward(extent, unit), missed: limitText(figures) };
  const { value: shownEnd } = distinguish(end, limit, unit, side);
  const is = interval.isPoint(extent) ? shownEnd : withEnd(extent, figures, side, shownEnd);
  if (relation === '!=') return { is, missed: `and must not be ${formatIn(limit, unit, 'nearest', AS_WRITTEN)}` };
  const distance = rational.subtract(end, limit);
  if (rational.sign(distance) === 0) return { is, missed: missedByNothing(figures, limit) };
  const by = formatIn(rational.absolute(distance), unit, 'up', { difference: true });
  if (unit.point === 'date') {
    return {
      is,
      missed: `${by} too ${rational.sign(distance) > 0 ? 'late' : 'early'}: it has to be ${limitText(figures)}`,
    };
  }
  const direction = rational.sign(distance) > 0 ? 'above' : 'below';
  return { is, missed: `${by} ${direction} the ${nameOfLimit(figures, side)}` };
}

function missedByNothing({ relation, unit }: Figures, limit: Rational): string {
  const shown = formatIn(limit, unit, 'nearest', AS_WRITTEN);
  const [below, above] = unit.point === 'date' ? ['before', 'after'] : ['below', 'above'];
  return `not ${relation === '<' ? below : above} ${shown}`;
}

/** The extent with its worst end as shown: rounded outward, but inward where it has to span something. */
function withEnd(extent: Interval, { relation, unit }: Figures, side: string, shownEnd: string): string {
  const spans = relation === 'spans';
  const isUpper = spans ? side.startsWith('>') : side.startsWith('<');
  const other = isUpper ? extent.low : extent.high;
  if (other === null) return formatOutward(extent, unit);
  const shownOther = formatIn(other, unit, isUpper !== spans ? 'down' : 'up');
  return isUpper ? `${shownOther} to ${shownEnd}` : `${shownEnd} to ${shownOther}`;
}

/** The end of a value that is worst for the criterion, and the limit it is held against. */
function worstEnd(
  figures: Figures,
  extent: Interval,
): { readonly end: Rational | null; readonly limit: Rational | null; readonly side: '<=' | '<' | '>=' | '>' } {
  const { relation, low, high } = figures;
  switch (relation) {
    case '<=':
    case '<':
      return { end: extent.high, limit: high, side: relation };
    case '>=':
    case '>':
      return { end: extent.low, limit: low, side: relation };
    case 'spans':
      return isFurther(extent.low, low, high, extent.high)
        ? { end: extent.low, limit: low, side: '<=' }
        : { end: extent.high, limit: high, side: '>=' };
    default:
      return isFurther(extent.high, high, low, extent.low)
        ? { end: extent.high, limit: high, side: '<=' }
        : { end: extent.low, limit: low, side: '>=' };
  }
}

/** Whether a exceeds its limit by more than d falls short of its own. */
function isFurther(a: Rational | null, aLimit: Rational | null, dLimit: Rational | null, d: Rational | null): boolean {
  if (a === null || aLimit === null) return false;
  if (d === null || dLimit === null) return true;
  return rational.compare(rational.subtract(a, aLimit), rational.subtract(dLimit, d)) >= 0;
}

function nameOfLimit(figures: Figures, side: string): string {
  const { relation, low, high, unit } = figures;
  const shown = (end: Rational | null) => (end === null ? '' : formatIn(end, unit, 'nearest', AS_WRITTEN));
  if (relation === '=') return `${shown(high)} that it has to be`;
  if (relation === 'within')
    return `${side.startsWith('<') ? 'upper' : 'lower'} end of ${shown(low)} to ${shown(high)}`;
  if (relation === 'spans')
    return `${side.startsWith('<') ? 'lower' : 'upper'} end of the ${shown(low)} to ${shown(high)} to be spanned`;
  return `limit of ${limitText(figures)}`;
}
