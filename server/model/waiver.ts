/** `Waived: to 97 EUR; first build; A. Person; until 2027-03-31`: an exception that was granted. */
import { isDay } from '../quantity/calendar';
import type { UnitTable } from '../quantity/unit-table';
import type { Expression } from '../syntax/expression/ast';
import { parseExpression } from '../syntax/expression/parser';
import type { Span } from '../syntax/span';
import type { Attribute } from './requirement';

export interface Waiver {
  readonly attribute: Attribute;
  /** How far the exception reaches; null where it does not say. */
  readonly extent: Extent | null;
  readonly reason: string;
  readonly who: string;
  /** ISO 8601; to the end of that day, UTC. */
  readonly until: string;
}

export type Extent =
  /** `to 97 EUR`, `to 36 V to 58 V`. */
  | { readonly type: 'figure'; readonly expression: Expression }
  /** `to cost <= 97 EUR`: one of several criteria named. */
  | { readonly type: 'criterion'; readonly expression: Expression };

export type ReadWaiver = Waiver | { readonly attribute: Attribute; readonly mistake: string };

const FORM = 'write extent; reason; who; until: “Waived: to 97 EUR; first build; A. Person; until 2027-03-31”';

/** Reads the parts in their order; the extent may be missing. */
export function readWaiver(attribute: Attribute, units: UnitTable): ReadWaiver {
  const parts = withCode(attribute)
    .split(';')
    .map((part) => part.trim());
  const until = /^until\s+(\d{4}-\d{2}-\d{2})$/i.exec(parts.at(-1) ?? '')?.[1] ?? null;
  if (until === null) return { attribute, mistake: `this waiver does not say until when; ${FORM}` };
  if (!isDay(until)) return { attribute, mistake: `${until} is no day of the calendar; ${FORM}` };
  // A reason may begin with “to” as well, so an extent is what can be read as one.
  const extent = readExtent(/^to\s+(.+)$/is.exec(parts[0] ?? '')?.[1] ?? '', units, attribute.valueSpan);
  const words = parts.slice(extent === null ? 0 : 1, -1);
  const [reason = '', who = ''] = words;
  if (words.length === 2 && reason !== '' && who !== '') return { attribute, extent, reason, who, until };
  if (words.length > 2)
    return { attribute, mistake: `“${words[0]}” is no extent; write to 97 EUR, or to cost <= 97 EUR` };
  return { attribute, mistake: `this waiver does not say why and by whom; ${FORM}` };
}

function readExtent(text: string, units: UnitTable, span: Span): Extent | null {
  const range = /^(.+?)\s+to\s+(.+)$/i.exec(text);
  // Ends of a range parse only inside a condition; `x` stands for what is limited.
  const read = parseExpression(range === null ? text : `x within ${text}`, units, () => span);
  if (read.problems.length === 0) {
    const { expression } = read;
    if (expression.type === 'literal') return { type: 'figure', expression };
    if (expression.type === 'ends') return { type: isRangeOnly(text) ? 'figure' : 'criterion', expression };
    if (expression.type === 'comparison') return { type: 'criterion', expression };
  }
  const named = parseExpression(text, units, () => span);
  const isCriterion =
    named.problems.length === 0 && (named.expression.type === 'comparison' || named.expression.type === 'ends');
  return isCriterion ? { type: 'criterion', expression: named.expression } : null;
}

function isRangeOnly(text: string): boolean {
  return !/\b(?:within|spans)\b|[<>=]/.test(text);
}

/** A criterion may stand in a code span. */
function withCode({ text, codes }: Attribute): string {
  let next = 0;
  return text.replace(/\uFFFC/gu, () => codes[next++]?.code ?? '');
}
