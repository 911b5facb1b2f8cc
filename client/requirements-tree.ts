/** Requirements as a tree shows them: grouped by document, filtered by verdict and evidence. */
import type { RequirementItem } from '../server/lsp/messages';

/** Empty lists leave everything in. */
export interface Filter {
  readonly verdicts: readonly string[];
  readonly evidence: readonly string[];
  readonly overSpecified: boolean;
}

export const NO_FILTER: Filter = { verdicts: [], evidence: [], overSpecified: false };

export interface DocumentGroup {
  readonly uri: string;
  readonly requirements: readonly RequirementItem[];
}

export function isFiltering({ verdicts, evidence, overSpecified }: Filter): boolean {
  return verdicts.length > 0 || evidence.length > 0 || overSpecified;
}

/** A requirement has one of the verdicts, one of the states of evidence, and is generous where that is asked for. */
export function passes(filter: Filter, { verdict, evidence, overSpecified }: RequirementItem): boolean {
  if (filter.verdicts.length > 0 && !filter.verdicts.includes(verdict)) return false;
  if (filter.evidence.length > 0 && (evidence === null || !filter.evidence.includes(evidence))) return false;
  return !filter.overSpecified || overSpecified;
}

/** In the order of the requirements; documents without one that passes are left out. */
export function grouped(requirements: readonly RequirementItem[], filter: Filter): readonly DocumentGroup[] {
  const groups = new Map<string, RequirementItem[]>();
  for (const requirement of requirements) {
    if (!passes(filter, requirement)) continue;
    const { uri } = requirement.place;
    const group = groups.get(uri) ?? [];
    groups.set(uri, group);
    group.push(requirement);
  }
  return [...groups].map(([uri, own]) => ({ uri, requirements: own }));
}

/** `unmet · 5 W above the limit · untested`. */
export function standing({ verdict, margin, evidence, overSpecified }: RequirementItem): string {
  const parts = [verdict, margin === '' ? null : margin, evidence, overSpecified ? 'over-specified' : null];
  return parts.filter((part) => part !== null).join(' · ');
}

/** `unmet, at risk; untested`, as the view's title says what it shows. */
export function filterLine({ verdicts, evidence, overSpecified }: Filter): string {
  return [verdicts.join(', '), evidence.join(', '), overSpecified ? 'over-specified' : '']
    .filter((part) => part !== '')
    .join('; ');
}
