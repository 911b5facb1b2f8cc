/** One fact judged: what it is in each mode, over everything and typically. */
import type { Fact } from '../model/fact';
import type { Dimension } from '../quantity/dimension';
import type { Interval } from '../quantity/interval';
import type { Unit } from '../quantity/unit';
import { isNoValue } from './enclosure';
import type { Extremes } from './extremes';
import type { Lowering } from './lowering/lowering';
import { noValueReasons } from './no-value';
import { type Reason, reasonsOf, type TypedQuantity, type TypedText } from './typed';

export interface FactResult {
  readonly fact: Fact;
  /** One for facts that no mode decides; one a mode otherwise. */
  readonly values: readonly FactValue[];
  readonly reasons: readonly Reason[];
}

export interface FactValue {
  readonly mode: string | null;
  readonly content: FactContent;
}

export type FactContent =
  | {
      readonly type: 'quantity';
      readonly full: Interval;
      readonly typical: Interval;
      readonly dimension: Dimension;
      readonly unit: Unit | null;
    }
  | { readonly type: 'text'; readonly text: string }
  | { readonly type: 'boolean'; readonly boolean: boolean }
  | { readonly type: 'set'; readonly items: readonly FactContent[] }
  | { readonly type: 'undecided' };

export function factResult(lowering: Lowering, fact: Fact): FactResult {
  const plain = lowering.tracked(() => lowering.fact(fact, null, 'item'));
  const modes =
    plain.moded && lowering.product.modes.size > 0
      ? [...lowering.product.modes].filter((mode) => hasMode(fact, mode))
      : [null];
  const values: FactValue[] = [];
  const reasons: Reason[] = [];
  for (const mode of modes) {
    const { content, causes } = contentIn(lowering, fact, mode);
    values.push({ mode, content });
    reasons.push(...causes);
  }
  return { fact, values, reasons };
}

/** A given value per mode has no more to say of a mode that it does not list. */
function hasMode({ content }: Fact, mode: string): boolean {
  return content.type !== 'modes' || content.modes.has(mode);
}

function contentIn(
  lowering: Lowering,
  fact: Fact,
  mode: string | null,
): { readonly content: FactContent; readonly causes: readonly Reason[] } {
  const typed = lowering.fact(fact, mode, 'item');
  const reasons = reasonsOf(typed);
  if (reasons !== null) return { content: { type: 'undecided' }, causes: reasons };
  switch (typed.type) {
    case 'quantity': {
      const [full, typical] = [
        lowering.extremes.extremes(typed.term, 'full'),
        lowering.extremes.extremes(typed.term, 'typical'),
      ];
      const none = [full, typical].find(isNoValue);
      if (none !== undefined) return { content: { type: 'undecided' }, causes: noValueReasons(fact.name, none) };
      return { content: quantityContent(typed, full as Extremes, typical as Extremes), causes: [] };
    }
    case 'text':
      return { content: typed, causes: [] };
    case 'condition': {
      const decided = lowering.extremes.decide(typed.condition, 'full');
      return { content: decided === null ? { type: 'undecided' } : { type: 'boolean', boolean: decided }, causes: [] };
    }
    case 'set':
      return { content: { type: 'set', items: typed.items.map((item) => setItem(lowering, item)) }, causes: [] };
    default:
      return { content: { type: 'undecided' }, causes: [] };
  }
}

function quantityContent(typed: TypedQuantity, full: Extremes, typical: Extremes): FactContent {
  return { type: 'quantity', full: full.outer, typical: typical.outer, dimension: typed.dimension, unit: typed.unit };
}

function setItem(lowering: Lowering, item: TypedQuantity | TypedText): FactContent {
  if (item.type === 'text') return item;
  const found = lowering.extremes.extremes(item.term, 'full');
  return isNoValue(found)
    ? { type: 'undecided' }
    : { type: 'quantity', full: found.outer, typical: found.outer, dimension: item.dimension, unit: item.unit };
}
