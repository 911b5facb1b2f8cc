/**
 * Cuts Markdown into sections that can be parsed alone: at ATX headings in the first column that no fenced code and
 * no HTML block swallows. Such a heading ends every paragraph, list, quote and table (CommonMark 0.31.2, 3 and 4.2).
 */
import type { Problem, Span } from '../span';
import { spanOf } from '../span';
import { BEFORE_FIRST_SECTION_LINE, type LimitState, limitsAfter } from './limits';
import { ATX_HEADING, type Line, linesOf } from './line';
import { afterLine, BEFORE_FIRST_LINE, isOpaque, isOutside, type LineState } from './open-block';

/** A section that is safe to parse alone. */
export interface Piece {
  readonly span: Span;
  /** Why it must not be given to the parser: code `too-large`. */
  readonly tooLarge: Problem | null;
}

/** The sections of a text from offset `from`, which begins a line; together they cover the rest of the text. Linear. */
export function splitSections(text: string, from: number): Piece[] {
  const pieces: Piece[] = [];
  let start = from;
  let state: LineState = BEFORE_FIRST_LINE;
  let limits: LimitState = BEFORE_FIRST_SECTION_LINE;
  for (const line of linesOf(text, from)) {
    if (line.start > start && startsSection(line, state)) {
      pieces.push({ span: spanOf(start, line.start), tooLarge: limits.tooLarge });
      start = line.start;
      state = BEFORE_FIRST_LINE;
      limits = BEFORE_FIRST_SECTION_LINE;
    }
    const wasOpaque = isOpaque(state);
    state = afterLine(state, line);
    limits = limitsAfter(limits, line, wasOpaque && isOpaque(state));
  }
  if (start < text.length) pieces.push({ span: spanOf(start, text.length), tooLarge: limits.tooLarge });
  return pieces;
}

function startsSection(line: Line, state: LineState): boolean {
  return line.indent === 0 && ATX_HEADING.test(line.text) && isOutside(state);
}
