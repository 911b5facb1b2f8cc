/** One requirement judged: the worst of its criteria, or what has to be settled first. */
import type { Requirement } from '../model/requirement';
import type { Expression } from '../syntax/expression/ast';
import { type CriterionResult, judgeCriterion } from './judge-criterion';
import { atRoot } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import type { PairingProblem } from './pairing';
import { readCriteria } from './read-criteria';
import { type Reason, reason, reasonsOf } from './typed';
import { type Verdict, worstVerdict } from './verdict';

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
  /** Every name that its criteria rest on. */
  readonly uses: ReadonlySet<string>;
  /** Modes it is judged in; empty for all of the product's. */
  readonly modes: readonly string[];
  /** Conditions that say when it applies, and whether they hold: null where that is undecided. */
  readonly appliesWhen: readonly Expression[];
  readonly applies: boolean | null;
}

export function requirementResult(lowering: Lowering, requirement: Requirement): RequirementResult {
  const read = readCriteria(lowering, requirement);
  const applies = appliesNow(lowering, read.appliesWhen, requirement.file);
  const criteria = read.criteria.map((criterion) => judgeCriterion(lowering, criterion, read.modes));
  const reasons = [...read.reasons, ...applies.reasons, ...brokenLineReasons(requirement)];
  const asks = reasons.length > 0 || read.problems.some(({ undecides }) => undecides);
  const uses = new Set(criteria.flatMap((criterion) => [...criterion.uses]));
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
  if (applies.holds === false) return { ...common, verdict: 'not applicable', basis: 'worst-case' };
  if (!read.computes && reasons.length === 0) return { ...common, verdict: 'open', basis: 'evidence' };
  if (leavesUnread(read.problems) || requirement.brokenLines.length > 0) {
    return { ...common, verdict: 'undecided', basis: 'worst-case' };
  }
  const verdicts = criteria.map(({ verdict }) => verdict);
  return { ...common, verdict: worstVerdict(asks ? [...verdicts, 'undecided'] : verdicts), basis: 'worst-case' };
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
