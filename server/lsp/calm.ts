/** Mild findings that nearly every figure of a new product has: told once a document, at the first of them. */
import type { FindingCode } from '../../grammar/findings';
import type { Finding, Related } from '../findings/finding';
import { groupBy } from '../model/group-by';

const TOLD_ONCE: readonly FindingCode[] = ['no-source'];
/** Characters of the names in the message. */
const MOST_NAMES = 80;
/** Places that the one leads to. */
const MOST_PLACES = 20;

/** Of the findings of one document: an editor draws a line under each finding; a report, which does not, lists all. What was made severe is told each time. */
export function calm(findings: readonly Finding[]): readonly Finding[] {
  const alike = groupBy(findings.filter(isToldOnce), ({ code }) => code);
  const first = new Map<Finding, readonly Finding[]>();
  for (const all of alike.values()) if (all[0] !== undefined) first.set(all[0], all);
  return findings.flatMap((finding) => {
    const all = first.get(finding);
    if (all === undefined) return isToldOnce(finding) ? [] : [finding];
    return [all.length === 1 ? finding : together(finding, all)];
  });
}

function isToldOnce({ code, severity }: Finding): boolean {
  return TOLD_ONCE.includes(code) && (severity === 'information' || severity === 'hint');
}

function together(finding: Finding, all: readonly Finding[]): Finding {
  const alike = all.flatMap((one) => (one.alike === null ? [] : [one.alike]));
  const names = listed(alike.map(({ name }) => name));
  const mends = [...new Set(alike.map(({ mend }) => mend))].join(', or ');
  const places = all.map(({ place, message }): Related => ({ place, message }));
  return {
    ...finding,
    message: `${all.length} figures decide requirements, and nothing says where they come from: ${names}; write ${mends}`,
    related: places.slice(0, MOST_PLACES),
  };
}

function listed(names: readonly string[]): string {
  const shown: string[] = [];
  for (const name of names) {
    if (shown.length > 0 && [...shown, name].join(', ').length > MOST_NAMES) break;
    shown.push(name);
  }
  const more = names.length - shown.length;
  return `${shown.join(', ')}${more === 0 ? '' : ` and ${more} more`}`;
}
