/** `Key: value` in a list item, a paragraph or a table cell → an attribute of a requirement. */
import { ATTRIBUTES } from '../../grammar/attributes';
import type { Prose } from '../syntax/markdown/block';
import { documentSpan } from '../syntax/markdown/document-span';
import { type Problem, type Span, spanOf } from '../syntax/span';
import { nearestWords } from './nearest';
import type { Attribute } from './requirement';

export type ReadAttribute =
  | { readonly type: 'known'; readonly attribute: Omit<Attribute, 'span'> }
  /** Looks like an attribute, but its key is none. */
  | { readonly type: 'unknown'; readonly problem: Problem }
  | { readonly type: 'none' };

/** One to three words and a colon: what an attribute looks like. */
const KEY = /^\s*([\p{Lu}][\p{L}-]*(?: [\p{L}-]+){0,2})\s*:(?=\s|$)/u;
const KNOWN_KEYS = new Map(ATTRIBUTES.map(({ key }) => [key.toLowerCase(), key]));

/** Reads `Key: value` at the start of the prose. */
export function readAttribute(prose: Prose): ReadAttribute {
  const match = /^\s*([\p{L}][\p{L}-]*(?: [\p{L}-]+){0,2})\s*:(?=\s|$|\uFFFC)/u.exec(prose.text);
  if (match === null) return { type: 'none' };
  const written = match[1] as string;
  const start = match[0].indexOf(written);
  const keySpan = documentSpan(prose, start, start + written.length);
  const known = KNOWN_KEYS.get(written.toLowerCase());
  if (known !== undefined) return { type: 'known', attribute: valueAfter(known, keySpan, prose, match[0].length) };
  if (!KEY.test(prose.text)) return { type: 'none' };
  return { type: 'unknown', problem: unknownKey(written, keySpan) };
}

/** Reads a table cell under a header that names an attribute. */
export function readCell(header: Prose, cell: Prose): ReadAttribute {
  const written = header.text.trim();
  const known = KNOWN_KEYS.get(written.toLowerCase());
  const keySpan = documentSpan(header, 0, header.text.length);
  if (known === undefined) return { type: 'unknown', problem: unknownKey(written, keySpan) };
  return { type: 'known', attribute: valueAfter(known, keySpan, cell, 0) };
}

function valueAfter(key: string, keySpan: Span, prose: Prose, from: number): Omit<Attribute, 'span'> {
  const text = prose.text.slice(from);
  const start = from + text.length - text.trimStart().length;
  const valueSpan = documentSpan(prose, start, start + text.trim().length);
  return { key, keySpan, text: text.trim(), codes: prose.codes.filter(({ at }) => at >= from), valueSpan };
}

function unknownKey(written: string, span: Span): Problem {
  const nearest = nearestWords(written.toLowerCase(), [...KNOWN_KEYS.keys()])[0];
  const known = nearest === undefined ? undefined : KNOWN_KEYS.get(nearest);
  const hint = known === undefined ? 'it is read as plain text' : `the nearest is “${known}”`;
  return {
    code: 'unknown-attribute',
    message: `“${written}” is no attribute of a requirement; ${hint}`,
    span,
    ...(known !== undefined && {
      fix: { title: `Write ${known}`, edits: [{ span: spanOf(span.start, span.end), text: known }] },
    }),
  };
}
