/** What can be written in front matter: its keys, columns of tables, values with fixed words, names in expressions, units. */
import type { Analysis } from '../../engine/analysis';
import { METHODS, RESULTS } from '../../model/verification';
import { backwards, type CompletionItem, type Cursor, plainItem } from './item';
import { nameItems } from './names';
import { unitItems } from './units';

/** Keys at the top of a document's front matter (2-language, Files). */
const TOP_KEYS: readonly (readonly [key: string, meaning: string])[] = [
  ['requirements', 'The document holds requirements; what the product is called.'],
  ['ids', 'Only these begin an id here.'],
  ['design', 'The title of a document of the design.'],
  ['facts', 'Named values of the design, given or derived.'],
  ['parts', 'The table of parts: rows with an id each.'],
  ['rails', 'The supply tree.'],
  ['connections', 'Lines between two parts over an interface.'],
  ['option', 'What this alternative is called.'],
  ['of', 'The group that the alternative is one of.'],
  ['verification', 'One procedure with its runs.'],
  ['verifications', 'A list of procedures with their runs.'],
];
/** Fields that mean something wherever a table has them. */
const ROW_KEYS: readonly string[] = [
  'id',
  'name',
  'kind',
  'quantity',
  'cost',
  'power',
  'mass',
  'draws',
  'interfaces',
  'uses',
  'satisfies',
  'optional',
  'source',
  'note',
];
const RAIL_KEYS: readonly string[] = ['id', 'volts', 'from', 'efficiency', 'limit', 'by'];
const RECORD_KEYS: readonly string[] = ['id', 'title', 'method', 'verifies', 'runs'];
const RUN_KEYS: readonly string[] = ['date', 'result', 'article', 'measured', 'at'];
const FIXED_VALUES: ReadonlyMap<string, readonly string[]> = new Map<string, readonly string[]>([
  ['method', METHODS],
  ['result', RESULTS],
  ['between', ['steps', 'lines']],
  ['optional', ['yes', 'no']],
]);

const KEY_HERE = /(?:^\s*(?:-\s+)?|[{,]\s*)([\p{L}\p{N}_.-]*)$/u;
const VALUE_HERE = /([\p{L}\p{N}_.-]+):\s+([^:{}]*)$/u;
const WORD = /[\p{L}\p{N}_-]*$/u;

export function frontMatterItems(analysis: Analysis, cursor: Cursor): readonly CompletionItem[] {
  const { before } = cursor;
  const groups = groupsAbove(cursor);
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
  const of = (names: readonly string[]) => names.map((name) => [name, ''] as const);
  if (first === undefined) return TOP_KEYS;
  if (first === 'verification' || first === 'verifications')
    return of(groups.includes('runs') ? RUN_KEYS : RECORD_KEYS);
  if (first === 'connections') return of(['from', 'to', 'over', 'count', 'optional']);
  const table = product.tables.get(first === 'facts' ? groups.slice(1).join('.') : first);
  const columns = [...(table?.fieldNames ?? [])].filter((field) => !field.includes('.'));
  if (first === 'rails') return of([...new Set([...RAIL_KEYS, ...columns])]);
  if (first === 'parts' || table !== undefined) return of([...new Set([...columns, ...ROW_KEYS])]);
  return [];
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
