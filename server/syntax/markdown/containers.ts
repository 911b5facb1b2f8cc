/**
 * Which quotes, list items and footnotes a line stands in, as far as its own first characters and the lines before it
 * tell. The depth is never told too small by more than lazy lines allow; that a line starts a block is told only
 * where it is sure.
 */
import { columnAfter, LIST_MARKER, type Line } from './line';

/** What is known of the containers between two lines of a section. */
export interface ContainerState {
  /** List items and footnotes that may be open, outermost first. */
  readonly items: readonly OpenItem[];
  /** The line before surely belongs to the last of them. */
  readonly inLastItem: boolean;
  readonly afterBlank: boolean;
  readonly quotes: number;
}

interface OpenItem {
  /** Column of its marker. */
  readonly marker: number;
  /** The least column where its content may begin. */
  readonly content: number;
}

export interface LineContainers {
  readonly after: ContainerState;
  /** Containers inside one another, the line's own included. */
  readonly depth: number;
  /** Whatever is open before the line, this starts a block of its own or leaves the one before. */
  readonly startsBlock: boolean;
  /** It looks like the start of an item, sure or not. */
  readonly hasMarker: boolean;
  /** The line without the marks of its containers. */
  readonly content: string;
  /** Columns before the content within its quotes, or before one of the quotes where those are more. */
  readonly indent: number;
}

export const OUTSIDE_CONTAINERS: ContainerState = { items: [], inLastItem: false, afterBlank: true, quotes: 0 };

/** Four columns further to the right a line is code or goes on with a paragraph. */
const CODE_INDENT = 4;

/** Looks at the containers of a line that is not blank. Work is bounded by `most` containers a line. */
export function containersOf(line: Line, before: ContainerState, most: number): LineContainers {
  return STARTS_CONTAINER.test(line.rest) ? containersStarted(line, before, most) : containersKept(line, before);
}

/** Quote marks, list markers, footnotes; a bracket or a number may as well be text. */
const STARTS_CONTAINER = /^[->+*[\d]/;

function containersKept(line: Line, before: ContainerState): LineContainers {
  const isInside = before.inLastItem && before.quotes === 0 && line.indent >= (before.items.at(-1)?.content ?? 0);
  const items = before.afterBlank ? before.items.filter(({ content }) => content <= line.indent) : before.items;
  return {
    after: { items, inLastItem: isInside, afterBlank: false, quotes: 0 },
    depth: items.length,
    startsBlock: false,
    hasMarker: false,
    content: line.rest,
    indent: line.indent,
  };
}

function containersStarted(line: Line, before: ContainerState, most: number): LineContainers {
  const quotes = quotesAt(line, most);
  const started = startedItems(line.text.slice(quotes.index), quotes.column, most);
  const isFresh = started.items.length > 0 || before.afterBlank;
  const open = isFresh ? before.items.filter(({ content }) => content <= quotes.column) : before.items;
  const startsBlock = startsItem(started, quotes, before, open);
  const items = [...open, ...started.items];
  const isInside =
    before.inLastItem && quotes.count === before.quotes && quotes.column >= (before.items.at(-1)?.content ?? 0);
  return {
    after: {
      items,
      inLastItem: started.items.length > 0 ? startsBlock : isInside,
      afterBlank: false,
      quotes: quotes.count,
    },
    depth: items.length + quotes.count,
    startsBlock,
    hasMarker: started.items.length > 0,
    content: started.rest,
    indent: quotes.indent,
  };
}

interface Quotes {
  readonly count: number;
  /** Where the line's content begins: offset in the line and column. */
  readonly index: number;
  readonly column: number;
  /** The most columns before a quote mark or the content; from four on, the rest may be no quote but text. */
  readonly indent: number;
}

function quotesAt(line: Line, most: number): Quotes {
  let count = 0;
  let column = 0;
  let contentStart = 0;
  let indent = 0;
  let index = 0;
  for (; index < line.text.length && count <= most; index++) {
    const character = line.text[index] as string;
    if (character !== '>' && character !== ' ' && character !== '\t') break;
    if (character === '>') {
      count++;
      indent = Math.max(indent, column - contentStart);
      // One space behind a quote mark belongs to it (CommonMark 0.31.2, 5.1).
      contentStart = column + 2;
    }
    column = columnAfter(column, character);
  }
  return { count, index, column, indent: Math.max(indent, column - contentStart) };
}

interface StartedItems {
  readonly items: readonly OpenItem[];
  /** The first marker may stand in the middle of a paragraph and still start a list. */
  readonly interrupts: boolean;
  readonly rest: string;
}

/** The items that begin on one line, one in another (`- - x`). */
function startedItems(text: string, from: number, most: number): StartedItems {
  const items: OpenItem[] = [];
  let rest = text;
  let column = from;
  for (let marker = markerOf(rest); marker !== null && items.length <= most; marker = markerOf(rest)) {
    items.push({ marker: column, content: column + contentOffset(marker) });
    const prefix = marker + (SPACE.exec(rest.slice(marker.length))?.[0] ?? '');
    for (const character of prefix) column = columnAfter(column, character);
    rest = rest.slice(prefix.length);
  }
  return { items, interrupts: INTERRUPTING.test(text), rest };
}

const FOOTNOTE_MARKER = /^\[\^[^\s[\]]{1,999}\]:/;
const THEMATIC_BREAK = /^(?:(?:-[ \t]*){3,}|(?:\*[ \t]*){3,})$/;
const SPACE = /^[ \t>]*/;
/** A list whose first item has content and no other number than 1 interrupts a paragraph (CommonMark 0.31.2, 5.3). */
const INTERRUPTING = /^(?:[-+*]|1[.)])[ \t]+[^ \t]/;

function markerOf(rest: string): string | null {
  const marker = LIST_MARKER.exec(rest) ?? FOOTNOTE_MARKER.exec(rest);
  return marker && !THEMATIC_BREAK.test(rest) ? marker[0] : null;
}

/** A footnote's content is indented by four columns whatever its marker (GFM). */
function contentOffset(marker: string): number {
  return marker.startsWith('[') ? CODE_INDENT : marker.length + 1;
}

/** Sure only where no paragraph can go on over the line. */
function startsItem(started: StartedItems, quotes: Quotes, before: ContainerState, open: readonly OpenItem[]): boolean {
  if (started.items.length === 0) return false;
  const { column } = quotes;
  const innermost = open.at(-1)?.content ?? 0;
  if (before.afterBlank) return started.interrupts && column - innermost < CODE_INDENT;
  if (started.interrupts && quotes.indent < CODE_INDENT) return true;
  if (!before.inLastItem || quotes.count !== before.quotes) return false;
  const isSibling = before.items.some(({ marker }) => marker === column);
  const isNested = started.interrupts && column >= innermost && column - innermost < CODE_INDENT;
  return isSibling || isNested;
}
