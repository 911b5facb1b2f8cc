/** YAML values on one line (plain and quoted scalars, `{…}` and `[…]` of them) in which nothing can be read two ways. */
import { type Span, spanOf } from '../span';
import type { YamlEntry, YamlList, YamlMap, YamlNode, YamlScalar } from '../yaml-node';

/** Control characters and a byte order mark are left to the library. */
const UNUSUAL = '\\0-\\x1f\\ufeff';
/** Begins no other node than a plain scalar (YAML 1.2.2, 7.3.3); a minus stands before a digit. */
const FIRST = `(?:[^\\s\\-?:,[\\]{}#&*!|>'"%@\`${UNUSUAL}]|-(?=\\d))`;
/** Signs of comments, of mappings and of values that a comma may have ended too early are left to the library. */
const PLAIN_IN_FLOW = new RegExp(`${FIRST}(?:[^,[\\]{}():#"'${UNUSUAL}]*[^ ,[\\]{}():#"'${UNUSUAL}])?`, 'y');
/** To the end of its line, where no space stands, or to what is left to the library. */
const PLAIN_IN_BLOCK = new RegExp(`${FIRST}(?:[^:#${UNUSUAL}]+|:(?=[^\\s:]))*`, 'y');
const QUOTED = new RegExp(`"[^"\\\\${UNUSUAL}]*"|'[^'${UNUSUAL}]*'(?!')`, 'y');
const KEY = /[\p{L}\p{N}_][\p{L}\p{N}_.-]{0,200}(?=:(?: |$|\r?\n))/uy;
const COMMA = / *, */y;
const SPACES = / */y;

/** The value at `at` that stands in no braces; the caller sees that it ends with its line. Null where the library must decide. */
export function plainValue(text: string, at: number): YamlNode | null {
  return flowCollection(text, at, 0) ?? quoted(text, at) ?? plain(PLAIN_IN_BLOCK, text, at);
}

/** The key at `at`, with a colon behind it. */
export function plainKey(text: string, at: number): Span | null {
  return placeOf(KEY, text, at);
}

const MAXIMUM_DEPTH = 8;

function flowCollection(text: string, at: number, depth: number): YamlMap | YamlList | null {
  const sign = text[at];
  if (depth > MAXIMUM_DEPTH || (sign !== '{' && sign !== '[')) return null;
  return sign === '{' ? flowMap(text, at, depth) : flowList(text, at, depth);
}

function flowMap(text: string, start: number, depth: number): YamlMap | null {
  const entries: YamlEntry[] = [];
  const end = readParts(text, start, '}', (at) => {
    const keySpan = plainKey(text, at);
    if (keySpan === null || text[keySpan.end + 1] !== ' ') return null;
    const value = flowValue(text, afterSpaces(text, keySpan.end + 1), depth);
    if (value === null) return null;
    entries.push({ key: text.slice(keySpan.start, keySpan.end), keySpan, value, hasColon: true });
    return value.span.end;
  });
  if (end === null || hasDuplicates(entries)) return null;
  return { type: 'map', entries, flow: true, span: spanOf(start, end) };
}

function flowList(text: string, start: number, depth: number): YamlList | null {
  const items: YamlNode[] = [];
  const end = readParts(text, start, ']', (at) => {
    const item = flowValue(text, at, depth);
    if (item === null) return null;
    items.push(item);
    return item.span.end;
  });
  return end === null ? null : { type: 'list', items, flow: true, span: spanOf(start, end) };
}

/** Reads parts between the bracket at `start` and `close`; `read` gives the end of a part. Gives the end of the whole. */
function readParts(text: string, start: number, close: string, read: (at: number) => number | null): number | null {
  let at = afterSpaces(text, start + 1);
  if (text[at] === close) return at + 1;
  for (;;) {
    const end = read(at);
    if (end === null) return null;
    const after = afterSpaces(text, end);
    if (text[after] === close) return after + 1;
    const comma = placeOf(COMMA, text, end);
    if (comma === null) return null;
    at = comma.end;
  }
}

function flowValue(text: string, at: number, depth: number): YamlNode | null {
  return flowCollection(text, at, depth + 1) ?? quoted(text, at) ?? plain(PLAIN_IN_FLOW, text, at);
}

function quoted(text: string, at: number): YamlScalar | null {
  const span = placeOf(QUOTED, text, at);
  if (span === null) return null;
  const inner = text.slice(span.start + 1, span.end - 1);
  return { type: 'scalar', style: 'quoted', text: inner, span, textStart: span.start + 1 };
}

function plain(pattern: RegExp, text: string, at: number): YamlScalar | null {
  const span = placeOf(pattern, text, at);
  if (span === null) return null;
  return { type: 'scalar', style: 'plain', text: text.slice(span.start, span.end), span, textStart: span.start };
}

export function hasDuplicates(entries: readonly YamlEntry[]): boolean {
  return new Set(entries.map(({ key }) => key)).size < entries.length;
}

function afterSpaces(text: string, at: number): number {
  return placeOf(SPACES, text, at)?.end ?? at;
}

function placeOf(pattern: RegExp, text: string, at: number): Span | null {
  pattern.lastIndex = at;
  return pattern.test(text) ? spanOf(at, pattern.lastIndex) : null;
}
