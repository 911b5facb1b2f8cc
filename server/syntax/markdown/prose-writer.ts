/** Puts prose together piece by piece, each with its place. */
import { type Span, spanOf } from '../span';
import type { CodeSpan, Prose, ProseRun } from './block';

/** What stands in the prose's text for a code span: OBJECT REPLACEMENT CHARACTER. */
const CODE_CHARACTER = '\uFFFC';

/** Prose under way. */
export interface ProseWriter {
  readonly text: string[];
  length: number;
  readonly codes: CodeSpan[];
  readonly runs: ProseRun[];
}

export function createProseWriter(): ProseWriter {
  return { text: [], length: 0, codes: [], runs: [] };
}

/** Text that shows `place`; verbatim text that goes on where the text before ended is one run with it. */
export function appendText(text: string, place: Span, verbatim: boolean, writer: ProseWriter): void {
  const last = writer.runs.at(-1);
  if (verbatim && last?.verbatim && last.documentSpan.end === place.start) {
    const documentSpan = spanOf(last.documentSpan.start, place.end);
    writer.runs[writer.runs.length - 1] = { ...last, length: last.length + text.length, documentSpan };
  } else {
    writer.runs.push({ start: writer.length, length: text.length, documentSpan: place, verbatim });
  }
  writer.text.push(text);
  writer.length += text.length;
}

/** A code span; `content` and `outer` as in {@link CodeSpan}. */
export function appendCode(code: string, content: Span, outer: Span, writer: ProseWriter): void {
  writer.codes.push({ at: writer.length, code, span: content, outer });
  appendText(CODE_CHARACTER, outer, false, writer);
}

export function proseFrom({ text, codes, runs }: ProseWriter): Prose {
  return { text: text.join(''), codes, runs };
}
