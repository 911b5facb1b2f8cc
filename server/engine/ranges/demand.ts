/** What a requirement asks of the given figures: signs of distances and conditions over terms in which every figure may move. */
import type { Fact } from '../../model/fact';
import type { Requirement } from '../../model/requirement';
import { casesOf, type Part, partsGranted, partsOf } from '../claims';
import type { ExtremeFinder } from '../extremes';
import { judgeCondition } from '../judge-condition';
import { atRoot } from '../lowering/environment';
import type { Lowering } from '../lowering/lowering';
import type { RequirementResult } from '../requirement-result';
import { type Support, sum } from '../term';

export interface Demand {
  readonly result: RequirementResult;
  readonly requirement: Requirement;
  /** All of them hold when the requirement is met. */
  readonly parts: readonly Part[];
  /** Something in it is open whatever the figures are: no figure alone can make it met. */
  readonly isOpen: boolean;
  /** Names that decide whether it applies. */
  readonly applying: ReadonlySet<string>;
  /** Whether they do so over a spread, which no condition of the terms shows. */
  readonly appliesOverSpread: boolean;
}

/** The demand of a requirement, for a lowering in which figures are variables. */
export function demandOf(lowering: Lowering, result: RequirementResult): Demand {
  const { requirement, criteria, modes } = result;
  const judged = lowering.together(() =>
    criteria.map((one) => ({ one, cases: casesOf(lowering, one.criterion, modes) })),
  );
  const claims = judged.flatMap(({ cases }) => cases.map(({ claim }) => claim));
  const waived = result.waiver?.type === 'in-force' ? result.waiver : null;
  const parts = judged.flatMap(({ one, cases }) =>
    cases.flatMap(({ claim }) => (waived?.of === one ? partsGranted(claim, waived.granted) : partsOf(claim))),
  );
  const isOpen =
    claims.some((claim) => claim.type === 'undecided' || (claim.type === 'spans' && claim.open.length > 0)) ||
    result.problems.some(({ undecides }) => undecides) ||
    result.reasons.length > 0;
  return { result, requirement, parts: parts.flatMap(oneByOne), isOpen, ...applyingOf(lowering, result) };
}

/** The greatest of several stays below a limit when each of them does; so with the least above one. */
function oneByOne(part: Part): readonly Part[] {
  if (part.type === 'clause' || part.distance.type !== 'sum') return [part];
  const { relation, distance } = part;
  const isUpper = relation === '<=' || relation === '<';
  const joined = isUpper ? 'greatest' : relation === '>=' || relation === '>' ? 'least' : null;
  const of = distance.terms.find((term) => term.type === joined);
  if (of === undefined || (of.type !== 'greatest' && of.type !== 'least')) return [part];
  const others = distance.terms.filter((term) => term !== of);
  return of.terms.flatMap((term) => oneByOne({ ...part, distance: sum([term, ...others]) }));
}

function applyingOf(
  lowering: Lowering,
  { requirement, appliesWhen }: RequirementResult,
): Pick<Demand, 'applying' | 'appliesOverSpread'> {
  const { result, uses } = lowering.tracked(() =>
    appliesWhen.map((node) => {
      const typed = lowering.expression(node, atRoot(requirement.file, null));
      return typed.type === 'condition' ? lowering.known(typed.condition) : null;
    }),
  );
  return { applying: lowering.restsOn(uses), appliesOverSpread: result.includes(null) };
}

export function supportOf(part: Part): Support {
  return part.type === 'side' ? part.distance.support : part.condition.support;
}

/** Whether the part holds for every value over what the finder's figures can be. */
export function holds(finder: ExtremeFinder, part: Part): boolean {
  if (part.type === 'clause') return judgeCondition(finder, part.condition).verdict === 'met';
  return finder.holds(part.relation, part.distance);
}

/** Whether a move of the fact's figures asks for the requirement to be read anew. */
export function isRemadeBy({ applying, appliesOverSpread, result }: Demand, { name }: Fact, isHeld: boolean): boolean {
  if (applying.has(name)) return isHeld || appliesOverSpread;
  return isHeld && result.uses.has(name);
}
