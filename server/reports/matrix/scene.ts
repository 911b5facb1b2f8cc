/** What the parts of the matrix look things up in, made once. */
import type { FactResult, RequirementResult } from '../../engine/analysis';
import type { ProductAnalysis } from '../../findings/product-analysis';
import type { Place } from '../../model/place';
import { type Lines, lineIndexes } from '../lines';
import type { LinePlace, RestingRequirement } from './record';

export interface Scene {
  readonly result: ProductAnalysis;
  readonly lines: Lines;
  /** Of every requirement, unique. */
  readonly keys: ReadonlyMap<RequirementResult, string>;
  readonly order: ReadonlyMap<RequirementResult, number>;
  /** Of the first requirement with an id, the one that others mean. */
  readonly keyOfId: ReadonlyMap<string, string>;
  readonly generous: ReadonlySet<RequirementResult>;
  readonly facts: ReadonlyMap<string, FactResult>;
  /** Requirements that rest on a name, in their order. */
  readonly resting: ReadonlyMap<string, readonly RequirementResult[]>;
}

export function createScene(result: ProductAnalysis): Scene {
  const { analysis, ranges } = result;
  const { keys, keyOfId } = keysOf(analysis.requirements);
  return {
    result,
    lines: lineIndexes(result.texts),
    keys,
    keyOfId,
    order: new Map(analysis.requirements.map((requirement, index) => [requirement, index])),
    generous: new Set(ranges?.overSpecified.map((found) => found.result)),
    facts: new Map(analysis.facts.map((fact) => [fact.fact.name, fact])),
    resting: restingOn(analysis.requirements),
  };
}

export function linePlace({ lines }: Scene, { file, span }: Place): LinePlace {
  return { file, line: lines(file).positionAt(span.start).line + 1 };
}

export function restingRequirement({ keys }: Scene, result: RequirementResult): RestingRequirement {
  const { id } = result.requirement;
  return { key: keys.get(result) ?? id, id, verdict: result.verdict };
}

/** In the order of the documents. */
export function inOrder({ order }: Scene, some: Iterable<RequirementResult>): readonly RequirementResult[] {
  return [...some].sort((a, b) => (order.get(a) ?? 0) - (order.get(b) ?? 0));
}

function keysOf(requirements: readonly RequirementResult[]) {
  const keys = new Map<RequirementResult, string>();
  const keyOfId = new Map<string, string>();
  const counts = new Map<string, number>();
  for (const result of requirements) {
    const { id } = result.requirement;
    const count = (counts.get(id) ?? 0) + 1;
    counts.set(id, count);
    keys.set(result, count === 1 ? id : `${id}~${count}`);
    if (count === 1) keyOfId.set(id, id);
  }
  return { keys, keyOfId };
}

function restingOn(requirements: readonly RequirementResult[]): ReadonlyMap<string, readonly RequirementResult[]> {
  const resting = new Map<string, RequirementResult[]>();
  for (const result of requirements) {
    for (const name of result.uses) {
      const known = resting.get(name);
      if (known === undefined) resting.set(name, [result]);
      else known.push(result);
    }
  }
  return resting;
}
