/** How far a figure may move, and how far it would have to, in words. */

import type { FigureRanges, NeededOf } from '../../engine/ranges/ranges';
import { endText, figureText, neededText } from '../../findings/range-text';

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

/** `supply.draw ≤ 60 W (now 65 W)`, or why the figure mends nothing by itself. */
export function mendText({ figure, range }: NeededOf): string {
  const text = neededText(figure, range);
  if (text !== null) return `${figure.name} ${text} (now ${figureText(figure, figure.now, 'nearest')})`;
  if (range.type === 'not-shown') return `${figure.name}: not found out`;
  const { forbiddenBy } = range as { readonly forbiddenBy: string };
  return forbiddenBy === '' ? `${figure.name}: not by itself` : `${figure.name}: ${forbiddenBy} would break first`;
}

/** `undecided requirements rest on it and are not counted: TRN-014`; null where there are none. */
export function notCountedText({ undecided }: FigureRanges): string | null {
  if (undecided.length === 0) return null;
  return `${undecided.join(', ')} ${undecided.length === 1 ? 'is' : 'are'} undecided and not counted`;
}
