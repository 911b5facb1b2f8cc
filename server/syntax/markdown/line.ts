/** A document's lines as Markdown's block structure looks at them. */

/** One line; its end (`\n`, `\r\n` or a lone `\r`, CommonMark 0.31.2, 2.1) is left out. */
export interface Line {
  /** Offset of its first character in the document. */
  readonly start: number;
  readonly text: string;
  /** The line from its first character that is no space or tab; empty for a blank line. */
  readonly rest: string;
  /** Columns before `rest`, tabs reaching to the next multiple of 4. */
  readonly indent: number;
}

const TAB_STOP = 4;

/** The lines of `text` from offset `from`, which begins a line. */
export function* linesOf(text: string, from: number): Generator<Line> {
  const lineEnd = /\r\n|\n|\r/g;
  lineEnd.lastIndex = from;
  let start = from;
  while (start < text.length) {
    const match = lineEnd.exec(text);
    yield lineAt(start, text.slice(start, match ? match.index : text.length));
    if (!match) return;
    start = lineEnd.lastIndex;
  }
}

function lineAt(start: number, text: string): Line {
  let indent = 0;
  let index = 0;
  for (; text[index] === ' ' || text[index] === '\t'; index++) indent = columnAfter(indent, text[index] as string);
  return { start, text, rest: text.slice(index), indent };
}

/** The column after a space, a tab or another character that stands at `column`. */
export function columnAfter(column: number, character: string): number {
  return character === '\t' ? column + TAB_STOP - (column % TAB_STOP) : column + 1;
}

/** A list marker and what follows it (CommonMark 0.31.2, 5.2). */
export const LIST_MARKER = /^(?:[-+*]|\d{1,9}[.)])(?=[ \t]|$)/;

/** An ATX heading (CommonMark 0.31.2, 4.2), once up to three columns of indentation are taken off. */
export const ATX_HEADING = /^#{1,6}(?:[ \t]|$)/;
