/** The ranges that a criterion rests on, and which of them the runs went through. */
import type { Fact } from '../../model/fact';
import type { Product } from '../../model/product';
import type { RunValue } from '../../model/verification';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import * as rational from '../../quantity/rational';
import type { QuantityValue } from '../../quantity/value';
import type { Expression } from '../../syntax/expression/ast';
import type { Criterion } from '../criterion';
import type { CriterionResult } from '../judge-criterion';
import { atRoot } from '../lowering/environment';
import type { Lowering } from '../lowering/lowering';
import { factNamed, knownValue } from './measured';
import type { Uncovered } from './state';

/** @param at the conditions of all passing runs */
export function uncoveredRanges(
  lowering: Lowering,
  results: readonly CriterionResult[],
  at: readonly RunValue[],
): readonly Uncovered[] {
  const { product } = lowering;
  const tested = testedRanges(product, at);
  const names = new Set(
    results.flatMap(({ criterion, uses }) => {
      const capability = spanned(lowering, criterion);
      return [...uses].filter((name) => !capability.has(name));
    }),
  );
  return [...names].flatMap((name) => {
    const range = rangeOf(product.facts.get(name));
    if (range === null) return [];
    const own = tested.get(name) ?? null;
    const extent = { low: range.low, high: range.high };
    return own !== null && holds(own, extent) ? [] : [{ name, range: extent, tested: own, unit: range.unit }];
  });
}

/** Ranges that a capability has are what the criterion is about, not conditions of it. */
function spanned(lowering: Lowering, { condition, over, place }: Criterion): ReadonlySet<string> {
  if (over !== null || condition.type !== 'ends' || condition.relation !== 'spans') return new Set();
  const usesOf = (...nodes: readonly Expression[]) => {
    const { uses } = lowering.tracked(() => nodes.map((node) => lowering.expression(node, atRoot(place.file, null))));
    return lowering.restsOn(uses);
  };
  const ofLimits = usesOf(condition.low, condition.high);
  return new Set([...usesOf(condition.value)].filter((name) => !ofLimits.has(name)));
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
