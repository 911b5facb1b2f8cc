/** A finding with its places as they stand in the present texts: it is told of these, and stays so when they change. */
import type { Place } from '../model/place';
import { spanNow } from '../syntax/anchor';
import type { Fix } from '../syntax/span';
import type { Finding } from './finding';

export function asItStands(finding: Finding): Finding {
  return {
    ...finding,
    place: placeNow(finding.place),
    related: finding.related.map(({ place, message }) => ({ place: placeNow(place), message })),
    fixes: finding.fixes.map(fixNow),
  };
}

function placeNow({ file, span }: Place): Place {
  return { file, span: spanNow(span) };
}

function fixNow({ title, edits }: Fix): Fix {
  return { title, edits: edits.map(({ span, text }) => ({ span: spanNow(span), text })) };
}
