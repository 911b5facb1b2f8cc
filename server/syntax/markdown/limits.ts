/**
 * Limits that hold before the Markdown parser sees a section: it is quadratic on nested containers, goes through the
 * rest of a paragraph again at many a bracket, and cannot be stopped. Counted line by line in linear time; a paragraph
 * is taken to go on wherever it is not sure that it ends.
 */
import type { Problem } from '../span';
import { spanOf } from '../span';
import { type ContainerState, containersOf, type LineContainers, OUTSIDE_CONTAINERS } from './containers';
import { ATX_HEADING, type Line } from './line';

/** UTF-16 code units of one paragraph, heading or table row. */
export const MAXIMUM_PARAGRAPH_LENGTH = 64_000;
/** Quotes and list items inside one another. */
export const MAXIMUM_NESTING = 32;
/** Lines of one section: twice the rows that a table may have. */
export const MAXIMUM_SECTION_LINES = 20_000;
/** Indented further a line is code or goes on with a paragraph. */
const CODE_INDENT = 4;
/** Delimiters of a paragraph times its length: about a second of the parser at worst. */
const MAXIMUM_PARAGRAPH_WORK = 15_000_000;
/** To go over a line end once more costs as much as so many characters (measured). */
const CHARACTERS_PER_LINE_END = 80;

/** What was counted up to a line of the section. */
export interface LimitState {
  /** The first limit that was passed. */
  readonly tooLarge: Problem | null;
  readonly lines: number;
  readonly paragraph: Paragraph;
  /** Every line up to a blank one is a row. */
  readonly inTable: boolean;
  readonly containers: ContainerState;
}

/** The open paragraph; empty between blocks. */
interface Paragraph {
  readonly length: number;
  readonly lines: number;
  readonly delimiters: number;
  /** Its first line as long as it is the only one: it may be the header of a table. Else empty. */
  readonly header: string;
}

const NO_PARAGRAPH: Paragraph = { length: 0, lines: 0, delimiters: 0, header: '' };

export const BEFORE_FIRST_SECTION_LINE: LimitState = {
  tooLarge: null,
  lines: 0,
  paragraph: NO_PARAGRAPH,
  inTable: false,
  containers: OUTSIDE_CONTAINERS,
};

/** The count after a line; `isOpaque` lines are code or HTML, which holds no paragraphs. */
export function limitsAfter(before: LimitState, line: Line, isOpaque: boolean): LimitState {
  if (before.tooLarge) return before;
  const lines = before.lines + 1;
  if (lines > MAXIMUM_SECTION_LINES) return { ...before, tooLarge: tooManyLines(line) };
  if (isOpaque || line.rest === '') {
    const containers = { ...before.containers, afterBlank: true };
    return { ...before, lines, paragraph: NO_PARAGRAPH, inTable: false, containers };
  }
  const containers = containersOf(line, before.containers, MAXIMUM_NESTING);
  const paragraph = paragraphWith(line, containers, before);
  return {
    tooLarge: tooLarge(line, paragraph, containers.depth),
    lines,
    paragraph: isHeading(containers) ? NO_PARAGRAPH : paragraph,
    inTable: isRow(containers, before) || startsRows(containers, before),
    containers: containers.after,
  };
}

function paragraphWith(line: Line, containers: LineContainers, before: LimitState): Paragraph {
  const startsAnew = containers.startsBlock || isHeading(containers) || isRow(containers, before);
  const open = startsAnew ? NO_PARAGRAPH : before.paragraph;
  return {
    length: open.length + line.text.length + 1,
    lines: open.lines + 1,
    delimiters: open.delimiters + (line.text.match(DELIMITER_RUN)?.length ?? 0),
    header: open.lines === 0 && containers.indent < CODE_INDENT ? containers.content : '',
  };
}

const DELIMITER_RUN = /[[\]<]|\*+|_+|`+/g;

function isHeading(containers: LineContainers): boolean {
  return containers.indent < CODE_INDENT && ATX_HEADING.test(containers.content);
}

function isRow(containers: LineContainers, before: LimitState): boolean {
  return before.inTable && !containers.hasMarker && !endsTable(containers) && staysInside(containers, before);
}

const STARTS_CODE_OR_HTML = /^(?:`{3}|~{3}|<)/;
const THEMATIC_BREAK = /^(?:(?:-[ \t]*){3,}|(?:\*[ \t]*){3,}|(?:_[ \t]*){3,})$/;

/** Another block than a paragraph starts. */
function endsTable({ content, indent }: LineContainers): boolean {
  return (
    indent >= CODE_INDENT ||
    STARTS_CODE_OR_HTML.test(content) ||
    ATX_HEADING.test(content) ||
    THEMATIC_BREAK.test(content)
  );
}

/** A table ends with the quote or the item that it stands in; where an item may be open, nobody knows where it stands. */
function staysInside({ after }: LineContainers, { containers }: LimitState): boolean {
  const isOutside = after.items.length === 0 && containers.items.length === 0;
  return after.quotes === containers.quotes && (isOutside || (after.inLastItem && containers.inLastItem));
}

/** The second line of a table: as many cells as the header (GFM 0.29, 4.10). */
function startsRows(containers: LineContainers, before: LimitState): boolean {
  const { content, indent } = containers;
  const { header } = before.paragraph;
  const hasBars = indent < CODE_INDENT && content.includes('|') && header.includes('|');
  if (!hasBars || !/^[-:| \t]+$/.test(content)) return false;
  const cells = cellsOf(content);
  const isDelimiterRow = cells.every((cell) => /^[ \t]*:?-+:?[ \t]*$/.test(cell));
  return isDelimiterRow && cells.length === cellsOf(header).length && staysInside(containers, before);
}

/** The cells of a table row: bars that no backslash escapes divide them, one at each end may be left out. */
function cellsOf(row: string): string[] {
  const bars = row.replace(/\\[\s\S]/g, '').trimEnd();
  return bars.replace(/^\|/, '').replace(/\|$/, '').split('|');
}

function tooLarge(line: Line, paragraph: Paragraph, depth: number): Problem | null {
  if (paragraph.length > MAXIMUM_PARAGRAPH_LENGTH) {
    return problem(line, 'a paragraph of more than 64 kB; split it with a blank line');
  }
  if (depth > MAXIMUM_NESTING) return problem(line, `quotes and lists nested more than ${MAXIMUM_NESTING} deep`);
  const work = paragraph.delimiters * (paragraph.length + CHARACTERS_PER_LINE_END * paragraph.lines);
  return work > MAXIMUM_PARAGRAPH_WORK
    ? problem(line, 'a long paragraph with too many brackets, stars or backticks; split it with a blank line')
    : null;
}

function tooManyLines(line: Line): Problem {
  return problem(line, `more than ${MAXIMUM_SECTION_LINES.toLocaleString('en')} lines before the next heading`);
}

/** Characters of a long line that a problem points at. */
const POINTED_AT = 80;

function problem(line: Line, what: string): Problem {
  const span = spanOf(line.start, line.start + Math.min(line.text.length, POINTED_AT));
  return { code: 'too-large', message: `this section is not read: ${what}`, span };
}
