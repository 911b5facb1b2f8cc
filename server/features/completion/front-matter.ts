/** What can be written in front matter: its keys, columns of tables, values with fixed words, names in expressions, units. */
import {
  CONNECTION_FIELDS,
  DOCUMENT_KEYS,
  type KeyDefinition,
  RAIL_FIELDS,
  ROW_FIELDS,
  VALUE_PARTS,
} from '../../../grammar/front-matter';
import type { Analysis } from '../../engine/analysis';
import { RECORD_SHAPE, RUN_SHAPE } from '../../model/read-verifications';
import { METHODS, RESULTS } from '../../model/verification';
import { backwards, type CompletionItem, type Cursor, plainItem } from './item';
import { nameItems } from './names';
import { unitItems } from './units';

/** What the program writes by itself. */
const WRITTEN = /written by the program/;
const FIXED_VALUES: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ['method', METHODS],
  ['result', RESULTS],
  ...[...VALUE_PARTS, ...ROW_FIELDS].flatMap(({ key, values }) =>
    values === undefined ? [] : [[key, values] as const],
  ),
]);

const KEY_HERE = /(?:^\s*(?:-\s+)?|[{,]\s*)([\p{L}\p{N}_.-]*)$/u;
const VALUE_HERE = /([\p{L}\p{N}_.-]+):\s+([^:{}]*)$/u;
const WORD = /[\p{L}\p{N}_-]*$/u;

export function frontMatterItems(analysis: Analysis, cursor: Cursor): readonly CompletionItem[] {
  const groups = groupsAbove(cursor);
  const before = entryHere(cursor.before);
  const value = VALUE_HERE.exec(before);
  if (value !== null) return valueItems(analysis, cursor, groups, value[1] ?? '', value[2] ?? '');
  const key = KEY_HERE.exec(before);
  if (key === null) return [];
  return keysOf(analysis, groups).map(([name, meaning], index) =>
    plainItem(name, 'key', backwards(cursor, (key[1] ?? '').length), {
      insert: `${name}: `,
      detail: meaning,
      rank: index,
    }),
  );
}

/** Of a mapping in braces what stands behind its last comma; commas in brackets and quotes part nothing. */
function entryHere(before: string): string {
  const open = before.lastIndexOf('{');
  if (open < 0 || before.indexOf('}', open) >= 0) return before;
  const inside = before.slice(open + 1);
  let start = 0;
  let depth = 0;
  let isQuoted = false;
  for (let at = 0; at < inside.length; at += 1) {
    const character = inside[at] ?? '';
    if (character === '"') isQuoted = !isQuoted;
    else if (!isQuoted && '(['.includes(character)) depth += 1;
    else if (!isQuoted && ')]'.includes(character)) depth -= 1;
    else if (!isQuoted && depth === 0 && character === ',') start = at + 1;
  }
  return `{${inside.slice(start)}`;
}

function valueItems(
  analysis: Analysis,
  cursor: Cursor,
  groups: readonly string[],
  key: string,
  value: string,
): readonly CompletionItem[] {
  if (value.trimStart().startsWith('=')) {
    const scope = groups[0] === 'facts' ? groups.slice(1) : [];
    return nameItems(analysis, cursor, { scope, beside: value, functions: true });
  }
  const typed = WORD.exec(value)?.[0] ?? '';
  const replace = backwards(cursor, typed.length);
  const words = FIXED_VALUES.get(key);
  if (words !== undefined) return words.map((word, index) => plainItem(word, 'value', replace, { rank: index }));
  if (key === 'verifies' || key === 'satisfies')
    return analysis.product.requirements.map(({ id, title }) =>
      plainItem(id, 'requirement', replace, { detail: title, subject: id }),
    );
  return unitItems(analysis, cursor);
}

function keysOf({ product }: Analysis, groups: readonly string[]): readonly (readonly [string, string])[] {
  const [first] = groups;
  if (first === undefined) return pairsOf(DOCUMENT_KEYS);
  if (first === 'verification' || first === 'verifications')
    return shapeOf(groups.includes('runs') ? RUN_SHAPE : RECORD_SHAPE);
  if (first === 'connections') return pairsOf(CONNECTION_FIELDS);
  const table = product.tables.get(first === 'facts' ? groups.slice(1).join('.') : first);
  const columns = [...(table?.fieldNames ?? [])].filter((field) => !field.includes('.'));
  if (first === 'rails') return columnsFirst([], RAIL_FIELDS, columns);
  return first === 'parts' || table !== undefined ? columnsFirst(columns, ROW_FIELDS, []) : [];
}

type Pair = readonly [key: string, meaning: string];

function pairsOf(keys: readonly KeyDefinition[]): readonly Pair[] {
  return keys.map(({ key, meaning }) => [key, meaning]);
}

function shapeOf(shape: Readonly<Record<string, { readonly description?: string }>>): readonly Pair[] {
  const all = Object.entries(shape).map(([key, { description = '' }]): Pair => [key, description]);
  return all.filter(([, meaning]) => !WRITTEN.test(meaning));
}

/** The columns that a table has come before or behind those that it could have. */
function columnsFirst(before: readonly string[], known: readonly KeyDefinition[], behind: readonly string[]) {
  const meanings = new Map(pairsOf(known));
  const names = new Set([...before, ...meanings.keys(), ...behind]);
  return [...names].map((name): Pair => [name, meanings.get(name) ?? '']);
}

/** The keys of the mappings that the cursor's line stands in, outermost first, by indentation. */
function groupsAbove({ text, lineStart, before }: Cursor): readonly string[] {
  const groups: string[] = [];
  let indent = indentOf(before);
  if (indent === 0) return flowGroup(before);
  const lines = text.slice(0, lineStart).split(/\r\n|\r|\n/);
  for (let index = lines.length - 2; index >= 0 && indent > 0; index -= 1) {
    const line = lines[index] ?? '';
    const match = /^(\s*)(?:-\s+)?([\p{L}\p{N}_.-]+):/u.exec(line);
    if (match === null || indentOf(line) >= indent) continue;
    groups.unshift(...(match[2] ?? '').split('.'));
    indent = indentOf(line);
  }
  return [...groups, ...flowGroup(before)];
}

/** `supply: {draw: 45 W, |`: the mapping in braces that the line opens. */
function flowGroup(before: string): readonly string[] {
  const match = /(?:^|\s)([\p{L}\p{N}_.-]+):\s*\{[^{}]*$/u.exec(before);
  return match?.[1] === undefined ? [] : match[1].split('.');
}

function indentOf(line: string): number {
  return /^ */.exec(line)?.[0].length ?? 0;
}
