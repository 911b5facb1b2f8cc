/** Places of the server as the editor has them. */
import { Location, Range, Uri } from 'vscode';
import type { MessagePlace, MessageRange } from '../server/lsp/messages';

export function rangeOf({ start, end }: MessageRange): Range {
  return new Range(start.line, start.character, end.line, end.character);
}

export function locationOf({ uri, range }: MessagePlace): Location {
  return new Location(Uri.parse(uri), rangeOf(range));
}
