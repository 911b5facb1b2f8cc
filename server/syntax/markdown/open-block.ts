/**
 * What fenced code or HTML may be open at a line, so that a `#` in it is not taken for a heading. Where a line can be
 * read two ways without parsing the containers, both readings are followed: what is left possible always includes
 * the truth.
 */
import { htmlStart } from './html-block';
import { columnAfter, LIST_MARKER, type Line } from './line';

/** One possibility. `nested`: a fence inside a list item, which any line left of the item ends. */
export type OpenBlock =
  | { readonly kind: 'none' }
  | { readonly kind: 'fence'; readonly marker: string }
  | { readonly kind: 'nested'; readonly marker: string; readonly indent: number }
  | { readonly kind: 'html'; readonly end: RegExp | null };

/** What is known between two lines. */
export interface LineState {
  /** Without duplicates, never empty. */
  readonly possible: readonly OpenBlock[];
  /** A line indented by two columns or more may belong to a list item. */
  readonly maybeInList: boolean;
  /** HTML may be open in that item. */
  readonly maybeHtmlInList: boolean;
  readonly afterBlank: boolean;
  /** Too many possibilities: from here on nothing is known. */
  readonly isLost: boolean;
}

const NONE: OpenBlock = { kind: 'none' };
const ONLY_NONE: readonly OpenBlock[] = [NONE];
/** A fence, HTML or a list item begins with one of these. */
const MAY_OPEN = /^[`~<+*\d-]/;
const MAXIMUM_POSSIBLE = 12;
/** The content of a list item stands two columns to the right of its marker or further. */
const LEAST_ITEM_INDENT = 2;
/** From here on an indented line is code or a continuation, never the start of a block. */
const CODE_INDENT = 4;

export const BEFORE_FIRST_LINE: LineState = {
  possible: ONLY_NONE,
  maybeInList: false,
  maybeHtmlInList: false,
  afterBlank: true,
  isLost: false,
};

/** Nothing that is open reaches over a column-0 heading: the state is known whole again. */
export function isOutside(state: LineState): boolean {
  return !state.isLost && state.possible.every(({ kind }) => kind === 'none' || kind === 'nested');
}

/** Every possibility has the next line inside code or HTML, where no inline content is parsed. */
export function isOpaque(state: LineState): boolean {
  return !state.isLost && state.possible.every(({ kind }) => kind !== 'none');
}

/** The state after a line. */
export function afterLine(before: LineState, line: Line): LineState {
  const isPlain = before.possible === ONLY_NONE && !before.maybeInList && !MAY_OPEN.test(line.rest);
  if (isPlain) return { ...before, afterBlank: line.rest === '' };
  const isBlank = line.rest === '';
  const isMarker = LIST_MARKER.test(line.rest);
  const leavesList = before.afterBlank && !isBlank && line.indent < LEAST_ITEM_INDENT && !isMarker;
  const known = leavesList ? { ...before, maybeInList: false, maybeHtmlInList: false } : before;
  const maybeInList = known.maybeInList || isMarker;
  const opensHtml = line.rest.startsWith('<') || (isMarker && line.rest.includes('<'));
  const possible = distinct(known.possible.flatMap((open) => step(open, line, known)));
  return {
    possible,
    maybeInList,
    maybeHtmlInList: known.maybeHtmlInList || (maybeInList && opensHtml),
    afterBlank: isBlank,
    isLost: before.isLost || possible.length > MAXIMUM_POSSIBLE,
  };
}

function step(open: OpenBlock, line: Line, state: LineState): readonly OpenBlock[] {
  switch (open.kind) {
    case 'none':
      return started(line, state);
    case 'fence':
      return line.indent < CODE_INDENT && closesFence(open.marker, line.rest) ? [NONE] : [open];
    case 'html':
      return (open.end ? open.end.test(line.rest) : line.rest === '') ? [NONE] : [open];
    case 'nested':
      return afterNested(open, line, state);
  }
}

function afterNested(open: OpenBlock & { kind: 'nested' }, line: Line, state: LineState): readonly OpenBlock[] {
  if (line.rest === '') return [open];
  if (line.indent < LEAST_ITEM_INDENT) return started(line, { ...state, maybeInList: false, maybeHtmlInList: false });
  if (closesFence(open.marker, line.rest)) {
    return line.indent === open.indent ? [NONE] : [NONE, open, ...started(line, state)];
  }
  return line.indent >= open.indent ? [open] : [open, ...started(line, state)];
}

/** What a line may open where nothing is open. */
function started(line: Line, state: LineState): readonly OpenBlock[] {
  if (line.rest === '') return [NONE];
  const isInItem = state.maybeInList && line.indent >= LEAST_ITEM_INDENT;
  const marker = fenceMarker(line.rest);
  if (marker) return startedFence(marker, line, state, isInItem);
  if (LIST_MARKER.test(line.rest)) return startedInItem(line);
  const html = line.indent < CODE_INDENT ? htmlStart(line.rest) : null;
  if (!html) return [NONE];
  const isOver = html.end?.test(line.rest) === true;
  const open: OpenBlock = isOver ? NONE : { kind: 'html', end: html.end };
  return html.isCertain && !isInItem ? [open] : [NONE, open];
}

function startedFence(marker: string, line: Line, state: LineState, isInItem: boolean): readonly OpenBlock[] {
  const { indent } = line;
  const nested: OpenBlock = { kind: 'nested', marker, indent };
  if (indent >= CODE_INDENT) return isInItem ? [NONE, nested] : [NONE];
  const fence: OpenBlock = { kind: 'fence', marker };
  if (!isInItem) return [fence];
  return state.maybeHtmlInList ? [NONE, nested, fence] : [nested, fence];
}

/** A list marker, perhaps several, perhaps with a fence right after them. */
function startedInItem(line: Line): readonly OpenBlock[] {
  let column = line.indent;
  let rest = line.rest;
  let isSimple = line.indent < LEAST_ITEM_INDENT && /^[-+*] {1,4}[^ \t]/.test(rest);
  for (let markers = 0; markers < MAXIMUM_MARKERS && CONTAINER.test(rest); markers++) {
    const prefix = CONTAINER.exec(rest)?.[0] ?? '';
    for (const character of prefix) column = columnAfter(column, character);
    rest = rest.slice(prefix.length);
    isSimple &&= markers === 0;
  }
  const marker = fenceMarker(rest);
  if (!marker) return [NONE];
  const nested: OpenBlock = { kind: 'nested', marker, indent: column };
  return isSimple ? [nested] : [NONE, nested];
}

/** More containers than the limits let through. */
const MAXIMUM_MARKERS = 64;
const CONTAINER = /^(?:[-+*]|\d{1,9}[.)]|>)[ \t]+/;
const FENCE = /^(?:(`{3,})[^`]*$|(~{3,}))/;

/** The run of backticks or tildes that opens fenced code (CommonMark 0.31.2, 4.5). */
function fenceMarker(rest: string): string | null {
  const match = FENCE.exec(rest);
  return match ? (match[1] ?? match[2] ?? null) : null;
}

/** The same character, at least as often, and nothing after it. */
function closesFence(marker: string, rest: string): boolean {
  if (!rest.startsWith(marker)) return false;
  const character = marker[0] as string;
  let end = marker.length;
  while (rest[end] === character) end++;
  return /^[ \t]*$/.test(rest.slice(end));
}

function distinct(open: readonly OpenBlock[]): readonly OpenBlock[] {
  if (open.length === 1) return open[0] === NONE ? ONLY_NONE : open;
  return [...new Map(open.map((block) => [keyOf(block), block])).values()];
}

function keyOf(open: OpenBlock): string {
  if (open.kind === 'none') return '';
  if (open.kind === 'html') return `html ${open.end?.source ?? ''}`;
  return open.kind === 'fence' ? `fence ${open.marker}` : `nested ${open.marker} ${open.indent}`;
}
