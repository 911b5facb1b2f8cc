/** Helpers of the YAML tests: a text read as front matter, and trees in short. */
import { findFrontMatter } from '../../server/syntax/front-matter';
import { type ParsedYaml, parseYaml } from '../../server/syntax/yaml';
import type { YamlNode } from '../../server/syntax/yaml-node';

/** Reads `yaml` as the front matter of a document, so that offsets are not those of the YAML alone. */
export function readFrontMatter(yaml: string): ParsedYaml & { readonly text: string } {
  const text = `\uFEFF---\n${yaml}\n---\n# After\n`;
  const content = findFrontMatter(text)?.content;
  if (!content) throw new Error('the example has no front matter');
  return { text, ...parseYaml(text, content) };
}

/** Scalars as their text, mappings as entry lists. */
export type Short = string | readonly Short[] | { readonly map: readonly (readonly [string, Short])[] };

export function short(node: YamlNode | null): Short | null {
  if (node === null) return null;
  if (node.type === 'scalar') return node.text;
  if (node.type === 'list') return node.items.map((item) => short(item) as Short);
  return { map: node.entries.map(({ key, value }) => [key, short(value) as Short] as const) };
}

/** The value under a path of keys. */
export function at(node: YamlNode | null, ...path: readonly string[]): YamlNode {
  let found = node;
  for (const key of path)
    found = (found?.type === 'map' && found.entries.find((entry) => entry.key === key)?.value) || null;
  if (!found) throw new Error(`no ${path.join('.')}`);
  return found;
}

export function allNodes(node: YamlNode | null): readonly YamlNode[] {
  if (node === null) return [];
  if (node.type === 'list') return [node, ...node.items.flatMap(allNodes)];
  return node.type === 'map' ? [node, ...node.entries.flatMap(({ value }) => allNodes(value))] : [node];
}
