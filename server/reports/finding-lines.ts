/** Findings on a line each; of many mild ones of a kind the first, and the names of the rest on one line. */

import type { Severity } from '../../grammar/findings';
import type { Finding } from '../findings/finding';
import { groupBy } from '../model/group-by';
import type { LineIndex } from '../syntax/line-index';
import type { Mark, TextStyle } from './text-style';

const SEVERITY_MARKS: Readonly<Record<Severity, Mark>> = {
  error: 'bad',
  warning: 'doubtful',
  information: 'quiet',
  hint: 'quiet',
};
const PLACE_COLUMNS = 8;
/** Findings of one kind in one document that are shown one by one. */
const MOST_ALIKE = 3;
/** Characters of the names of those that are not. */
const MOST_NAMES = 80;

/** `18:25   warning at-risk: …` */
export function findingLine(
  { severity, code, message, place }: Finding,
  index: LineIndex,
  { pad, paint }: TextStyle,
): string {
  const { line, character } = index.positionAt(place.span.start);
  const at = pad(`${line + 1}:${character + 1}`, PLACE_COLUMNS);
  return `    ${at}${paint(SEVERITY_MARKS[severity], severity)} ${code}: ${message}`;
}

/** What a reader has to see: hints are left out, and mild findings of one kind are not told over and over. */
export function mostLines(findings: readonly Finding[], index: LineIndex, style: TextStyle): readonly string[] {
  const visible = findings.filter(({ severity }) => severity !== 'hint');
  const foldedAt = new Map<Finding, readonly Finding[]>();
  const folded = new Set<Finding>();
  for (const alike of groupBy(visible, kindOf).values()) {
    const rest = foldedOf(alike);
    for (const finding of rest) folded.add(finding);
    if (rest[0] !== undefined) foldedAt.set(rest[0], rest);
  }
  return visible.flatMap((finding) => {
    const rest = foldedAt.get(finding);
    if (rest !== undefined) return [foldedLine(rest, style)];
    return folded.has(finding) ? [] : [findingLine(finding, index, style)];
  });
}

/** How many findings {@link mostLines} only names, in all documents. */
export function countFolded(findings: readonly Finding[]): number {
  const counts = new Map<string, number>();
  for (const finding of findings.filter(isMild)) {
    const key = `${finding.place.file} ${finding.code}`;
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  return [...counts.values()].reduce((sum, count) => sum + (count > MOST_ALIKE + 1 ? count - MOST_ALIKE : 0), 0);
}

function kindOf({ code, severity }: Finding): string {
  return `${severity} ${code}`;
}

function isMild({ severity }: Finding): boolean {
  return severity === 'information';
}

/** A single one more is shown as well: a line that names it would be no shorter. */
function foldedOf(alike: readonly Finding[]): readonly Finding[] {
  return alike.every(isMild) && alike.length > MOST_ALIKE + 1 ? alike.slice(MOST_ALIKE) : [];
}

function foldedLine(rest: readonly Finding[], { pad, paint }: TextStyle): string {
  const [first] = rest;
  const names = [...new Set(rest.map(subjectOf))].filter((name) => name !== null);
  const shown: string[] = [];
  let length = 0;
  for (const name of names) {
    length += name.length + ', '.length;
    if (length - ', '.length > MOST_NAMES) break;
    shown.push(name);
  }
  const list = shown.length === 0 ? '' : `: ${shown.join(', ')}${shown.length < names.length ? ' …' : ''}`;
  return `    ${pad('', PLACE_COLUMNS)}${paint('quiet', 'information')} ${first?.code}: and ${rest.length} more like it${list}`;
}

/** The requirement, or the fact or row that the message begins with. */
function subjectOf({ requirement, message }: Finding): string | null {
  return requirement ?? /^[\p{L}\p{N}_][\p{L}\p{N}_.-]*(?= )/u.exec(message)?.[0] ?? null;
}
