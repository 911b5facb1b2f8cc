/** One requirement judged: the worst of its criteria, or what has to be settled first. */
import { attributesOf, isSafety, type Requirement } from '../model/requirement';
import type { Expression } from '../syntax/expression/ast';
import { evidenceOf } from './evidence/evidence';
import type { Evidence } from './evidence/state';
import { type Basis, type CriterionResult, judgeCriterion } from './judge-criterion';
import { atRoot } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import type { PairingProblem } from './pairing';
import { readCriteria } from './read-criteria';
import { type Reason, reason, reasonsOf } from './typed';
import { type Verdict, worstVerdict } from './verdict';
import { type WaiverResult, waiverOf } from './waive';

export interface RequirementResult {
  readonly requirement: Requirement;
  readonly verdict: Verdict;
  /** `evidence` where nothing could be computed and nothing was meant to be; `rss` where root sum square decided. */
  readonly basis: Basis | 'evidence';
  readonly criteria: readonly CriterionResult[];
  readonly problems: readonly PairingProblem[];
  /** Causes outside its criteria: unknown names, facts without value. */
  readonly reasons: readonly Reason[];
  /** A figure that it rests on is marked TBR or TBC. */
  readonly provisional: boolean;
  /** Every name that its criteria rest on. */
  readonly uses: ReadonlySet<string>;
  /** Modes it is judged in; empty for all of the product's. */
  readonly modes: readonly string[];
  /** Conditions that say when it applies, and whether they hold: null where that is undecided. */
  readonly appliesWhen: readonly Expression[];
  readonly applies: boolean | null;
  readonly evidence: Evidence;
  /** What was granted, and whether it holds; null where nothing was or nothing needs to be. */
  readonly waiver: WaiverResult | null;
  /** The verdict under a waiver that holds, else null. */
  readonly withoutWaiver: Verdict | null;
}

export function requirementResult(lowering: Lowering, requirement: Requirement): RequirementResult {
  return lowering.together(() => judgedWithEvidence(lowering, requirement));
}

function judgedWithEvidence(lowering: Lowering, requirement: Requirement): RequirementResult {
  const judged = judgedByDesign(lowering, requirement);
  const evidence = evidenceOf(lowering, judged);
  if (judged.basis === 'evidence')
    return { ...judged, verdict: byEvidence(evidence), evidence, waiver: null, withoutWaiver: null };
  const waiver = waiverOf(lowering, judged);
  if (waiver?.type !== 'in-force') return { evidence, waiver, withoutWaiver: null, ...judged };
  return { ...judged, verdict: 'waived', evidence, waiver, withoutWaiver: judged.verdict };
}

type JudgedByDesign = Omit<RequirementResult, 'evidence' | 'waiver' | 'withoutWaiver'>;

function byEvidence({ state }: Evidence): Verdict {
  return state === 'verified' ? 'met' : state === 'failed' ? 'unmet' : 'open';
}

function judgedByDesign(lowering: Lowering, requirement: Requirement): JudgedByDesign {
  const read = readCriteria(lowering, requirement);
  const applies = appliesNow(lowering, read.appliesWhen, requirement.file);
  const by = judgedBy(requirement);
  const criteria = read.criteria.map((criterion) => judgeCriterion(lowering, criterion, read.modes, by));
  const reasons = [...read.reasons, ...applies.reasons, ...brokenLineReasons(requirement)];
  const asks = reasons.length > 0 || read.problems.some(({ undecides }) => undecides);
  const uses = usesOf(criteria);
  const provisional =
    criteria.some(({ criterion }) => criterion.provisional) ||
    [...uses].some((name) => lowering.product.facts.get(name)?.provisional);
  const common = {
    requirement,
    criteria,
    problems: read.problems,
    reasons,
    provisional,
    uses,
    modes: read.modes,
    appliesWhen: read.appliesWhen,
    applies: applies.holds,
  };
  if (applies.holds === false) return { verdict: 'not applicable', basis: 'worst-case', ...common };
  if (!read.computes && reasons.length === 0) return { verdict: 'open', basis: 'evidence', ...common };
  if (leavesUnread(read.problems) || requirement.brokenLines.length > 0) {
    return { verdict: 'undecided', basis: 'worst-case', ...common };
  }
  const verdicts = criteria.map(({ verdict }) => verdict);
  const basis = criteria.some((criterion) => criterion.basis === 'rss') ? 'rss' : 'worst-case';
  return { verdict: worstVerdict(asks ? [...verdicts, 'undecided'] : verdicts), basis, ...common };
}

function usesOf(criteria: readonly CriterionResult[]): ReadonlySet<string> {
  const [first, ...others] = criteria;
  if (first !== undefined && others.length === 0) return first.uses;
  return new Set(criteria.flatMap(({ uses }) => [...uses]));
}

/** Root sum square where `Judge by` asks for it, never where anybody can come to harm. */
function judgedBy(requirement: Requirement): Basis {
  const asked = attributesOf(requirement, 'Judge by').some(({ text }) => text.toLowerCase() === 'rss');
  return asked && !isSafety(requirement) ? 'rss' : 'worst-case';
}

/** What a reader takes for a promise stands unchecked, or two texts disagree: then no criterion speaks for the whole. */
function leavesUnread(problems: readonly PairingProblem[]): boolean {
  return problems.some(({ code, undecides }) => undecides && (code === 'unchecked' || code === 'words-disagree'));
}

/** What was parted from the sentence may be its limit, so nothing in it is decided. */
function brokenLineReasons({ brokenLines, file }: Requirement): readonly Reason[] {
  return brokenLines.map(({ code, message, span, fix }) =>
    reason(code, message, { file, span }, { fixes: fix === undefined ? [] : [fix] }),
  );
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
