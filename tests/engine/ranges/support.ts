/** Ranges of a small product as texts, and as changes to try. */

import { changeTo } from '../../../server/engine/ranges/figures';
import { type FigureRanges, rangesOf } from '../../../server/engine/ranges/ranges';
import { trial } from '../../../server/engine/trial';
import { differenceUnit, fromBase } from '../../../server/quantity/conversion';
import type { Rational } from '../../../server/quantity/rational';
import * as rational from '../../../server/quantity/rational';
import { analyseFiles, analyseText } from '../../support/analyse';

export function rangesIn(facts: string, requirements: string) {
  return rangesOf(analyseText(facts, requirements).analysis);
}

export function rangesInFiles(files: Readonly<Record<string, string>>) {
  return rangesOf(analyseFiles(files).analysis);
}

/** `1/2 [P-1] .. < 4 [P-2]` in the author's unit, exact; `?` where it was not found. */
export function allowedText(all: readonly FigureRanges[], name: string, movement?: 'half-width'): string {
  const { allowed, figure } = found(all, name, movement);
  if (allowed === null) return '?';
  const end = (one: typeof allowed.low, sign: string) =>
    one === null
      ? 'open'
      : `${one.strict ? `${sign} ` : ''}${inUnit(figure, one.value)}${one.by === null ? '' : ` [${one.by}]`}`;
  return `${end(allowed.low, '>')} .. ${end(allowed.high, '<')}`;
}

/** `P-1: 1 .. 2`, or what stands in the way. */
export function neededText(all: readonly FigureRanges[], name: string, movement?: 'half-width'): readonly string[] {
  const { needed, figure } = found(all, name, movement);
  return needed.map(({ requirement, range }) => {
    if (range.type === 'not-shown') return `${requirement.id}: ?`;
    if (range.type === 'none') return `${requirement.id}: not for ${range.forbiddenBy || 'itself'}`;
    const end = (one: typeof range.low, sign: string) =>
      one === null ? 'open' : `${one.strict ? `${sign} ` : ''}${inUnit(figure, one.value)}`;
    return `${requirement.id}: ${end(range.low, '>')} .. ${end(range.high, '<')}`;
  });
}

function found(all: readonly FigureRanges[], name: string, movement?: 'half-width'): FigureRanges {
  const one = all.find(
    ({ figure }) => figure.name === name && (figure.movement === 'half-width') === (movement === 'half-width'),
  );
  if (one === undefined) throw new Error(`${name} is no figure; there are ${all.map(({ figure }) => figure.name)}`);
  return one;
}

function inUnit({ value, movement }: FigureRanges['figure'], at: Rational): string {
  const number =
    movement === 'half-width' ? rational.divide(at, differenceUnit(value.unit).factor) : fromBase(at, value.unit);
  return rational.isInteger(number)
    ? number.numerator.toString()
    : (rational.toExactDecimal(number, 12) ?? `${number.numerator}/${number.denominator}`);
}

/** The verdicts as if the figure were there, judged from the written text on. */
export function verdictsWith(
  analysis: Parameters<typeof rangesOf>[0],
  figure: FigureRanges['figure'],
  at: Rational,
): ReadonlyMap<string, string> {
  const { requirements } = trial(analysis.product, analysis.requirements, changeTo(figure, at));
  return new Map(requirements.map(({ requirement, verdict }) => [requirement.id, verdict]));
}
