/** Criteria with the measured values of a run in place of the design's. */

import type { Fact } from '../../model/fact';
import { isDerived } from '../../model/fact';
import { lookUp } from '../../model/names';
import type { Product } from '../../model/product';
import type { RunValue } from '../../model/verification';
import type { SimpleValue } from '../../quantity/value';
import { type ChangedValue, changedProduct } from '../changes';
import { type CriterionResult, judgeCriterion } from '../judge-criterion';
import { Lowering } from '../lowering/lowering';

/** A name of a run and the fact that it means. */
export interface NamedFact {
  readonly fact: Fact;
  readonly mode: string | null;
}

export interface MeasuredResult {
  readonly result: CriterionResult;
  readonly measured: CriterionResult;
  /** Every figure that the criterion rests on was measured. */
  readonly isWhole: boolean;
}

/** Facts, and their values in one mode, can be measured; ends, tables and expressions cannot. */
export function factNamed(product: Product, name: string): NamedFact | null {
  const meaning = lookUp(product, name.split('.'), []);
  if (meaning?.type === 'fact') return { fact: meaning.fact, mode: null };
  if (meaning?.type === 'in-mode' && meaning.of.type === 'fact') return { fact: meaning.of.fact, mode: meaning.mode };
  return null;
}

/** The value of a run; null where it could not be read or is not known. */
export function knownValue({ content, problems }: RunValue): SimpleValue | null {
  return content.type === 'value' && problems.length === 0 ? content.value : null;
}

/** The criteria that measured values bear on, judged with them. */
export function judgedWith(
  lowering: Lowering,
  results: readonly CriterionResult[],
  modes: readonly string[],
  measured: readonly RunValue[],
): readonly MeasuredResult[] {
  const changes = changesOf(lowering, measured);
  if (changes.length === 0) return [];
  const product = changedProduct(lowering.product, { values: changes, without: [] });
  const changed = new Lowering(product);
  const measuredModes = changes.flatMap(({ mode }) => (mode === null ? [] : [mode]));
  const names = new Set(changes.map(({ name }) => name));
  return results
    .filter(({ uses }) => [...names].some((name) => uses.has(name)))
    .map((result) => {
      const judged = judgeCriterion(
        changed,
        result.criterion,
        measuredModes.length > 0 ? measuredModes : modes,
        'worst-case',
      );
      const isWhole = [...judged.uses].every((name) => names.has(name) || !isGiven(product.facts.get(name)));
      return { result, measured: judged, isWhole };
    });
}

/** A value in another unit than the fact's can replace nothing; it is reported where it stands. */
function changesOf(lowering: Lowering, measured: readonly RunValue[]): readonly ChangedValue[] {
  return measured.flatMap((one) => {
    const named = factNamed(lowering.product, one.name);
    const value = knownValue(one);
    if (named === null || value === null || !fits(lowering, named, value)) return [];
    return [{ name: named.fact.name, mode: named.mode, value }];
  });
}

/** Whether a value can be one of the fact: the same kind of thing, of the same dimension and scale. */
export function fits(lowering: Lowering, { fact, mode }: NamedFact, value: SimpleValue): boolean {
  const [first = null] = lowering.product.modes;
  const plain = lowering.fact(fact, mode, 'item');
  const typed = plain.type === 'undecided' && mode === null ? lowering.fact(fact, first, 'item') : plain;
  if (typed.type === 'quantity')
    return (
      value.type === 'quantity' && value.unit.dimension.key === typed.dimension.key && value.unit.point === typed.point
    );
  if (typed.type === 'condition') return value.type === 'boolean';
  return typed.type === 'text' || typed.type === 'set' ? value.type === typed.type : true;
}

function isGiven(fact: Fact | undefined): boolean {
  return fact !== undefined && !isDerived(fact.content);
}
