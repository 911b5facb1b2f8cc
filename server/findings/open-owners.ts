/** Who is to settle what is to be determined, resolved or confirmed: the owners of the requirements that it concerns. */
import type { Analysis } from '../engine/analysis';
import { attributesOf, type Requirement } from '../model/requirement';
import type { Finding } from './finding';

/** One figure or limit that is not settled, once for each who answers for it. */
export interface OpenPoint {
  /** Null: no requirement that it concerns names one. */
  readonly owner: string | null;
  /** The fact, or the requirement whose limit it is. */
  readonly subject: string;
  readonly finding: Finding;
}

/** By owner, those without one last; then by place. */
export function openPointsByOwner(analysis: Analysis, findings: readonly Finding[]): readonly OpenPoint[] {
  const points = findings.flatMap((finding): readonly OpenPoint[] => {
    if (finding.code !== 'open-point') return [];
    const fact = factAt(analysis, finding);
    const owners = ownersOf(concernedBy(analysis, finding));
    const subject = fact ?? finding.requirement ?? '';
    return (owners.length === 0 ? [null] : owners).map((owner) => ({ owner, subject, finding }));
  });
  return points.sort((a, b) => compareOwners(a.owner, b.owner));
}

/** ` (power team, purchasing)`, or nothing. */
export function whose(requirements: readonly Requirement[]): string {
  const owners = ownersOf(requirements);
  return owners.length === 0 ? '' : ` (${owners.join(', ')})`;
}

/** The requirements that a finding on a figure or a limit concerns. */
export function concernedBy(analysis: Analysis, finding: Finding): readonly Requirement[] {
  const fact = factAt(analysis, finding);
  return [
    ...(fact === null ? [] : restingOn(analysis, fact)),
    ...analysis.product.requirements.filter((one) => concerns(finding, one)),
  ];
}

export function ownersOf(requirements: readonly Requirement[]): readonly string[] {
  const named = requirements.flatMap((requirement) => attributesOf(requirement, 'Owner').map(({ text }) => text));
  return [...new Set(named)].filter((owner) => owner !== '');
}

/** The requirements that rest on a fact. */
export function restingOn({ requirements }: Analysis, fact: string): readonly Requirement[] {
  return requirements.filter(({ uses }) => uses.has(fact)).map(({ requirement }) => requirement);
}

/** What it leaves undecided is among its related places. */
function concerns({ requirement, related }: Finding, { id, file, idSpan }: Requirement): boolean {
  return requirement === id || related.some(({ place }) => place.file === file && place.span.start === idSpan.start);
}

function factAt({ product }: Analysis, { place }: Finding): string | null {
  for (const { name, file, span } of product.facts.values())
    if (file === place.file && span.start === place.span.start && span.end === place.span.end) return name;
  return null;
}

function compareOwners(a: string | null, b: string | null): number {
  if (a === b) return 0;
  if (a === null || b === null) return a === null ? 1 : -1;
  return a < b ? -1 : 1;
}
