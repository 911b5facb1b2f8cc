/** Spans that move together: where only text before something has changed, its anchor is told the new place, and all that holds the spans stays as it is. */
import { type Anchor, AnchoredSpan, anchoredSpan, newAnchor } from './anchored-span';
import { isSpan, mapSpans } from './map-spans';
import { type Span, spanOf } from './span';

/** A copy of plain data whose spans in the file move as one. */
export function anchored<Item>(item: Item, file: string): Item {
  const anchor = newAnchor();
  return mapSpans(item, file, ({ start, end }) => anchoredSpan(anchor, start, end));
}

/** A span that moves with another, from offsets in the text that was last read. */
export function spanBeside(other: Span, start: number, end: number): Span {
  if (!(other instanceof AnchoredSpan)) return spanOf(start, end);
  const { anchor } = other;
  return anchoredSpan(anchor, start - anchor.offset, end - anchor.offset);
}

/** The span as it stands now, for whoever keeps it while the text changes. */
export function spanNow(span: Span): Span {
  return span instanceof AnchoredSpan ? spanOf(span.start, span.end) : span;
}

/** A copy of plain data whose spans stay as they are now. */
export function unanchored<Item>(item: Item): Item {
  return mapSpans(item, null, spanNow);
}

/** Tells apart where things start, in one file; the same for as long as what stands there moves or stays. */
export function startKey(span: Span): string {
  return span instanceof AnchoredSpan ? `${span.anchor.number}+${span.from}` : `${span.start}`;
}

/**
 * Where both say the same at the same distances from one place, what was read before is moved to where it is read now.
 * @param known with the spans of one anchor, or none
 * @param now read anew; its spans are plain
 * @returns by how many characters it has moved; null where it says something else
 */
export function followed(known: unknown, now: unknown): number | null {
  const move: Move = { anchor: null, by: 0 };
  if (!isFollowed(known, now, move)) return null;
  if (move.anchor !== null) move.anchor.offset += move.by;
  return move.by;
}

interface Move {
  /** Null until the first span of one is met. */
  anchor: Anchor | null;
  by: number;
}

function isFollowed(known: unknown, now: unknown, move: Move): boolean {
  if (Object.is(known, now)) return true;
  if (typeof known !== 'object' || typeof now !== 'object' || known === null || now === null) return false;
  if (known instanceof AnchoredSpan) return isSpan(now) && isMovedSpan(known, now, move);
  if (Array.isArray(known) || Array.isArray(now))
    return Array.isArray(known) && Array.isArray(now) && isFollowedList(known, now, move);
  if (known instanceof Map || now instanceof Map)
    return known instanceof Map && now instanceof Map && isFollowedList([...known], [...now], move);
  if (known instanceof Set || now instanceof Set)
    return known instanceof Set && now instanceof Set && isFollowedList([...known], [...now], move);
  return isFollowedRecord(known as Record<string, unknown>, now as Record<string, unknown>, move);
}

function isMovedSpan(known: AnchoredSpan, now: Span, move: Move): boolean {
  if (move.anchor === null) {
    move.anchor = known.anchor;
    move.by = now.start - known.start;
  }
  return move.anchor === known.anchor && now.start - known.start === move.by && now.end - known.end === move.by;
}

function isFollowedList(known: readonly unknown[], now: readonly unknown[], move: Move): boolean {
  return known.length === now.length && known.every((item, index) => isFollowed(item, now[index], move));
}

function isFollowedRecord(known: Record<string, unknown>, now: Record<string, unknown>, move: Move): boolean {
  const names = Object.keys(known);
  return (
    names.length === Object.keys(now).length &&
    names.every((name) => name in now && isFollowed(known[name], now[name], move))
  );
}
