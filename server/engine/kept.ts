/** Judging a product again: what stands is taken over, the rest is worked out and noted. */
import type { Fact } from '../model/fact';
import { isOfOneSource } from '../model/patched-map';
import type { Product } from '../model/product';
import type { Requirement } from '../model/requirement';
import { holdsSame } from '../model/same';
import { type Analysis, analysisOf, distinct, guardedFact, guardedRequirement } from './analysis';
import type { FactResult } from './fact-result';
import { Lowering } from './lowering/lowering';
import { type AnalysisPart, type PartSource, partSources, ratesOf, sourceOf } from './parts';
import { ProductIndex } from './product-index';
import { Recorder, recorded } from './recorder';
import { type Limit, limitsOf } from './relations/limit';
import type { RequirementResult } from './requirement-result';

/** What there is of the product as it was last. */
export interface Kept {
  readonly product: Product;
  readonly recorder: Recorder;
  readonly lowering: Lowering;
  readonly facts: Map<Fact, FactResult>;
  readonly requirements: Map<Requirement, RequirementResult>;
  readonly limits: Map<Requirement, readonly Limit[]>;
  /** By file. */
  readonly parts: ReadonlyMap<string, AnalysisPart>;
  readonly index: ProductIndex;
}

/** What was kept, without what rests on something that changed. */
export interface Start {
  readonly kept: Kept;
  /** Files in which something is to be judged anew. */
  readonly files: ReadonlySet<string>;
}

export interface LastWork {
  readonly facts: readonly string[];
  /** By id. */
  readonly requirements: readonly string[];
}

export interface Done {
  readonly kept: Kept;
  readonly analysis: Analysis;
  readonly lastWork: LastWork;
  /** A fact that was judged now rests on itself; what was kept does not. */
  readonly hasCycle: boolean;
}

/** The whole product judged, as far as it is not kept. */
export function work(start: Start | null, product: Product): Done {
  const before = start?.kept ?? null;
  const recorder = before?.recorder ?? new Recorder();
  const lowering = new Lowering(recorded(product, recorder), 'constants', {
    recorder,
    former: before?.lowering ?? null,
  });
  const limits = before?.limits ?? new Map<Requirement, readonly Limit[]>();
  const bench: Bench = {
    recorder,
    lowering,
    facts: before?.facts ?? new Map(),
    requirements: before?.requirements ?? new Map(),
    limits,
    index: before?.index ?? new ProductIndex(recorder, ({ requirement }) => limits.get(requirement) ?? []),
    made: { facts: [], requirements: [] },
  };
  const parts = judgedParts(start, product, bench);
  takeIn(bench, parts, start);
  const { index, made } = bench;
  const analysis = analysisOf({
    product,
    parts: [...parts.values()],
    notes: distinct(recorder.kept()),
    lowering,
    index: () => index,
    recorder,
  });
  return {
    kept: { ...bench, product, parts },
    analysis,
    lastWork: {
      facts: made.facts.map(({ fact }) => fact.name),
      requirements: made.requirements.map(({ requirement }) => requirement.id),
    },
    hasCycle: made.facts.some(({ reasons }) => reasons.some(({ code }) => code === 'cycle')),
  };
}

/** What results are made with and kept in, and those that were made now. */
interface Bench extends Omit<Kept, 'product' | 'parts'> {
  readonly made: { readonly facts: FactResult[]; readonly requirements: RequirementResult[] };
}

/** What is judged anew, or in part, and what is as it was. */
type Plan = { readonly known: AnalysisPart } | { readonly source: PartSource };

function judgedParts(start: Start | null, product: Product, bench: Bench): ReadonlyMap<string, AnalysisPart> {
  const known = start?.kept.parts ?? NO_PARTS;
  const plans = plansOf(start, product);
  // Facts of all documents first: which of a circle is met first must not rest on what was kept.
  const judged = plans.map((plan) =>
    'known' in plan ? plan : { source: plan.source, facts: plan.source.facts.map((fact) => keptFact(bench, fact)) },
  );
  const parts = judged.map((plan) => {
    if ('known' in plan) return plan.known;
    const requirements = plan.source.requirements.map((requirement) => keptRequirement(bench, requirement));
    return retainedPart(known.get(plan.source.file), { ...plan.source, facts: plan.facts, requirements });
  });
  return new Map(parts.map((part) => [part.file, part]));
}

const NO_PARTS: ReadonlyMap<string, AnalysisPart> = new Map();

/** A document is looked at where it is other, something in it is to be judged anew, or any name may mean something else. */
function plansOf(start: Start | null, product: Product): readonly Plan[] {
  if (start === null || !isOfOneSource(start.kept.product.facts, product.facts))
    return partSources(product).map((source) => ({ source }));
  const { kept, files } = start;
  return [
    { source: ratesOf(product) },
    ...product.documents.map((document): Plan => {
      const known = kept.parts.get(document.file);
      const stands = known?.document === document && !files.has(document.file);
      return known !== undefined && stands ? { known } : { source: sourceOf(product, document) };
    }),
  ];
}

function retainedPart(known: AnalysisPart | undefined, made: AnalysisPart): AnalysisPart {
  const isSame =
    known !== undefined &&
    known.document === made.document &&
    holdsSame(known.facts, made.facts) &&
    holdsSame(known.requirements, made.requirements);
  return isSame ? known : made;
}

function keptFact({ facts, made, recorder, lowering }: Bench, fact: Fact): FactResult {
  const known = facts.get(fact);
  if (known !== undefined) return known;
  const result = recorder.run(fact, () => guardedFact(lowering, fact));
  made.facts.push(result);
  facts.set(fact, result);
  return result;
}

function keptRequirement(bench: Bench, requirement: Requirement): RequirementResult {
  const { requirements, limits, made, recorder, lowering } = bench;
  const known = requirements.get(requirement);
  if (known !== undefined) return known;
  return recorder.run(requirement, () => {
    const result = guardedRequirement(lowering, requirement);
    made.requirements.push(result);
    requirements.set(requirement, result);
    limits.set(requirement, limitsOf(lowering, result));
    return result;
  });
}

/** Whoever looked up what is other now is forgotten as well. */
function takeIn({ index, recorder }: Bench, parts: ReadonlyMap<string, AnalysisPart>, before: Start | null): void {
  const known = before?.kept.parts ?? NO_PARTS;
  const changed: string[] = [];
  for (const file of known.keys()) if (!parts.has(file)) changed.push(...index.take(file, null));
  for (const [file, part] of parts) if (part !== known.get(file)) changed.push(...index.take(file, part));
  recorder.forget(changed, []);
}
