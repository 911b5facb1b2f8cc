/** Where a text differs from the one before. */
import { type Span, spanOf } from './span';

/** The part of a new text between what it shares with the old one at its beginning and at its end. */
export function difference(before: string, after: string): Span {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start < most && before.charCodeAt(start) === after.charCodeAt(start)) start += 1;
  let shared = 0;
  while (
    shared < most - start &&
    before.charCodeAt(before.length - 1 - shared) === after.charCodeAt(after.length - 1 - shared)
  )
    shared += 1;
  return spanOf(start, after.length - shared);
}
