/**
 * Sections of the plainest Markdown (a heading, paragraphs, lists with one line an item, tables, all in the first
 * column), read without the parser to the very blocks that the parser gives; a property test holds the two against
 * each other. Most requirements are written so, and the parser is what a check spends its time on.
 */
import { type Span, spanOf } from '../span';
import type { Block, ListItem } from './block';
import { linesOf } from './line';
import { type PlainLine, plainProse } from './plain-prose';
import { readPlainTable } from './plain-table';

/** The blocks of a section that begins at offset `start` of its document; null where the parser must decide. */
export function plainBlocks(sectionText: string, start: number): Block[] | null {
  const lines = plainLines(sectionText, start);
  if (lines === null) return null;
  const blocks: Block[] = [];
  for (let index = 0; index < lines.length; ) {
    const read = readBlock(lines, index);
    if (read === null) return null;
    if (read.block !== null) blocks.push(read.block);
    index = read.next;
  }
  return blocks;
}

/** A block, or null for blank lines; `next` is the index of the line after it. */
interface PlainBlock {
  readonly block: Block | null;
  readonly next: number;
}

/** White space around a line may be an indentation or a hard break. */
function plainLines(text: string, start: number): PlainLine[] | null {
  const lines: PlainLine[] = [];
  for (const line of linesOf(text, 0)) {
    if (/^[ \t]|[ \t]$/.test(line.text)) return null;
    lines.push({ start: start + line.start, text: line.text });
  }
  return lines;
}

const HEADING = /^(#{1,6}) (?=[^ #])(?:.*[^ #])?$/s;
const BULLET = /^([-*+]) (?=[^ ])/;
/**
 * A line that begins like this goes on with an open paragraph or begins one, and does nothing else: a letter, a number
 * that is no list marker, an opening sign, emphasis, code (CommonMark 0.31.2, 4 and 5).
 */
const PARAGRAPH = /^(?:\p{L}|\d+(?![\d.)])|\d+\.\d|["“‘'(≤≥±]|\*{1,2}[\p{L}\p{N}]|`[^`])/u;

function readBlock(lines: readonly PlainLine[], index: number): PlainBlock | null {
  const { text } = lines[index] as PlainLine;
  if (text === '') return { block: null, next: index + 1 };
  if (PARAGRAPH.test(text)) return readParagraph(lines, index);
  if (BULLET.test(text)) return readList(lines, index);
  if (text.startsWith('|')) return readPlainTable(lines, index);
  return readHeading(lines[index] as PlainLine, index);
}

function readHeading(line: PlainLine, index: number): PlainBlock | null {
  const marks = HEADING.exec(line.text)?.[1];
  if (marks === undefined) return null;
  const from = marks.length + 1;
  const prose = plainProse([{ start: line.start + from, text: line.text.slice(from) }]);
  return prose && { block: { type: 'heading', depth: marks.length, prose, span: spanOfLine(line) }, next: index + 1 };
}

/** Ends at a blank line or before a list; any other block that follows at once is the parser's. */
function readParagraph(lines: readonly PlainLine[], index: number): PlainBlock | null {
  let next = index;
  while (next < lines.length && PARAGRAPH.test((lines[next] as PlainLine).text)) next += 1;
  const after = lines[next]?.text ?? '';
  const prose = after === '' || BULLET.test(after) ? plainProse(lines.slice(index, next)) : null;
  if (prose === null) return null;
  const span = spanOf((lines[index] as PlainLine).start, spanOfLine(lines[next - 1] as PlainLine).end);
  return { block: { type: 'paragraph', prose, span }, next };
}

/** A blank line between items leaves the list open. */
function readList(lines: readonly PlainLine[], index: number): PlainBlock | null {
  const marker = (lines[index] as PlainLine).text[0] as string;
  const items: ListItem[] = [];
  let next = index;
  for (; next < lines.length; next += 1) {
    const line = lines[next] as PlainLine;
    if (line.text === '') continue;
    if (!BULLET.test(line.text)) break;
    const item = line.text.startsWith(marker) ? itemOf(line) : null;
    if (item === null) return null;
    items.push(item);
  }
  const isOver = next === lines.length || lines[next - 1]?.text === '';
  const span = spanOf(items[0]?.span.start ?? 0, items.at(-1)?.span.end ?? 0);
  return isOver ? { block: { type: 'list', items, span }, next } : null;
}

function itemOf(line: PlainLine): ListItem | null {
  const content = { start: line.start + 2, text: line.text.slice(2) };
  const prose = PARAGRAPH.test(content.text) ? plainProse([content]) : null;
  return prose && { blocks: [{ type: 'paragraph', prose, span: spanOfLine(content) }], span: spanOfLine(line) };
}

function spanOfLine({ start, text }: PlainLine): Span {
  return spanOf(start, start + text.length);
}
