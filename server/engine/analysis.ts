/** The whole product judged: every fact's value, every requirement's verdict, and every cause that leaves something undecided. */
import type { Fact } from '../model/fact';
import type { Product } from '../model/product';
import type { Requirement } from '../model/requirement';
import { type FactResult, factResult } from './fact-result';
import { Lowering } from './lowering/lowering';
import { type AnalysisPart, partSources } from './parts';
import { ProductIndex } from './product-index';
import type { Recorder } from './recorder';
import { limitsOf } from './relations/limit';
import { type RequirementResult, requirementResult } from './requirement-result';
import { type Reason, reason } from './typed';

export type { FactContent, FactResult, FactValue } from './fact-result';
export type { RequirementResult } from './requirement-result';

export interface Analysis {
  readonly product: Product;
  /** What is found document by document: the rates of own units first, then every document that counts, in file order. */
  readonly parts: readonly AnalysisPart[];
  /** Of all parts. */
  readonly requirements: readonly RequirementResult[];
  readonly facts: readonly FactResult[];
  /** Worth saying though it decides nothing. */
  readonly notes: readonly Reason[];
  /** What names and expressions of the product mean, for whoever asks on. */
  readonly lowering: Lowering;
  /** By file; undefined where nothing of it counts. */
  part(file: string): AnalysisPart | undefined;
  /** Who stands under an id, and who rests on a figure. */
  index(): ProductIndex;
  /** Who looked up what, where work is kept from one analysis to the next, else null. */
  readonly recorder: Recorder | null;
}

export function analyse(product: Product): Analysis {
  const lowering = new Lowering(product);
  const judged = partSources(product)
    .map((source) => ({ ...source, facts: source.facts.map((fact) => guardedFact(lowering, fact)) }))
    .map((source) => ({
      ...source,
      requirements: source.requirements.map((requirement) => guardedRequirement(lowering, requirement)),
    }));
  const index = once(() => indexed(judged, lowering));
  return analysisOf({ parts: judged, product, notes: distinct(lowering.notes), lowering, index, recorder: null });
}

/** With what all parts hold, listed when it is asked for. */
export function analysisOf(given: Omit<Analysis, 'facts' | 'requirements' | 'part'>): Analysis {
  const { parts, product, notes, lowering, index, recorder } = given;
  const facts = once(() => parts.flatMap((part) => part.facts));
  const requirements = once(() => parts.flatMap((part) => part.requirements));
  const byFile = once(() => new Map(parts.map((part) => [part.file, part])));
  return {
    product,
    parts,
    part: (file) => byFile().get(file),
    notes,
    lowering,
    index,
    recorder,
    get facts() {
      return facts();
    },
    get requirements() {
      return requirements();
    },
  };
}

/** What a fact of the product was judged to be; undefined where several have the name, or none. */
export function factResultNamed(analysis: Analysis, name: string): FactResult | undefined {
  const fact = analysis.product.facts.get(name);
  return fact && analysis.part(fact.file)?.facts.find((result) => result.fact.name === name);
}

function once<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null;
  return () => {
    made ??= { value: make() };
    return made.value;
  };
}

function indexed(parts: readonly AnalysisPart[], lowering: Lowering): ProductIndex {
  const index = new ProductIndex(null, (result) => limitsOf(lowering, result));
  for (const part of parts) index.take(part.file, part);
  return index;
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
