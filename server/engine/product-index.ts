/** Where requirements with an id stand, which rest on a figure, what limits one expression: for whoever looks beyond one document. */
import type { Requirement } from '../model/requirement';
import { KeyedLists } from './keyed-lists';
import type { AnalysisPart } from './parts';
import { keys, type Recorder } from './recorder';
import type { Limit } from './relations/limit';
import type { RequirementResult } from './requirement-result';

/** The limits of a requirement that was judged. */
export type LimitsOf = (result: RequirementResult) => readonly Limit[];

export class ProductIndex {
  private readonly requirements = new KeyedLists<Requirement>();
  private readonly results = new KeyedLists<RequirementResult>();
  private readonly resting = new KeyedLists<Requirement>();
  private readonly limits = new KeyedLists<Limit>();

  /** @param recorder notes what is looked up, where work is kept from one analysis to the next */
  constructor(
    private readonly recorder: Recorder | null,
    private readonly limitsOfResult: LimitsOf,
  ) {}

  /** In file and text order; the first is the one that others mean. */
  withId(id: string): readonly Requirement[] {
    this.recorder?.note(keys.id(id));
    return this.requirements.get(id);
  }

  /** The requirements that rest on a fact, in file and text order. */
  restingOn(fact: string): readonly Requirement[] {
    this.recorder?.note(keys.resting(fact));
    return this.resting.get(fact);
  }

  /** What a requirement limits. */
  limitsOf(requirement: Requirement): readonly Limit[] {
    this.recorder?.note(keys.result(requirement.id));
    const result = this.results.get(requirement.id).find((one) => one.requirement === requirement);
    return result === undefined ? [] : this.limitsOfResult(result);
  }

  /** All limits on the same expression that apply together with this one, itself among them; the same array while none is other. */
  limitsLike(limit: Limit): readonly Limit[] {
    const key = expressionOf(limit);
    this.recorder?.note(keys.limits(key));
    return this.limits.get(key);
  }

  /**
   * Takes in what a part says now.
   * @param part null where there is none of that name any more
   * @returns the keys that whoever looked up something else has noted
   */
  take(file: string, part: AnalysisPart | null): readonly string[] {
    const results = part?.requirements ?? [];
    const limits = (result: RequirementResult) => this.byExpression(result);
    return [
      ...this.requirements.set(file, grouped(results, idOf)).map(keys.id),
      ...this.results.set(file, grouped(results, resultOf)).map(keys.result),
      ...this.resting.set(file, grouped(results, usesOf)).map(keys.resting),
      ...this.limits.set(file, grouped(results, limits)).map(keys.limits),
    ];
  }

  private byExpression(result: RequirementResult): readonly Entry<Limit>[] {
    return this.limitsOfResult(result).map((limit) => [expressionOf(limit), limit]);
  }
}

/** A key and what is added to its list. */
type Entry<Value> = readonly [string, Value];

/** What two limits have in common that can contradict each other. */
export function expressionOf({ subject, when }: Limit): string {
  return `${subject}\n${when}`;
}

function idOf({ requirement }: RequirementResult): readonly Entry<Requirement>[] {
  return [[requirement.id, requirement]];
}

function resultOf(result: RequirementResult): readonly Entry<RequirementResult>[] {
  return [[result.requirement.id, result]];
}

function usesOf({ requirement, uses }: RequirementResult): readonly Entry<Requirement>[] {
  return [...uses].map((name) => [name, requirement]);
}

function grouped<Value>(
  results: readonly RequirementResult[],
  entriesOf: (result: RequirementResult) => readonly Entry<Value>[],
): ReadonlyMap<string, readonly Value[]> {
  const lists = new Map<string, Value[]>();
  for (const result of results) {
    for (const [key, value] of entriesOf(result)) {
      const known = lists.get(key);
      if (known === undefined) lists.set(key, [value]);
      else known.push(value);
    }
  }
  return lists;
}
