/** Inline Markdown as the text a reader sees, with where each piece of it stands in the document. */
import type { Break, FootnoteReference, Html, Image, ImageReference, InlineCode, PhrasingContent } from 'mdast';
import { type Span, spanOf } from '../span';
import type { CodeSpan, Prose, ProseRun } from './block';

/** What stands in the prose's text for a code span: OBJECT REPLACEMENT CHARACTER. */
export const CODE_CHARACTER = '\uFFFC';

export const EMPTY_PROSE: Prose = { text: '', codes: [], runs: [] };

/**
 * The prose of inline nodes of a tree of {@link textPieces} over `source`. Spans are offsets as in the tree.
 * Emphasis, links and the like read as their content, images as their alternative text, HTML and footnote references
 * as nothing (`<br>` as a space).
 */
export function proseOf(nodes: readonly PhrasingContent[], source: string): Prose {
  const writer: Writer = { source, text: [], length: 0, codes: [], runs: [] };
  for (const node of nodes) write(node, writer);
  return { text: writer.text.join(''), codes: writer.codes, runs: writer.runs };
}

interface Writer {
  readonly source: string;
  readonly text: string[];
  length: number;
  readonly codes: CodeSpan[];
  readonly runs: ProseRun[];
}

function write(node: PhrasingContent, writer: Writer): void {
  if (node.type === 'text') writeText(node.value, placeOf(node), writer);
  else if (node.type === 'inlineCode') writeCode(node, writer);
  else if ('children' in node) for (const child of node.children) write(child, writer);
  else append(shownBy(node), placeOf(node), false, writer);
}

/** What a reader sees of a node that holds no text. */
function shownBy(node: Break | FootnoteReference | Html | Image | ImageReference): string {
  switch (node.type) {
    case 'break':
      return ' ';
    case 'image':
    case 'imageReference':
      return (node.alt ?? '').replace(LINE_ENDS, ' ');
    case 'html':
      return /^<br\b/i.test(node.value) ? ' ' : '';
    case 'footnoteReference':
      return '';
  }
}

const LINE_ENDS = /\r\n|\r|\n/g;

function writeText(value: string, place: Span, writer: Writer): void {
  const isVerbatim = writer.source.slice(place.start, place.end) === value && !/[\r\n]/.test(value);
  append(value.replace(LINE_ENDS, ' '), place, isVerbatim, writer);
}

function writeCode(node: InlineCode, writer: Writer): void {
  const outer = placeOf(node);
  const content = node.data?.place ?? outer;
  const code = node.value.replace(LINE_ENDS, ' ');
  writer.codes.push({ at: writer.length, code, span: spanOf(content.start, content.end), outer });
  append(CODE_CHARACTER, outer, false, writer);
}

function append(text: string, place: Span, verbatim: boolean, writer: Writer): void {
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

function placeOf(node: PhrasingContent): Span {
  return spanOf(node.position?.start.offset ?? 0, node.position?.end.offset ?? 0);
}
