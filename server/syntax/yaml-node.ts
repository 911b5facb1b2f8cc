/** Front matter and configuration as trees with places; scalars keep their source text, never a parsed value. */
import type { Problem, Span } from './span';

export type YamlNode = YamlScalar | YamlMap | YamlList;

export interface YamlScalar {
  readonly type: 'scalar';
  /** plain: as written. quoted: single or double quotes. block: `|` or `>`. empty: no text at all (`key:`). */
  readonly style: 'plain' | 'quoted' | 'block' | 'empty';
  /** What the scalar says: quotes removed and escapes resolved, plain text as written (folded lines joined). */
  readonly text: string;
  /** The scalar in the document, quotes included. */
  readonly span: Span;
  /** Offset in the document of `text[0]` where text and document agree character for character; else null. */
  readonly textStart: number | null;
}

export interface YamlMap {
  readonly type: 'map';
  readonly entries: readonly YamlEntry[];
  /** Written with braces. */
  readonly flow: boolean;
  readonly span: Span;
}

export interface YamlEntry {
  readonly key: string;
  readonly keySpan: Span;
  /** A key without `: value` in a flow map has an empty scalar. */
  readonly value: YamlNode;
  /** False when a flow entry had no colon (`{a, b: 1}`). */
  readonly hasColon: boolean;
  /** The key stands in this mapping again with another value, and which of them is meant is nobody's to guess. */
  readonly doubt?: Problem;
}

/** The first doubt in it, at whatever depth; null where all of it is said once. */
export function doubtIn(node: YamlNode): Problem | null {
  if (node.type === 'scalar') return null;
  if (node.type === 'list') return firstOf(node.items, doubtIn);
  return firstOf(node.entries, ({ doubt, value }) => doubt ?? doubtIn(value));
}

function firstOf<Item>(items: readonly Item[], doubtOf: (item: Item) => Problem | null): Problem | null {
  for (const item of items) {
    const doubt = doubtOf(item);
    if (doubt !== null) return doubt;
  }
  return null;
}

export interface YamlList {
  readonly type: 'list';
  readonly items: readonly YamlNode[];
  readonly flow: boolean;
  readonly span: Span;
}
