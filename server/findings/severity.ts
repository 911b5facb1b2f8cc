/** How severe a finding is: the table's for the phase, replaced by `severity:`, then capped by *may*, *will* and *could*. */
import { defaultSeverity, FIXED_FINDINGS, SEVERITIES, type Severity } from '../../grammar/findings';
import type { Analysis } from '../engine/analysis';
import type { Configuration } from '../model/configuration';
import { attributesOf, type Requirement } from '../model/requirement';
import type { Draft, Finding } from './finding';

/** The finding as it is told; none where the configuration turns it off. */
export function settled(draft: Draft, { product, index }: Analysis): readonly Finding[] {
  const { code, message, place, related = [], fixes = [], alike = null } = draft;
  const requirement = draft.requirement === undefined ? null : (index().withId(draft.requirement)[0] ?? null);
  const severity = severityOf(draft, product.configuration, requirement);
  if (severity === null) return [];
  return [{ code, severity, requirement: draft.requirement ?? null, message, place, related, fixes, alike }];
}

/** Null where the configuration turns the finding off. */
export function severityOf(
  draft: Draft,
  configuration: Configuration,
  requirement: Requirement | null,
): Severity | null {
  const onGoal = requirement?.obligation === 'should';
  const setting = FIXED_FINDINGS.includes(draft.code) ? undefined : configuration.severity.get(draft.code);
  if (setting === 'off') return null;
  const own = setting ?? draft.severity ?? defaultSeverity(draft.code, configuration.phase, onGoal);
  return requirement !== null && isMild(requirement) ? milder(own, 'information') : own;
}

/** Whether it is as severe as the level, or more. */
export function isAtLeast(severity: Severity, level: Severity): boolean {
  return SEVERITIES.indexOf(severity) <= SEVERITIES.indexOf(level);
}

/** What only permits, states a fact or has the lowest priority is never reported above information. */
function isMild(requirement: Requirement): boolean {
  if (requirement.obligation === 'may' || requirement.obligation === 'will') return true;
  return attributesOf(requirement, 'Priority').some(({ text }) => text.toLowerCase() === 'could');
}

function milder(a: Severity, b: Severity): Severity {
  return SEVERITIES.indexOf(a) > SEVERITIES.indexOf(b) ? a : b;
}
