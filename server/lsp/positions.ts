/** Offsets of a text ↔ positions of the protocol, in the encoding that was negotiated: the only converter there is. */
import type { Position, Range } from 'vscode-languageserver';
import { createLineIndex } from '../syntax/line-index';
import { type Span, spanOf } from '../syntax/span';

/** How characters of a line are counted (Language Server Protocol 3.17, PositionEncodingKind). */
export type Encoding = 'utf-8' | 'utf-16' | 'utf-32';

/** A text that positions can be asked of. Whatever is asked, the answer lies inside the text. */
export interface Positions {
  positionAt(offset: number): Position;
  offsetAt(position: Position): number;
  rangeOf(span: Span): Range;
  spanOf(range: Range): Span;
  /** The lines that a span touches. */
  linesOf(span: Span): { readonly first: number; readonly last: number };
}

const ENCODINGS: readonly Encoding[] = ['utf-8', 'utf-16', 'utf-32'];

/** The first encoding of the client's list that the server has; UTF-16 where it says nothing, as the protocol wants. */
export function chosenEncoding(offered: readonly string[] | undefined): Encoding {
  return ENCODINGS.find((encoding) => encoding === offered?.find((one) => isEncoding(one))) ?? 'utf-16';
}

export function createPositions(text: string, encoding: Encoding): Positions {
  const lines = createLineIndex(text);
  const positionAt = (offset: number): Position => {
    const { line, character } = lines.positionAt(Math.max(offset, 0));
    const start = lines.startOf(line);
    return { line, character: lengthOf(text, start, start + character, encoding) };
  };
  const offsetAt = ({ line, character }: Position): number => {
    if (line < 0) return 0;
    if (line >= lines.lineCount) return text.length;
    return offsetAfter(text, lines.startOf(line), lines.endOf(line), character, encoding);
  };
  return {
    positionAt,
    offsetAt,
    rangeOf: ({ start, end }) => ({ start: positionAt(start), end: positionAt(end) }),
    spanOf: ({ start, end }) => {
      const [from, to] = [offsetAt(start), offsetAt(end)];
      return spanOf(Math.min(from, to), Math.max(from, to));
    },
    linesOf: ({ start, end }) => ({ first: lines.positionAt(start).line, last: lines.positionAt(end).line }),
  };
}

function isEncoding(name: string): name is Encoding {
  return ENCODINGS.some((encoding) => encoding === name);
}

function lengthOf(text: string, start: number, end: number, encoding: Encoding): number {
  if (encoding === 'utf-16') return end - start;
  let length = 0;
  for (let at = start; at < end; at += unitsAt(text, at)) length += widthAt(text, at, encoding);
  return length;
}

/** A character that a position points into begins there. */
function offsetAfter(text: string, start: number, end: number, characters: number, encoding: Encoding): number {
  if (encoding === 'utf-16') return Math.min(start + Math.max(characters, 0), end);
  let left = characters;
  let at = start;
  while (at < end) {
    left -= widthAt(text, at, encoding);
    if (left < 0) break;
    at += unitsAt(text, at);
  }
  return Math.min(at, end);
}

/** UTF-16 code units of the character at an offset; half of a surrogate pair is one of its own. */
function unitsAt(text: string, at: number): 1 | 2 {
  return (text.codePointAt(at) ?? 0) > 0xffff ? 2 : 1;
}

/** Bytes in UTF-8 (Unicode Standard, table 3-6; a lone surrogate is sent as U+FFFD, three bytes), or one. */
function widthAt(text: string, at: number, encoding: 'utf-8' | 'utf-32'): number {
  const code = text.codePointAt(at) ?? 0;
  if (encoding === 'utf-32' || code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code > 0xffff ? 4 : 3;
}
