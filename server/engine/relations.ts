/** Requirements against each other: contradictions, limits of derived requirements, and requirements that derive from themselves. */
import { type Headroom, headroomsOf } from '../model/headroom';
import { listOf, type Requirement } from '../model/requirement';
import type { Analysis } from './analysis';
import type { AnalysisPart } from './parts';
import { type Contradiction, contradictionsOf } from './relations/contradictions';
import { type Cycle, cyclesIn } from './relations/cycles';
import type { Limit } from './relations/limit';
import { headroomFits, type ParentMismatch, parentMismatches } from './relations/parents';

export type { Contradiction } from './relations/contradictions';
export type { Cycle } from './relations/cycles';
export type { ParentMismatch } from './relations/parents';

/** Contradictions of which the later limit stands in the part. */
export function contradictionsIn({ index }: Analysis, { file, requirements }: AnalysisPart): readonly Contradiction[] {
  const limits = requirements.flatMap(({ requirement }) => index().limitsOf(requirement));
  const groups = new Set(limits.map((limit) => index().limitsLike(limit)));
  return [...groups].flatMap(contradictionsAmong).filter(({ later }) => later.result.requirement.file === file);
}

const found = new WeakMap<readonly Limit[], readonly Contradiction[]>();

/** Many parts ask about the same limits. */
function contradictionsAmong(limits: readonly Limit[]): readonly Contradiction[] {
  const known = found.get(limits);
  if (known !== undefined) return known;
  const contradictions = contradictionsOf(limits);
  found.set(limits, contradictions);
  return contradictions;
}

/** Limits of the part's requirements against those that they derive from. */
export function mismatchesIn(analysis: Analysis, { requirements }: AnalysisPart): readonly ParentMismatch[] {
  return requirements.flatMap(({ requirement }) => {
    const parents = parentsOf(analysis, requirement).filter((parent) => parent !== requirement);
    if (parents.length === 0) return [];
    const own = analysis.index().limitsOf(requirement);
    const headroom = headroomOf(analysis, requirement);
    return parents.flatMap((parent) => parentMismatches(own, analysis.index().limitsOf(parent), headroom));
  });
}

/** Of the whole product: only who derives from another can be part of one. */
export function cyclesOf(analysis: Analysis): readonly Cycle[] {
  const derived = analysis.parts.flatMap(derivedIn);
  return cyclesIn(new Map(derived.map((requirement) => [requirement, parentsOf(analysis, requirement)])));
}

const derivedOf = new WeakMap<AnalysisPart, readonly Requirement[]>();

/** Requirements that derive from others, known or not. */
export function derivedIn(part: AnalysisPart): readonly Requirement[] {
  const known = derivedOf.get(part);
  if (known !== undefined) return known;
  const all = part.requirements.map(({ requirement }) => requirement);
  const derived = all.filter((requirement) => listOf(requirement, 'Derives from').length > 0);
  derivedOf.set(part, derived);
  return derived;
}

/** Unknown ids are left out, and of several requirements with one id the first is meant. */
function parentsOf({ index }: Analysis, requirement: Requirement): readonly Requirement[] {
  const parents = listOf(requirement, 'Derives from').flatMap((id) => index().withId(id).slice(0, 1));
  return [...new Set(parents)];
}

function headroomOf({ product }: Analysis, requirement: Requirement): (limit: Limit) => Headroom | null {
  const read = headroomsOf(requirement, product.configuration, product.units);
  return (limit) => read.find((headroom) => headroomFits(headroom, limit)) ?? null;
}
