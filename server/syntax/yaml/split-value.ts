/** Values in braces that a comma ended too early: `{power: = min(a, b)}`, `{volume: 12,000}`. */
import { type Fix, type Problem, type Span, spanOf } from '../span';
import type { YamlEntry, YamlNode } from '../yaml-node';

/** What remains when the pieces after the first are left out, and a `split-value` for each broken value. */
export interface Joined<Part> {
  readonly kept: readonly Part[];
  /** The span of each covers the value whole, as it was meant, so that whoever reads the value knows it is undecided. */
  readonly problems: readonly Problem[];
}

/** Pieces looked at after an opening bracket; a longer list of arguments is not joined. */
const MAXIMUM_PIECES = 32;

/** Finds the broken values of a flow mapping; keys that are really the rest of a value are left out. */
export function joinSplitValues(entries: readonly YamlEntry[], source: string): Joined<YamlEntry> {
  return join(entries, source, {
    valueOf: (entry) => (entry.hasColon ? entry.value : null),
    startOf: (entry) => entry.keySpan.start,
    endOf: (entry) => Math.max(entry.keySpan.end, entry.value.span.end),
    isRest: (entry) => !entry.hasColon && REST.test(source.slice(entry.keySpan.start, entry.keySpan.end)),
  });
}

/** Finds the broken values of a flow list: there only an open bracket or quote tells that a comma ended a value. */
export function joinSplitItems(items: readonly YamlNode[], source: string): Joined<YamlNode> {
  return join(items, source, {
    valueOf: (item) => item,
    startOf: (item) => item.span.start,
    endOf: (item) => item.span.end,
    isRest: () => false,
  });
}

/** How the parts of a collection are looked at. */
interface Parts<Part> {
  readonly valueOf: (part: Part) => YamlNode | null;
  readonly startOf: (part: Part) => number;
  readonly endOf: (part: Part) => number;
  /** Can only be the rest of the value before. */
  readonly isRest: (part: Part) => boolean;
}

/** A key without value that begins so is no name but the rest of a value. */
const REST = /^[\d"')]/;

function join<Part>(parts: readonly Part[], source: string, look: Parts<Part>): Joined<Part> {
  const kept: Part[] = [];
  const problems: Problem[] = [];
  for (let index = 0; index < parts.length; ) {
    const part = parts[index] as Part;
    const { count, isBroken } = piecesOf(parts, index, source, look);
    if (isBroken || look.isRest(part)) problems.push(splitValue(parts.slice(index, index + count), source, look));
    if (!look.isRest(part)) kept.push(part);
    index += count;
  }
  return { kept, problems };
}

/** How many parts one value has fallen into. */
interface Pieces {
  readonly count: number;
  readonly isBroken: boolean;
}

function piecesOf<Part>(parts: readonly Part[], index: number, source: string, look: Parts<Part>): Pieces {
  const value = look.valueOf(parts[index] as Part);
  const isPlain = value?.type === 'scalar' && value.style === 'plain';
  const balanced = isPlain ? piecesUntilBalanced(parts, index, value, source, look) : WHOLE;
  let count = balanced.count;
  while (index + count < parts.length && look.isRest(parts[index + count] as Part)) count++;
  return { count, isBroken: balanced.isBroken || count > 1 };
}

const WHOLE: Pieces = { count: 1, isBroken: false };

/** Never balanced again: only an open round bracket (not an inch mark) still tells that a comma was not meant. */
function piecesUntilBalanced<Part>(
  parts: readonly Part[],
  index: number,
  value: YamlNode,
  source: string,
  look: Parts<Part>,
): Pieces {
  const reader: BracketReader = { depth: 0, inQuotes: false, at: value.span.start };
  const last = Math.min(MAXIMUM_PIECES, parts.length - index);
  let isOpen = false;
  for (let count = 1; count <= last; count++) {
    readBrackets(reader, source, look.endOf(parts[index + count - 1] as Part));
    if (reader.depth <= 0 && !reader.inQuotes) return { count, isBroken: count > 1 };
    if (count === 1) isOpen = reader.depth > 0 && last > 1;
  }
  return { count: 1, isBroken: isOpen };
}

interface BracketReader {
  depth: number;
  inQuotes: boolean;
  at: number;
}

/** Counts round brackets outside double quotes up to `end`. */
function readBrackets(reader: BracketReader, source: string, end: number): void {
  for (; reader.at < end; reader.at++) {
    const character = source[reader.at];
    if (character === '"') reader.inQuotes = !reader.inQuotes;
    else if (reader.inQuotes) continue;
    else if (character === '(') reader.depth++;
    else if (character === ')') reader.depth--;
  }
}

function splitValue<Part>(pieces: readonly Part[], source: string, look: Parts<Part>): Problem {
  const first = pieces[0] as Part;
  const value = look.valueOf(first);
  const span = spanOf(value ? value.span.start : look.startOf(first), look.endOf(pieces[pieces.length - 1] as Part));
  if (!value) {
    const message = `${source.slice(span.start, span.end)} is no key: write "key: value", with the value in quotes`;
    return { code: 'split-value', message, span };
  }
  const fix = fixOf(value, span, source);
  const message = `the comma ends the value here; ${adviceOn(source.slice(span.start, span.end))}`;
  return { code: 'split-value', message, span, ...(fix ? { fix } : {}) };
}

function adviceOn(written: string): string {
  if (!isQuantity(written)) return 'quote it';
  return GROUPED.test(written)
    ? 'write the number without it'
    : 'use a decimal point, or put this value on a line of its own, outside braces';
}

function isQuantity(written: string): boolean {
  return /^[+-]?[\d.]/.test(written);
}

const GROUPED = /^[+-]?\d{1,3}(?:,\d{3})+(?!\d)[^,]*$/;

/**
 * The one right edit. Only an expression or words keep their meaning in quotes: a quoted quantity would become text,
 * so a number grouped by commas loses them, and any other quantity is left to its author.
 */
function fixOf(value: YamlNode, span: Span, source: string): Fix | null {
  if (value.type !== 'scalar' || value.style !== 'plain') return null;
  const written = source.slice(span.start, span.end);
  if (GROUPED.test(written)) {
    return { title: 'Remove the commas from the number', edits: [{ span, text: written.replaceAll(',', '') }] };
  }
  if (!isBalanced(written) || isQuantity(written)) return null;
  return { title: 'Quote the value', edits: [{ span, text: `'${written.replaceAll("'", "''")}'` }] };
}

function isBalanced(written: string): boolean {
  const reader = { depth: 0, inQuotes: false, at: 0 };
  readBrackets(reader, written, written.length);
  return reader.depth === 0 && !reader.inQuotes;
}
