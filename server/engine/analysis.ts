/** The whole product judged: every fact's value, every requirement's verdict, and every cause that leaves something undecided. */
import type { Fact } from '../model/fact';
import type { Product } from '../model/product';
import type { Requirement } from '../model/requirement';
import type { Dimension } from '../quantity/dimension';
import type { Interval } from '../quantity/interval';
import type { Unit } from '../quantity/unit';
import type { Expression } from '../syntax/expression/ast';
import { isNoValue } from './enclosure';
import type { Extremes } from './extremes';
import { type CriterionResult, judgeCriterion } from './judge-criterion';
import { atRoot } from './lowering/environment';
import { Lowering } from './lowering/lowering';
import { noValueReasons } from './no-value';
import type { PairingProblem } from './pairing';
import { readCriteria } from './read-criteria';
import { type Reason, reason, reasonsOf, type TypedQuantity, type TypedText } from './typed';
import { type Verdict, worstVerdict } from './verdict';

export interface Analysis {
  readonly product: Product;
  readonly requirements: readonly RequirementResult[];
  readonly facts: readonly FactResult[];
  /** Worth saying though it decides nothing. */
  readonly notes: readonly Reason[];
}

export interface RequirementResult {
  readonly requirement: Requirement;
  readonly verdict: Verdict;
  /** `evidence` where nothing could be computed and nothing was meant to be. */
  readonly basis: 'worst-case' | 'evidence';
  readonly criteria: readonly CriterionResult[];
  readonly problems: readonly PairingProblem[];
  /** Causes outside its criteria: unknown names, facts without value. */
  readonly reasons: readonly Reason[];
  /** A figure that it rests on is marked TBR or TBC. */
  readonly provisional: boolean;
  readonly uses: ReadonlySet<string>;
}

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

export function analyse(product: Product): Analysis {
  const lowering = new Lowering(product);
  const facts = [...product.facts.values()].map((fact) => factResult(lowering, fact));
  const requirements = product.requirements.map((requirement) => requirementResult(lowering, requirement));
  return { product, requirements, facts, notes: distinct(lowering.notes) };
}

/** The same place may be asked in several modes and by several names. */
function distinct(notes: readonly Reason[]): readonly Reason[] {
  return [...new Map(notes.map((note) => [`${note.place.file} ${note.place.span.start} ${note.code}`, note])).values()];
}

function requirementResult(lowering: Lowering, requirement: Requirement): RequirementResult {
  const read = readCriteria(lowering, requirement);
  const applies = appliesNow(lowering, read.appliesWhen, requirement.file);
  const criteria = read.criteria.map((criterion) => judgeCriterion(lowering, criterion, read.modes));
  const reasons = [...read.reasons, ...applies.reasons];
  const asks = reasons.length > 0 || read.problems.some(({ undecides }) => undecides);
  const uses = new Set(criteria.flatMap((criterion) => [...criterion.uses]));
  const provisional =
    criteria.some(({ criterion }) => criterion.provisional) ||
    [...uses].some((name) => lowering.product.facts.get(name)?.provisional);
  const common = { requirement, criteria, problems: read.problems, reasons, provisional, uses };
  if (applies.holds === false) return { ...common, verdict: 'not applicable', basis: 'worst-case' };
  if (!read.computes && reasons.length === 0) return { ...common, verdict: 'open', basis: 'evidence' };
  const verdicts = criteria.map(({ verdict }) => verdict);
  return { ...common, verdict: worstVerdict(asks ? [...verdicts, 'undecided'] : verdicts), basis: 'worst-case' };
}

/** Whether the conditions of *Where* and *Applies when* hold: null where that is undecided. */
function appliesNow(
  lowering: Lowering,
  conditions: readonly Expression[],
  file: string,
): { readonly holds: boolean | null; readonly reasons: readonly Reason[] } {
  const reasons: Reason[] = [];
  for (const condition of conditions) {
    const typed = lowering.expression(condition, atRoot(file, null));
    const own = reasonsOf(typed);
    if (own !== null) reasons.push(...own);
    else if (typed.type === 'condition' && lowering.extremes.decide(typed.condition, 'full') === false)
      return { holds: false, reasons: [] };
    else if (typed.type !== 'condition')
      reasons.push(
        reason('unit-mismatch', 'what says when a requirement applies is a condition: compare it with something', {
          file,
          span: condition.span,
        }),
      );
  }
  return { holds: reasons.length > 0 ? null : true, reasons };
}

function factResult(lowering: Lowering, fact: Fact): FactResult {
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
