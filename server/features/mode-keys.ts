/** Where the keys of values per mode stand, which facts do not keep. */
import type { Fact } from '../model/fact';
import { findFrontMatter } from '../syntax/front-matter';
import type { Span } from '../syntax/span';
import { parseYaml } from '../syntax/yaml';
import type { YamlMap, YamlNode } from '../syntax/yaml-node';

export interface ModeKey {
  readonly mode: string;
  readonly span: Span;
}

/** By the start of a value's mapping; empty for a text without front matter. */
export type MapsByStart = ReadonlyMap<number, YamlMap>;

export function mapsByStart(text: string): MapsByStart {
  const found = findFrontMatter(text);
  const root = found === null ? null : parseYaml(text, found.content).root;
  const maps = new Map<number, YamlMap>();
  const pending: YamlNode[] = root === null ? [] : [root];
  for (let node = pending.pop(); node !== undefined; node = pending.pop()) {
    if (node.type === 'list') for (const item of node.items) pending.push(item);
    if (node.type !== 'map') continue;
    // A mapping may begin where the first value in it does; the inner one is written later.
    if (!maps.has(node.span.start)) maps.set(node.span.start, node);
    for (const { value } of node.entries) pending.push(value);
  }
  return maps;
}

export function modeKeysOf({ content, span }: Fact, maps: MapsByStart): readonly ModeKey[] {
  if (content.type !== 'modes') return [];
  const entries = maps.get(span.start)?.entries ?? [];
  return entries.filter(({ key }) => content.modes.has(key)).map(({ key, keySpan }) => ({ mode: key, span: keySpan }));
}
