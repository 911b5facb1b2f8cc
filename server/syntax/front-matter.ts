/** Where a document's front matter stands: YAML between two marker lines at the very start of a file. */
import { type Span, spanOf } from './span';

/** Places of front matter in the document. */
export interface FrontMatter {
  /** From the opening marker (after a byte order mark) to the end of the closing marker's line, its line end included. */
  readonly outer: Span;
  /** The YAML: the lines between the markers, the last line's end included. */
  readonly content: Span;
}

const BYTE_ORDER_MARK = 0xfeff;
const OPENING = /---[ \t]*\r?\n/y;
const CLOSING = /(?:---|\.\.\.)[ \t]*(?:\r?\n|$)/y;

/**
 * The front matter of a text, or null: only at offset 0 (after an optional byte order mark), only if it opens with a
 * line `---` and is closed by a line `---` or `...` (YAML 1.2, 9.1.2 and 9.1.4). An unclosed one is ordinary Markdown.
 */
export function findFrontMatter(text: string): FrontMatter | null {
  const start = contentStart(text);
  const contentFrom = endOfMatch(OPENING, text, start);
  if (contentFrom === null) return null;
  let line = contentFrom;
  while (line < text.length) {
    const end = endOfMatch(CLOSING, text, line);
    if (end !== null) return { outer: spanOf(start, end), content: spanOf(contentFrom, line) };
    const lineEnd = text.indexOf('\n', line);
    if (lineEnd < 0) return null;
    line = lineEnd + 1;
  }
  return null;
}

/** Offset of the first character after an optional byte order mark. */
export function contentStart(text: string): number {
  return text.charCodeAt(0) === BYTE_ORDER_MARK ? 1 : 0;
}

function endOfMatch(pattern: RegExp, text: string, at: number): number | null {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : null;
}
