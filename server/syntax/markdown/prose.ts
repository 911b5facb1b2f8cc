/** Inline Markdown as the text a reader sees, with where each piece of it stands in the document. */
import type { Break, FootnoteReference, Html, Image, ImageReference, InlineCode, PhrasingContent } from 'mdast';
import { type Span, spanOf } from '../span';
import type { Prose } from './block';
import { appendCode, appendText, createProseWriter, type ProseWriter, proseFrom } from './prose-writer';

export const EMPTY_PROSE: Prose = { text: '', codes: [], runs: [] };

/**
 * The prose of inline nodes of a tree of {@link textPieces} over `source`. Spans are offsets as in the tree.
 * Emphasis, links and the like read as their content, images as their alternative text, HTML and footnote references
 * as nothing (`<br>` as a space).
 */
export function proseOf(nodes: readonly PhrasingContent[], source: string): Prose {
  const writer: Writer = { source, ...createProseWriter() };
  for (const node of nodes) write(node, writer);
  return proseFrom(writer);
}

interface Writer extends ProseWriter {
  readonly source: string;
}

function write(node: PhrasingContent, writer: Writer): void {
  if (node.type === 'text') writeText(node.value, placeOf(node), writer);
  else if (node.type === 'inlineCode') writeCode(node, writer);
  else if ('children' in node) for (const child of node.children) write(child, writer);
  else appendText(shownBy(node), placeOf(node), false, writer);
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
  appendText(value.replace(LINE_ENDS, ' '), place, isVerbatim, writer);
}

function writeCode(node: InlineCode, writer: Writer): void {
  const outer = placeOf(node);
  const content = node.data?.place ?? outer;
  const code = node.value.replace(LINE_ENDS, ' ');
  appendCode(code, spanOf(content.start, content.end), outer, writer);
}

function placeOf(node: PhrasingContent): Span {
  return spanOf(node.position?.start.offset ?? 0, node.position?.end.offset ?? 0);
}
