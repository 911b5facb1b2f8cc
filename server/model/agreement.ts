/** `Agreed: A. Person; 2026-11-02; 7c1f3a`: who agreed to the text, when, and to which text. */
import { type Span, spanOf } from '../syntax/span';
import type { Attribute } from './requirement';

export interface Agreement {
  readonly attribute: Attribute;
  /** Hexadecimal; null where none is written. */
  readonly digest: string | null;
  /** Where the digest stands, or belongs: the empty place after the rest. */
  readonly digestSpan: Span;
}

const DIGEST = /(?:^|;)\s*([0-9a-f]{6,64})$/;

export function readAgreement(attribute: Attribute): Agreement {
  const { text, valueSpan } = attribute;
  const digest = DIGEST.exec(text)?.[1] ?? null;
  const start = valueSpan.end - (digest?.length ?? 0);
  return { attribute, digest, digestSpan: spanOf(start, valueSpan.end) };
}
