/**
 * The plainest YAML (block mappings and lists by indentation, each value on one line) read without the library to the
 * very tree that it gives; a property test holds the two against each other. Most front matter is written so.
 */
import { type Span, spanOf } from '../span';
import type { YamlEntry, YamlList, YamlMap, YamlNode } from '../yaml-node';
import { hasDuplicates, plainKey, plainValue } from './plain-flow';

/** The tree of the YAML inside `span`; null where the library must decide. Linear in the span's length. */
export function plainYaml(text: string, span: Span): YamlNode | null {
  const lines = plainLines(text, span);
  if (lines === null || lines.length === 0) return null;
  const cursor: Cursor = { text, lines, index: 0 };
  const root = readCollection(cursor, lines[0]?.indent ?? 0, 0);
  return cursor.index === lines.length ? root : null;
}

/** A line that is not blank. */
interface Line {
  readonly indent: number;
  /** Of its first character that is no space. */
  readonly start: number;
  /** Of its last character, exclusive. */
  readonly end: number;
  /** Behind its line end. */
  readonly next: number;
}

/** `index`: the line that is read next. */
interface Cursor {
  readonly text: string;
  readonly lines: readonly Line[];
  index: number;
}

/** Spaces at the end of a line count for some nodes, so such a line is no plain one. */
function plainLines(text: string, span: Span): Line[] | null {
  const lines: Line[] = [];
  for (let from = span.start; from < span.end; ) {
    const lineFeed = text.indexOf('\n', from);
    const next = lineFeed < 0 || lineFeed >= span.end ? span.end : lineFeed + 1;
    const end = endOfContent(text, from, next);
    let start = from;
    while (start < end && text[start] === ' ') start += 1;
    if (start < end && text[end - 1] === ' ') return null;
    if (start < end) lines.push({ indent: start - from, start, end, next });
    else if (from < end) return null;
    from = next;
  }
  return lines;
}

function endOfContent(text: string, from: number, next: number): number {
  const end = text[next - 1] === '\n' ? next - 1 : next;
  return end > from && text[end - 1] === '\r' ? end - 1 : end;
}

const MAXIMUM_DEPTH = 16;

/** The collection whose lines are indented by `indent`, up to a line that is indented less. */
function readCollection(cursor: Cursor, indent: number, depth: number): YamlMap | YamlList | null {
  if (depth > MAXIMUM_DEPTH) return null;
  const first = cursor.lines[cursor.index] as Line;
  return isItem(cursor.text, first) ? readList(cursor, indent, depth) : readMap(cursor, indent, depth, first.start);
}

function isItem(text: string, line: Line): boolean {
  return text[line.start] === '-' && text[line.start + 1] === ' ';
}

/** The first key stands at `start`: of a mapping inside a list item that is behind the item's sign. */
function readMap(cursor: Cursor, indent: number, depth: number, start: number): YamlMap | null {
  const entries: YamlEntry[] = [];
  let at = start;
  for (;;) {
    const entry = readEntry(cursor, indent, depth, at);
    if (entry === null) return null;
    entries.push(entry);
    const line = cursor.lines[cursor.index];
    if (line === undefined || line.indent < indent) break;
    if (line.indent > indent || isItem(cursor.text, line)) return null;
    at = line.start;
  }
  if (hasDuplicates(entries)) return null;
  return { type: 'map', entries, flow: false, span: spanOf(start, endOfRead(cursor)) };
}

function readEntry(cursor: Cursor, indent: number, depth: number, at: number): YamlEntry | null {
  const { text } = cursor;
  const line = cursor.lines[cursor.index] as Line;
  const keySpan = plainKey(text, at);
  if (keySpan === null) return null;
  const isFilled = keySpan.end + 1 < line.end;
  const value = isFilled ? readRest(cursor, line, keySpan.end + 1) : readBelow(cursor, indent, depth);
  return value && { key: text.slice(keySpan.start, keySpan.end), keySpan, value, hasColon: true };
}

/** A value behind a key or an item's sign, which ends with its line. */
function readRest(cursor: Cursor, line: Line, from: number): YamlNode | null {
  let at = from;
  while (cursor.text[at] === ' ') at += 1;
  const value = plainValue(cursor.text, at);
  if (value === null || value.span.end !== line.end) return null;
  cursor.index += 1;
  return value;
}

/** A collection on the lines below its key; a list may stand as far to the left as the key. */
function readBelow(cursor: Cursor, indent: number, depth: number): YamlNode | null {
  cursor.index += 1;
  const line = cursor.lines[cursor.index];
  if (line === undefined || line.indent < indent) return null;
  if (line.indent === indent) return isItem(cursor.text, line) ? readList(cursor, indent, depth + 1) : null;
  return readCollection(cursor, line.indent, depth + 1);
}

/** Ends before a line that is no item: a key of the mapping around it, which checks that it may stand there. */
function readList(cursor: Cursor, indent: number, depth: number): YamlList | null {
  const { text, lines } = cursor;
  const start = (lines[cursor.index] as Line).start;
  const items: YamlNode[] = [];
  for (;;) {
    const line = lines[cursor.index];
    if (line === undefined || line.indent < indent || (line.indent === indent && !isItem(text, line))) break;
    if (line.indent > indent) return null;
    const item = readItem(cursor, line, depth);
    if (item === null) return null;
    items.push(item);
  }
  return { type: 'list', items, flow: false, span: spanOf(start, endOfRead(cursor)) };
}

const ITEM_SIGN = 2;

function readItem(cursor: Cursor, line: Line, depth: number): YamlNode | null {
  const at = line.start + ITEM_SIGN;
  return plainKey(cursor.text, at) === null
    ? readRest(cursor, line, at)
    : readMap(cursor, line.indent + ITEM_SIGN, depth + 1, at);
}

/** A block collection reaches to the end of its last line, the line end included. */
function endOfRead({ lines, index }: Cursor): number {
  return (lines[index - 1] as Line).next;
}
