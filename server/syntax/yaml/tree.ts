/** Builds the language's YAML tree from the parser's document: source text, styles and places, nothing resolved. */
import {
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Pair,
  type ParsedNode,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { type Problem, type Span, spanOf } from '../span';
import type { YamlEntry, YamlList, YamlMap, YamlNode, YamlScalar } from '../yaml-node';
import { withoutDuplicates } from './duplicate-key';
import { joinSplitItems, joinSplitValues } from './split-value';

/** The tree of one YAML document; null when the document holds nothing. */
export interface YamlTree {
  readonly root: YamlNode | null;
  readonly problems: readonly Problem[];
}

interface Builder {
  /** The document's text up to the end of the YAML. */
  readonly source: string;
  readonly lineAt: (offset: number) => number;
  readonly problems: Problem[];
}

/**
 * Builds the tree of one document. `lineAt` gives the line of an offset, from 1. Recursion is as deep as the
 * collections, which the caller has bounded.
 */
export function buildYamlTree(
  contents: ParsedNode | null,
  source: string,
  lineAt: (offset: number) => number,
): YamlTree {
  const builder: Builder = { source, lineAt, problems: [] };
  const root = contents ? nodeOf(contents, builder, 0) : null;
  const isNothing = root?.type === 'scalar' && root.style === 'empty';
  return { root: isNothing ? null : root, problems: builder.problems };
}

/** A node that is neither (an alias, a gap after an error) is an empty scalar where it stands, else at `offset`. */
function nodeOf(node: unknown, builder: Builder, offset: number): YamlNode {
  if (isMap(node)) return mapOf(node as YAMLMap.Parsed, builder);
  if (isSeq(node)) return listOf(node as YAMLSeq.Parsed, builder);
  if (isScalar(node)) return scalarOf(node as Scalar.Parsed, builder);
  return emptyAt(isAlias(node) ? placeOf(node.range, builder) : spanOf(offset, offset));
}

function mapOf(map: YAMLMap.Parsed, builder: Builder): YamlMap {
  const flow = map.flow === true;
  const read = map.items.flatMap((pair) => entryOf(pair, builder));
  const joined = flow ? joinSplitValues(read, builder.source) : { kept: read, problems: [] };
  const unique = withoutDuplicates(joined.kept, builder.lineAt);
  builder.problems.push(...joined.problems, ...unique.problems);
  return { type: 'map', entries: unique.entries, flow, span: placeOf(map.range, builder) };
}

/** Empty when the entry cannot be used: its key is no single text, or merges another mapping (reported elsewhere). */
function entryOf(pair: Pair, builder: Builder): YamlEntry[] {
  const { key, value } = pair;
  if (!isScalar(key) || !key.range || keyText(key) === '') {
    builder.problems.push(badKey(pair, builder));
    return [];
  }
  const keySpan = placeOf(key.range, builder);
  if (key.type === 'PLAIN' && key.source === '<<') return [];
  const hasColon = value !== null;
  const node = hasColon ? nodeOf(value, builder, keySpan.end) : emptyAt(spanOf(keySpan.end, keySpan.end));
  return [{ key: keyText(key), keySpan, value: node, hasColon }];
}

function keyText(key: Scalar): string {
  return key.source ?? '';
}

function badKey(pair: Pair, builder: Builder): Problem {
  const at = [pair.key, pair.value].find((node) => isScalar(node) || isMap(node) || isSeq(node) || isAlias(node));
  const span = placeOf(at?.range, builder);
  const message = 'a key is one text before a colon; a mapping, a list or nothing cannot be a key';
  return { code: 'bad-front-matter', message, span };
}

function listOf(list: YAMLSeq.Parsed, builder: Builder): YamlList {
  const flow = list.flow === true;
  const span = placeOf(list.range, builder);
  const items = list.items.map((item) => nodeOf(item, builder, span.start));
  const joined = flow ? joinSplitItems(items, builder.source) : { kept: items, problems: [] };
  builder.problems.push(...joined.problems);
  return { type: 'list', items: joined.kept, flow, span };
}

function scalarOf(scalar: Scalar.Parsed, builder: Builder): YamlScalar {
  const span = placeOf(scalar.range, builder);
  const text = scalar.source ?? '';
  const style = styleOf(scalar, span);
  return { type: 'scalar', style, text, span, textStart: textStart(style, text, span, builder.source) };
}

function styleOf(scalar: Scalar.Parsed, span: Span): YamlScalar['style'] {
  if (scalar.type === 'QUOTE_DOUBLE' || scalar.type === 'QUOTE_SINGLE') return 'quoted';
  if (scalar.type === 'BLOCK_LITERAL' || scalar.type === 'BLOCK_FOLDED') return 'block';
  return span.start === span.end ? 'empty' : 'plain';
}

const BLOCK_HEADER = /[|>][^\n]*\n[ \n\r]*/y;

/** Where the text stands in the document character for character; null where folding, escapes or indents differ. */
function textStart(style: YamlScalar['style'], text: string, span: Span, source: string): number | null {
  if (style === 'empty') return span.start;
  if (style === 'plain') return source.slice(span.start, span.end) === text ? span.start : null;
  if (style === 'quoted') {
    const isVerbatim = source.slice(span.start + 1, span.end - 1) === text;
    return isVerbatim ? span.start + 1 : null;
  }
  BLOCK_HEADER.lastIndex = span.start;
  const start = BLOCK_HEADER.test(source) ? BLOCK_HEADER.lastIndex : span.end;
  return text !== '' && source.startsWith(text, start) ? start : null;
}

/** A node from its start to its value's end, without what follows on the line; the parser counts an open end one on. */
function placeOf(range: readonly number[] | null | undefined, { source }: Builder): Span {
  const start = Math.min(range?.[0] ?? 0, source.length);
  return spanOf(start, Math.min(Math.max(start, range?.[1] ?? start), source.length));
}

function emptyAt(span: Span): YamlScalar {
  return { type: 'scalar', style: 'empty', text: '', span, textStart: span.start };
}
