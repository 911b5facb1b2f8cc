/** `Verify: analysis; test TP-03`: the methods that a requirement is verified by, and the records that each names. */
import type { Span } from '../syntax/span';
import { nearestWords } from './nearest';
import { type Attribute, attributesOf, type Requirement } from './requirement';
import { isId } from './requirement-id';
import { METHODS, type Method } from './verification';

export interface NamedMethod {
  /** Null where only a record is named, whose method it then is. */
  readonly method: Method | null;
  /** Ids of records, known or not. */
  readonly records: readonly string[];
  readonly span: Span;
}

/** Words that are no method and no record. */
export interface UnreadMethod {
  readonly words: string;
  /** The method that was most likely meant. */
  readonly nearest: Method | null;
  readonly span: Span;
}

export interface ReadMethods {
  readonly methods: readonly NamedMethod[];
  readonly unread: readonly UnreadMethod[];
}

/** @param isRecord whether a record has this id; a word in the form of an id names a record as well */
export function methodsOf(requirement: Requirement, isRecord: (word: string) => boolean): ReadMethods {
  const methods: NamedMethod[] = [];
  const unread: UnreadMethod[] = [];
  for (const attribute of attributesOf(requirement, 'Verify')) {
    for (const words of attribute.text.split(/[;,]/).map((part) => part.trim())) {
      if (words !== '') readPart(words, attribute, isRecord, methods, unread);
    }
  }
  return { methods, unread };
}

function readPart(
  text: string,
  { valueSpan: span }: Attribute,
  isRecord: (word: string) => boolean,
  methods: NamedMethod[],
  unread: UnreadMethod[],
): void {
  const words = text.split(/\s+/).map((word) => word.replace(/^[([]+|[)\].:]+$/g, ''));
  const first = (words[0] as string).toLowerCase();
  const method = METHODS.find((known) => known === first) ?? null;
  const records = words.filter((word) => isRecord(word) || isId(word, null));
  if (method !== null) methods.push({ method, records, span });
  else if (records.length === words.length) joinRecords(records, span, methods);
  else
    unread.push({
      words: text,
      nearest: METHODS.find((known) => known === nearestWords(first, METHODS)[0]) ?? null,
      span,
    });
}

/** `test TP-03, TP-04`: what follows a comma goes on with the method before it. */
function joinRecords(records: readonly string[], span: Span, methods: NamedMethod[]): void {
  const last = methods.at(-1);
  if (last === undefined || last.records.length === 0 || last.span !== span)
    methods.push({ method: null, records, span });
  else methods[methods.length - 1] = { ...last, records: [...last.records, ...records] };
}
