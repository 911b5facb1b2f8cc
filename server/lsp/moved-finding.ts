/** A finding of a text that is another by now, at the place to which its words have moved. */
import type { Finding, Related } from '../findings/finding';
import type { Place } from '../model/place';
import { spanOf } from '../syntax/span';
import { difference } from '../syntax/text-difference';

type Texts = ReadonlyMap<string, string>;

export function movedFinding(finding: Finding, before: Texts, after: Texts): Finding {
  const move = (place: Place) => movedPlace(place, before.get(place.file) ?? '', after.get(place.file) ?? '');
  const related = finding.related.map((other): Related => ({ ...other, place: move(other.place) }));
  // A fix made for the text before is none for the text now.
  return { ...finding, place: move(finding.place), related, fixes: [] };
}

function movedPlace({ file, span }: Place, before: string, after: string): Place {
  if (before === after) return { file, span };
  const changed = difference(before, after);
  const oldEnd = before.length - (after.length - changed.end);
  const move = (offset: number) =>
    offset <= changed.start ? offset : offset >= oldEnd ? offset + after.length - before.length : changed.end;
  return { file, span: spanOf(move(span.start), Math.max(move(span.start), move(span.end))) };
}
