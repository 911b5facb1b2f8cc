/** What a key of front matter or of plimsoll.yaml means, by the data that completion and schemas are made from. */
import {
  CONNECTION_FIELDS,
  DOCUMENT_KEYS,
  type KeyDefinition,
  TABLE_PARTS,
  VALUE_PARTS,
} from '../../grammar/front-matter';
import { CONFIGURATION_FILE } from '../model/configuration';
import { CONFIGURATION_SHAPE } from '../model/configuration-schema';
import { RECORD_SHAPE, RUN_SHAPE } from '../model/read-verifications';
import { findFrontMatter } from '../syntax/front-matter';
import { covers, type Span, spanOf } from '../syntax/span';
import { parseYaml } from '../syntax/yaml';
import type { YamlEntry, YamlNode } from '../syntax/yaml-node';

export interface KeyMeaning {
  readonly key: string;
  readonly span: Span;
  readonly meaning: string;
}

/** Null where no key stands, or one that is somebody's own. */
export function keyMeaningAt(file: string, text: string, offset: number): KeyMeaning | null {
  const isConfiguration = file === CONFIGURATION_FILE;
  const content = isConfiguration ? spanOf(0, text.length) : (findFrontMatter(text)?.content ?? null);
  if (content === null || offset < content.start || offset > content.end) return null;
  const path = pathTo(parseYaml(text, content).root, offset);
  const entry = path?.at(-1);
  if (path === null || entry === undefined) return null;
  const keys = path.map(({ key }) => key);
  const meaning = isConfiguration ? ofShape(CONFIGURATION_SHAPE, keys, 1) : frontMatterMeaning(keys);
  return meaning === null ? null : { key: entry.key, span: entry.keySpan, meaning };
}

/** The entries from the outermost to that whose key stands at the offset; null where none does. */
function pathTo(node: YamlNode | null, offset: number): readonly YamlEntry[] | null {
  if (node?.type === 'list') return firstOf(node.items, (item) => pathTo(item, offset));
  if (node?.type !== 'map') return null;
  return firstOf(node.entries, (entry) => {
    if (covers(entry.keySpan, offset)) return [entry];
    const below = pathTo(entry.value, offset);
    return below === null ? null : [entry, ...below];
  });
}

function firstOf<Item, Found>(items: readonly Item[], find: (item: Item) => Found | null): Found | null {
  for (const item of items) {
    const found = find(item);
    if (found !== null) return found;
  }
  return null;
}

function frontMatterMeaning(keys: readonly string[]): string | null {
  const [first = ''] = keys;
  if (keys.length === 1) return ofList(DOCUMENT_KEYS, first) ?? ofShape(RECORD_SHAPE, keys, 1);
  const last = keys[keys.length - 1] ?? '';
  switch (first) {
    case 'verification':
    case 'verifications':
      return keys[1] === 'runs' ? ofShape(RUN_SHAPE, keys, 3) : ofShape(RECORD_SHAPE, keys, 2);
    case 'connections':
      return keys.length === 2 ? ofList(CONNECTION_FIELDS, last) : null;
    case 'parts':
    case 'rails':
      return keys.length === 2 ? ofList(TABLE_PARTS, last) : ofList(VALUE_PARTS, last);
    default:
      return first === 'facts' ? ofList(VALUE_PARTS, last) : null;
  }
}

function ofList(list: readonly KeyDefinition[], key: string): string | null {
  return list.find((one) => one.key === key)?.meaning ?? null;
}

function ofShape(shape: Readonly<Record<string, { description?: string }>>, keys: readonly string[], depth: number) {
  return keys.length === depth ? (shape[keys[depth - 1] ?? '']?.description ?? null) : null;
}
