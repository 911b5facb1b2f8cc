/** What a phrase's words say before wider negations are weighed, and when a lower and an upper bound are one limit. */

import { DATE_OPENERS } from '../../../grammar/limit-phrases';
import * as dimensions from '../../quantity/dimension';
import type { Term } from '../../syntax/sentence/term';
import type { RawPhrase } from './attach';
import { type Context, keyAt } from './context';
import type { Figure } from './figure';
import type { PartRelation } from './phrase';

export type Simple = '>=' | '>' | '<=' | '<' | '=';

/** Whether the figure is a limit phrase: it has a relation word, or two ends. */
export function isBound({ leading, trailing, distant, figure }: RawPhrase): boolean {
  return leading.length > 0 || trailing !== null || distant !== null || isTwoEnded(figure);
}

export function isTwoEnded({ form }: Figure): boolean {
  return form === 'ends' || form === 'tolerance' || form === 'around-zero';
}

/** The relation that a term states for this figure; null where it states none or several. */
export function relationOf(context: Context, { meaning, from }: Term, figure: Figure): Simple | null {
  switch (meaning.kind) {
    case 'relation':
    case 'extreme':
    case 'after':
    case 'date':
      return meaning.relation;
    case 'within':
      return '<=';
    case 'speed':
      return speedRelation(figure, meaning.faster, meaning.where === 'after');
    case 'opener':
      return (DATE_OPENERS.get(keyAt(context, from)) as Simple | undefined) ?? null;
    default:
      return null;
  }
}

/** Faster is less of a duration and more of a rate; "or faster" includes the figure. */
function speedRelation({ lowUnit }: Figure, faster: boolean, includes: boolean): Simple | null {
  const time = lowUnit?.point === null ? timeExponent(lowUnit.dimension) : 0;
  if (time !== 1 && time !== -1) return null;
  const isUpper = (time === 1) === faster;
  if (includes) return isUpper ? '<=' : '>=';
  return isUpper ? '<' : '>';
}

/** 1 for a duration, -1 for something per time, 0 for everything else. */
function timeExponent({ base }: dimensions.Dimension): number {
  const exponent = base.get('time') ?? 0;
  if (exponent === 1) return base.size === 1 ? 1 : 0;
  return exponent === -1 ? -1 : 0;
}

export function opposite(relation: Simple): Simple {
  if (relation === '>') return '<=';
  return relation === '<' ? '>=' : relation;
}

/** The relation of a plain phrase with its own negation; null for bare figures, two ends and several readings. */
function plainRelation(context: Context, phrase: RawPhrase): Simple | null {
  if (isTwoEnded(phrase.figure)) return null;
  const term = phrase.leading[0] ?? phrase.trailing ?? phrase.distant;
  const relation = term ? relationOf(context, term, phrase.figure) : null;
  return relation && phrase.negation ? opposite(relation) : relation;
}

const JOINTS: ReadonlySet<string> = new Set(['and', 'but', 'or', ',']);

/**
 * How two phrases in a row are joined to the two bounds of one limit: *and*, *but*, *or* or a comma, nothing else
 * between them, one a lower and one an upper bound, in units that compare; null when they are not.
 */
export function joinOf(context: Context, low: RawPhrase, high: RawPhrase | undefined): string | null {
  if (!high || high.first <= low.next - 1) return null;
  const between: string[] = [];
  for (let index = low.next; index < high.first; index++) between.push(keyAt(context, index));
  if (between.length === 0 || between.length > 2 || !between.every((key) => JOINTS.has(key))) return null;
  return areOpposite(context, low, high) && compares(low.figure, high.figure) ? (between.at(-1) ?? null) : null;
}

function areOpposite(context: Context, first: RawPhrase, second: RawPhrase): boolean {
  const directions = [first, second].map((phrase) => directionOf(plainRelation(context, phrase)));
  return directions.includes('lower') && directions.includes('upper');
}

export function directionOf(relation: PartRelation | null): 'lower' | 'upper' | null {
  if (relation === '>=' || relation === '>') return 'lower';
  return relation === '<=' || relation === '<' ? 'upper' : null;
}

/** The first may leave its unit to the second: "at least 36 and at most 57 V". */
function compares(first: Figure, second: Figure): boolean {
  if (first.base !== null || second.base !== null) return false;
  if (first.lowUnit === null || second.lowUnit === null) return first.lowUnit === null;
  const isSameScale = first.lowUnit.point === second.lowUnit.point;
  return isSameScale && dimensions.isComparable(first.lowUnit.dimension, second.lowUnit.dimension);
}
