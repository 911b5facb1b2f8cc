/** The ranges that a criterion rests on, and which of them the runs went through. */
import type { Fact } from '../../model/fact';
import type { Product } from '../../model/product';
import type { RunValue } from '../../model/verification';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import * as rational from '../../quantity/rational';
import type { QuantityValue } from '../../quantity/value';
import type { CriterionResult } from '../judge-criterion';
import { factNamed, knownValue } from './measured';
import type { Uncovered } from './state';

/** @param at the conditions of all passing runs */
export function uncoveredRanges(
  product: Product,
  results: readonly CriterionResult[],
  at: readonly RunValue[],
): readonly Uncovered[] {
  const tested = testedRanges(product, at);
  const names = new Set(
    results.flatMap(({ criterion, uses }) => [...uses].filter((name) => name !== spanned(criterion))),
  );
  return [...names].flatMap((name) => {
    const range = rangeOf(product.facts.get(name));
    if (range === null) return [];
    const own = tested.get(name) ?? null;
    const extent = { low: range.low, high: range.high };
    return own !== null && holds(own, extent) ? [] : [{ name, range: extent, tested: own, unit: range.unit }];
  });
}

/** A range that a capability has is what the criterion is about, not a condition of it. */
function spanned({ condition }: CriterionResult['criterion']): string | null {
  const isSpans = condition.type === 'ends' && condition.relation === 'spans';
  return isSpans && condition.value.type === 'name' ? condition.value.parts.join('.') : null;
}

function testedRanges(product: Product, at: readonly RunValue[]): ReadonlyMap<string, Interval> {
  const tested = new Map<string, Interval>();
  for (const one of at) {
    const name = factNamed(product, one.name)?.fact.name;
    const value = knownValue(one);
    if (name === undefined || value?.type !== 'quantity') continue;
    // A condition with an uncertainty was surely only where all of it lies.
    const extent = value.spread === 'tolerance' ? interval.point(value.typical ?? rational.ZERO) : value;
    const known = tested.get(name);
    tested.set(name, known === undefined ? { low: extent.low, high: extent.high } : interval.hull(known, extent));
  }
  return tested;
}

function holds(own: Interval, range: Interval): boolean {
  const low = own.low !== null && range.low !== null && rational.compare(own.low, range.low) <= 0;
  const high = own.high !== null && range.high !== null && rational.compare(own.high, range.high) >= 0;
  return low && high;
}

/** A given range, over all modes; `{min, typ, max}` and tolerances are no ranges. */
function rangeOf(fact: Fact | undefined): QuantityValue | null {
  if (fact?.content.type === 'value') return asRange(fact.content.value);
  if (fact?.content.type !== 'modes') return null;
  const all = [...fact.content.modes.values()].flatMap((content) =>
    content.type === 'value' && content.value.type === 'quantity' ? [content.value] : [],
  );
  const [first, ...rest] = all;
  if (first === undefined || all.every((value) => asRange(value) === null)) return null;
  const hull = rest.reduce<Interval>((joined, value) => interval.hull(joined, value), first);
  return { ...first, low: hull.low, high: hull.high };
}

function asRange(value: { readonly type: string }): QuantityValue | null {
  const quantity = value.type === 'quantity' ? (value as QuantityValue) : null;
  return quantity?.spread === 'range' ? quantity : null;
}
