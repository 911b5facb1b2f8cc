/** How far a figure may move, and how far it would have to, in words. */

import type { FigureRanges, NeededOf } from '../engine/ranges/ranges';
import { endText, figureText, isMend, neededText } from './range-text';

/** `may go up to 60 W (TRN-031) and down to 12 W (TRN-035)`; null where it was not found out. */
export function allowedText({ figure, allowed }: FigureRanges): string | null {
  if (allowed === null) return null;
  const binds = (by: string | null) => (by === null ? '' : ` (${by})`);
  const ends = [
    allowed.low === null ? null : `down to ${endText(figure, allowed.low, 'up')}${binds(allowed.low.by)}`,
    allowed.high === null ? null : `up to ${endText(figure, allowed.high, 'down')}${binds(allowed.high.by)}`,
  ].filter((end) => end !== null);
  if (figure.movement === 'half-width') {
    return allowed.high === null
      ? 'may be as wide as it likes'
      : `may be as wide as ${endText(figure, allowed.high, 'down')}${binds(allowed.high.by)}`;
  }
  if (ends.length === 0) return 'may go anywhere';
  return `may go ${ends.join(' and ')}`;
}

/** How a requirement would be met, a line for each figure that mends it by itself, then what the others do not. */
export function mendLines(needed: readonly NeededOf[]): readonly string[] {
  const mends = needed.filter(({ figure, range }) => isMend(figure, range));
  const blocked = needed.flatMap(({ figure, range }) =>
    range.type === 'none' && range.forbiddenBy !== ''
      ? [`not by ${figure.name}: ${range.forbiddenBy} would break first`]
      : [],
  );
  const unknown = needed.flatMap(({ figure, range }) => (range.type === 'not-shown' ? [figure.name] : []));
  const lines = [...mends.map(mendText), ...blocked];
  if (unknown.length > 0) return [...lines, `not found out: ${[...new Set(unknown)].join(', ')}`];
  return needed.length === 0
    ? []
    : [...lines, lines.length === 0 ? 'no figure by itself' : 'no other figure by itself'];
}

function mendText({ figure, range }: NeededOf): string {
  return `${figure.name} ${neededText(figure, range)} (now ${figureText(figure, figure.now, 'nearest')})`;
}

/** `undecided requirements rest on it and are not counted: TRN-014`; null where there are none. */
export function notCountedText({ undecided }: FigureRanges): string | null {
  if (undecided.length === 0) return null;
  return `${undecided.join(', ')} ${undecided.length === 1 ? 'is' : 'are'} undecided and not counted`;
}
