/** `Agreed: A. Person; 2026-11-02; 7c1f3a`: who agreed to the text, when, and to which text. */
import { isDay } from '../quantity/calendar';
import { spanBeside } from '../syntax/anchor';
import type { Span } from '../syntax/span';
import type { Attribute } from './requirement';

export interface Agreement {
  readonly attribute: Attribute;
  /** Hexadecimal; null where none is written. */
  readonly digest: string | null;
  /** Where the digest stands, or belongs: the empty place after the rest. */
  readonly digestSpan: Span;
}

const DIGEST = /(?:^|;)\s*([0-9a-f]{6,64})$/i;

/** Reads who, when and which text; or says what is wrong with it. */
export function readAgreement(
  attribute: Attribute,
): Agreement | { readonly attribute: Attribute; readonly mistake: string } {
  const { text, valueSpan } = attribute;
  const digest = DIGEST.exec(text)?.[1] ?? null;
  const said = digest === null ? text : text.slice(0, -digest.length).replace(/;\s*$/, '');
  const [who = '', day = '', ...more] = said.split(';').map((part) => part.trim());
  if (who === '' || day === '' || more.length > 0)
    return { attribute, mistake: 'write who agreed, when, and to which text: “Agreed: A. Person; 2026-11-02; 7c1f3a”' };
  if (!isDay(day))
    return { attribute, mistake: `“${day}” is no day of the calendar: write year-month-day (2026-11-02)` };
  const start = valueSpan.end - (digest?.length ?? 0);
  return { attribute, digest: digest?.toLowerCase() ?? null, digestSpan: spanBeside(valueSpan, start, valueSpan.end) };
}
