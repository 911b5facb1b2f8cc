/** A SARIF rule for every finding, with help from the table of findings (SARIF 2.1.0, 3.49 reportingDescriptor). */
import type { ReportingDescriptor, Result } from 'sarif';
import type { Phase } from '../../../grammar/findings';
import { FINDING_CODES, FINDINGS, type FindingCode, type FindingKind, type Severity } from '../../../grammar/findings';
import { messageText } from './message';

/** 3.58.6: a hint is milder than a note, and SARIF knows nothing milder that still is a finding. */
export const LEVELS: Readonly<Record<Severity, NonNullable<Result['level']>>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

/** In the order of the table, which `ruleIndex` counts. */
export function rules(phase: Phase): ReportingDescriptor[] {
  return FINDING_CODES.map((code) => rule(code, phase));
}

export function ruleIndex(code: FindingCode): number {
  return FINDING_CODES.indexOf(code);
}

function rule(code: FindingCode, phase: Phase): ReportingDescriptor {
  const kind: FindingKind = FINDINGS[code];
  const help = [kind.meaning, ...severities(kind), HOW_TO_CHANGE];
  return {
    id: code,
    name: pascalCase(code),
    shortDescription: { text: messageText(kind.meaning) },
    fullDescription: { text: messageText(kind.meaning) },
    help: { text: messageText(help.join(' ')), markdown: help.join('\n\n') },
    defaultConfiguration: { level: LEVELS[kind.severity[phase]] },
    properties: { tags: ['requirements'] },
  };
}

const HOW_TO_CHANGE = 'Another severity is set with `severity:` in plimsoll.yaml.';

function severities({ severity, severityOfGoal }: FindingKind): readonly string[] {
  const spoken = (of: Readonly<Record<Phase, Severity>>) =>
    of.design === of.release ? of.design : `${of.design} in design, ${of.release} at release`;
  const own = `Severity: ${spoken(severity)}.`;
  return severityOfGoal === undefined ? [own] : [own, `On a requirement with *should*: ${spoken(severityOfGoal)}.`];
}

function pascalCase(code: string): string {
  return code
    .split('-')
    .map((word) => word.slice(0, 1).toUpperCase() + word.slice(1))
    .join('');
}
