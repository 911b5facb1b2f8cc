/** The whole product judged: every fact's value, every requirement's verdict, and every cause that leaves something undecided. */
import type { Fact } from '../model/fact';
import type { Product } from '../model/product';
import type { Requirement } from '../model/requirement';
import { type FactResult, factResult } from './fact-result';
import { Lowering } from './lowering/lowering';
import type { Limit } from './relations/limit';
import { type RequirementResult, requirementResult } from './requirement-result';
import { type Reason, reason } from './typed';

export type { FactContent, FactResult, FactValue } from './fact-result';
export type { RequirementResult } from './requirement-result';

export interface Analysis {
  readonly product: Product;
  readonly requirements: readonly RequirementResult[];
  readonly facts: readonly FactResult[];
  /** Worth saying though it decides nothing. */
  readonly notes: readonly Reason[];
  /** What names and expressions of the product mean, for whoever asks on. */
  readonly lowering: Lowering;
  /** What requirements limit, where the work is kept from one analysis to the next. */
  readonly limits?: ReadonlyMap<Requirement, readonly Limit[]>;
}

export function analyse(product: Product): Analysis {
  const lowering = new Lowering(product);
  const facts = [...product.facts.values()].map((fact) => guardedFact(lowering, fact));
  const requirements = product.requirements.map((requirement) => guardedRequirement(lowering, requirement));
  return { product, requirements, facts, notes: distinct(lowering.notes), lowering };
}

/** The same place may be asked in several modes and by several names, in any order. */
export function distinct(notes: readonly Reason[]): readonly Reason[] {
  const inOrder = [...notes].sort((a, b) => (a.message < b.message ? -1 : 1));
  return [
    ...new Map(inOrder.map((note) => [`${note.place.file} ${note.place.span.start} ${note.code}`, note])).values(),
  ];
}

/** A mistake of ours in one fact is confessed there, and the rest is judged. */
export function guardedFact(lowering: Lowering, fact: Fact): FactResult {
  try {
    return factResult(lowering, fact);
  } catch (error) {
    lowering.abandon();
    const cause = ourMistake(fact.name, error, { file: fact.file, span: fact.nameSpan });
    return { fact, values: [{ mode: null, content: { type: 'undecided' } }], reasons: [cause] };
  }
}

export function guardedRequirement(lowering: Lowering, requirement: Requirement): RequirementResult {
  try {
    return requirementResult(lowering, requirement);
  } catch (error) {
    lowering.abandon();
    const cause = ourMistake(requirement.id, error, { file: requirement.file, span: requirement.idSpan });
    return {
      requirement,
      verdict: 'undecided',
      basis: 'worst-case',
      criteria: [],
      problems: [],
      reasons: [cause],
      provisional: false,
      uses: new Set(),
      modes: [],
      appliesWhen: [],
      applies: null,
      evidence: { state: 'untested', items: [] },
      waiver: null,
      withoutWaiver: null,
    };
  }
}

function ourMistake(name: string, error: unknown, place: Reason['place']): Reason {
  const what = error instanceof Error ? error.message : String(error);
  return reason('internal', `${name} could not be judged because of a mistake in the program: ${what}`, place);
}
