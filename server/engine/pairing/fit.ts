/** Which phrases fit which names: by dimension, kind and scale. */

import type { Dimension } from '../../quantity/dimension';
import * as dimensions from '../../quantity/dimension';
import type { Scale } from '../../quantity/unit';
import { UNITY } from '../../quantity/unit';
import type { CodeType } from '../pairing';
import type { Phrase } from './phrase';
import { isRatio } from './tolerance';

/** A code span that is an expression of a quantity and wants a limit. */
export interface Name {
  readonly code: number;
  readonly token: number;
  readonly clause: number;
  readonly sentence: number;
  readonly bracket: number;
  readonly text: string;
  readonly type: QuantityType;
  readonly isCount: boolean;
}

export type QuantityType = Extract<CodeType, { type: 'quantity' }>;

/** What a phrase measures; null when its base is no quantity. */
export interface Measure {
  readonly dimension: Dimension;
  readonly point: Scale | null;
}

export function measureOf(phrase: Phrase, types: readonly CodeType[]): Measure | null {
  const { figure } = phrase;
  if (figure.base !== null) {
    const type = types[figure.base];
    return type?.type === 'quantity' ? { dimension: type.dimension, point: type.point } : null;
  }
  const unit = figure.lowUnit ?? UNITY;
  return { dimension: unit.dimension, point: figure.form === 'around-zero' ? null : unit.point };
}

export function fits(name: Name, phrase: Phrase, types: readonly CodeType[]): boolean {
  const measure = measureOf(phrase, types);
  if (!measure || measure.point !== name.type.point) return false;
  if (!dimensions.isComparable(measure.dimension, name.type.dimension)) return false;
  return !(name.isCount && isRatio(phrase.figure.lowUnit));
}

/** Names and phrases that can fit at all share this key. */
export function groupKey({ dimension, point }: Measure): string {
  return `${dimensions.withoutKinds(dimension).key} ${point ?? ''}`;
}
