/** Requirements against each other: contradictions, limits of derived requirements, and requirements that derive from themselves. */
import { type Headroom, readHeadroom } from '../model/headroom';
import { type Attribute, attributesOf, type Requirement } from '../model/requirement';
import type { Lowering } from './lowering/lowering';
import { type Contradiction, contradictionsOf } from './relations/contradictions';
import { type Cycle, cyclesIn, parentsOf } from './relations/cycles';
import { type Limit, limitsOf } from './relations/limit';
import { headroomFits, type ParentMismatch, parentMismatches } from './relations/parents';
import type { RequirementResult } from './requirement-result';

export type { Contradiction } from './relations/contradictions';
export type { Cycle } from './relations/cycles';
export type { ParentMismatch } from './relations/parents';

export interface Relations {
  readonly contradictions: readonly Contradiction[];
  readonly parents: readonly ParentMismatch[];
  readonly cycles: readonly Cycle[];
  /** Headrooms that cannot be read. */
  readonly headrooms: readonly BadHeadroom[];
}

const NO_LIMITS: ReadonlyMap<Requirement, readonly Limit[]> = new Map();

export interface BadHeadroom {
  readonly requirement: Requirement;
  readonly attribute: Attribute;
  readonly message: string;
}

/**
 * @param results of all requirements of the product, in its order
 * @param known limits of results that were kept
 */
export function relate(
  lowering: Lowering,
  results: readonly RequirementResult[],
  known: ReadonlyMap<Requirement, readonly Limit[]> = NO_LIMITS,
): Relations {
  const limits = new Map(
    results.map((result) => [result.requirement, known.get(result.requirement) ?? limitsOf(lowering, result)]),
  );
  const parents = parentsOf(lowering.product.requirements);
  return {
    contradictions: contradictionsOf([...limits.values()].flat()),
    parents: results.flatMap(({ requirement }) => {
      const headroom = headroomOf(lowering, requirement);
      return (parents.get(requirement) ?? [])
        .filter((parent) => parent !== requirement)
        .flatMap((parent) => parentMismatches(limits.get(requirement) ?? [], limits.get(parent) ?? [], headroom));
    }),
    cycles: cyclesIn(parents),
    headrooms: lowering.product.requirements.flatMap((requirement) => badHeadrooms(lowering, requirement)),
  };
}

/** The requirement's own headroom where it fits the limit, else the product's. */
function headroomOf({ product }: Lowering, requirement: Requirement): (limit: Limit) => Headroom | null {
  const texts = [...attributesOf(requirement, 'Headroom').map(({ text }) => text), product.configuration.headroom.text];
  const read = texts.map((text) => readHeadroom(text, product.units));
  return (limit) => {
    for (const headroom of read) if (headroom.type !== 'bad' && headroomFits(headroom, limit)) return headroom;
    return null;
  };
}

function badHeadrooms({ product }: Lowering, requirement: Requirement): readonly BadHeadroom[] {
  return attributesOf(requirement, 'Headroom').flatMap((attribute) => {
    const read = readHeadroom(attribute.text, product.units);
    return read.type === 'bad' ? [{ requirement, attribute, message: read.message }] : [];
  });
}
