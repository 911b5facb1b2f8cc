/** What can be written in plimsoll.yaml: its keys, and the words that a key takes. */
import { FINDING_CODES, FINDINGS, FIXED_FINDINGS, PHASES, SEVERITY_SETTINGS } from '../../../grammar/findings';
import type { Analysis } from '../../engine/analysis';
import { configurationJsonSchema } from '../../model/configuration-schema';
import { backwards, type CompletionItem, type Cursor, plainItem } from './item';

const TOP_KEY = /^([\p{L}]*)$/u;
const VALUE = /^([\p{L}]+):\s+([\p{L}-]*)$/u;
const INNER = /([\p{L}\p{N}_-]*)$/u;

export function configurationItems(analysis: Analysis, cursor: Cursor): readonly CompletionItem[] {
  const top = TOP_KEY.exec(cursor.before);
  if (top !== null) return keyItems(cursor, top[1] ?? '');
  const value = VALUE.exec(cursor.before);
  if (value?.[1] === 'phase') return words(PHASES, cursor, value[2] ?? '');
  const key = keyAbove(cursor);
  const typed = INNER.exec(cursor.before)?.[1] ?? '';
  const isValue = /[\p{L}\p{N}_-]+:\s*[\p{L}-]*$/u.test(cursor.before.replace(/^[\p{L}]+:\s*\{?/u, ''));
  if (key === 'severity') return isValue ? words(SEVERITY_SETTINGS, cursor, typed) : codes(cursor, typed);
  if (key === 'choose') return choices(analysis, cursor, typed, isValue);
  return [];
}

function keyItems(cursor: Cursor, typed: string): readonly CompletionItem[] {
  const { properties } = configurationJsonSchema() as {
    readonly properties: Readonly<Record<string, { readonly description?: string }>>;
  };
  return Object.entries(properties).map(([key, { description = '' }], index) =>
    plainItem(key, 'key', backwards(cursor, typed.length), {
      insert: `${key}: `,
      detail: description,
      rank: index,
    }),
  );
}

function codes(cursor: Cursor, typed: string): readonly CompletionItem[] {
  return FINDING_CODES.filter((code) => !FIXED_FINDINGS.includes(code)).map((code) =>
    plainItem(code, 'key', backwards(cursor, typed.length), { insert: `${code}: `, detail: FINDINGS[code].meaning }),
  );
}

/** Option groups, and behind one its alternatives. */
function choices({ product }: Analysis, cursor: Cursor, typed: string, isValue: boolean): readonly CompletionItem[] {
  const groups = new Map<string, string[]>();
  for (const { option } of [...product.documents, ...product.setAside])
    if (option !== null) groups.set(option.group, [...(groups.get(option.group) ?? []), option.alternative]);
  const group = /([\p{L}\p{N}_-]+):\s*(?:\{\s*option:\s*)?[\p{L}\p{N}_-]*$/u.exec(cursor.before)?.[1];
  if (isValue && group !== undefined) return words(groups.get(group) ?? [], cursor, typed);
  return [...groups.keys()].map((name) =>
    plainItem(name, 'key', backwards(cursor, typed.length), { insert: `${name}: ` }),
  );
}

function words(list: readonly string[], cursor: Cursor, typed: string): readonly CompletionItem[] {
  return list.map((word, rank) => plainItem(word, 'value', backwards(cursor, typed.length), { rank }));
}

/** The key at the beginning of a line that the cursor stands under or behind. */
function keyAbove({ text, offset }: Cursor): string | null {
  const keys = [...text.slice(0, offset).matchAll(/^([\p{L}]+):/gmu)];
  return keys[keys.length - 1]?.[1] ?? null;
}
