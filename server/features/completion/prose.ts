/** What can be written in a document's Markdown: names in code spans, attributes and their values, ids. */
import { ATTRIBUTES } from '../../../grammar/attributes';
import type { Analysis } from '../../engine/analysis';
import { shownTitle } from '../../findings/requirement-text';
import { nextFreeId } from '../../model/requirement-id';
import { METHODS } from '../../model/verification';
import { backwards, type CompletionItem, type Cursor, plainItem } from './item';
import { nameItems } from './names';
import { unitItems } from './units';

const HEADING = /^#{1,6}\s+(\S*)$/;
const ATTRIBUTE_KEY = /^\s*[-*+]\s+([\p{L} -]*)$/u;
const ATTRIBUTE_VALUE = /^\s*[-*+]\s+\**([\p{L}][\p{L} -]*?)\**\s*:\**\s*(.*)$/u;
const WORD = /[\p{L}\p{N}_-]*$/u;

export function proseItems(analysis: Analysis, file: string, cursor: Cursor): readonly CompletionItem[] {
  const { before } = cursor;
  if (isInCode(before))
    return nameItems(analysis, cursor, { scope: [], beside: sentenceAround(cursor), functions: true });
  const heading = HEADING.exec(before);
  if (heading !== null) return nextId(analysis, file, cursor, heading[1] ?? '');
  const value = ATTRIBUTE_VALUE.exec(before);
  if (value !== null) return valueItems(analysis, cursor, value[1] ?? '');
  const key = ATTRIBUTE_KEY.exec(before);
  if (key !== null) return keyItems(cursor, key[1] ?? '');
  return unitItems(analysis, cursor);
}

/** An odd number of backticks opens a code span that the cursor is in. */
function isInCode(before: string): boolean {
  return (before.match(/`/g)?.length ?? 0) % 2 === 1;
}

/** The paragraph that the cursor is in: its figures say which names fit. */
function sentenceAround({ text, offset }: Cursor): string {
  const start = Math.max(text.lastIndexOf('\n\n', offset - 1), text.lastIndexOf('\n#', offset - 1), 0);
  const end = text.indexOf('\n\n', offset);
  return text.slice(start, end < 0 ? text.length : end);
}

function nextId({ product }: Analysis, file: string, cursor: Cursor, typed: string): readonly CompletionItem[] {
  const own = product.documents.find((one) => one.file === file)?.requirements ?? [];
  if (own.length === 0) return [];
  const above = own.filter(({ idSpan }) => idSpan.start < cursor.offset);
  const others = product.requirements.map(({ id }) => id);
  const last = (above[above.length - 1] ?? own[0])?.id ?? '';
  const id = nextFreeId([...others, last]);
  return [plainItem(id, 'requirement', backwards(cursor, typed.length), { detail: 'the next free id', rank: 0 })];
}

function keyItems(cursor: Cursor, typed: string): readonly CompletionItem[] {
  return ATTRIBUTES.map(({ key, meaning, example }, index) =>
    plainItem(key, 'key', backwards(cursor, typed.length), {
      insert: `${key}: `,
      detail: meaning,
      documentation: `${meaning}\n\n\`${example}\``,
      rank: index,
    }),
  );
}

function valueItems(analysis: Analysis, cursor: Cursor, key: string): readonly CompletionItem[] {
  const typed = WORD.exec(cursor.before)?.[0] ?? '';
  const replace = backwards(cursor, typed.length);
  const known = ATTRIBUTES.find((one) => one.key.toLowerCase() === key.trim().toLowerCase());
  switch (known?.key) {
    case undefined:
      return [];
    case 'Derives from':
      return analysis.product.requirements.map((requirement) =>
        plainItem(requirement.id, 'requirement', replace, {
          detail: shownTitle(requirement),
          subject: requirement.id,
        }),
      );
    case 'Verify':
      return [
        ...METHODS.map((method) => plainItem(method, 'value', replace, { rank: 0 })),
        ...analysis.product.documents.flatMap(({ verifications }) =>
          verifications.map(({ id, title }) => plainItem(id, 'record', replace, { detail: title ?? '', rank: 1 })),
        ),
      ];
    default:
      return (known?.values ?? []).map((value, index) => plainItem(value, 'value', replace, { rank: index }));
  }
}
