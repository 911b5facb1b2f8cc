/** Requirements as they are written: an identified statement with an obligation, and its attributes. */
import type { CodeSpan, Prose } from '../syntax/markdown/block';
import type { Obligation } from '../syntax/sentence/obligation';
import type { Problem, Span } from '../syntax/span';

export interface Requirement {
  readonly id: string;
  readonly idSpan: Span;
  readonly title: string;
  readonly file: string;
  /** From the heading to the end of its reach; the row for a requirement of a table. */
  readonly span: Span;
  readonly obligation: Obligation;
  /** False where the text has no obligation word and *shall* was taken for it. */
  readonly obligationWritten: boolean;
  /** The statement, each of its paragraphs and list items on a line of its own; null when only attributes are written. */
  readonly statement: Prose | null;
  /** The first part of the statement, or the heading. */
  readonly statementSpan: Span;
  readonly statementSource: StatementSource;
  readonly attributes: readonly Attribute[];
  /** Lines that Markdown parts from the statement though they go on with it (*broken-line*): they leave it undecided. */
  readonly brokenLines: readonly Problem[];
}

/** The Markdown that a statement is written in: paragraphs and leads of list items in order, or one cell of a table's row. */
export type StatementSource =
  | { readonly type: 'blocks'; readonly spans: readonly Span[] }
  | { readonly type: 'cell'; readonly row: Span; readonly column: number };

export interface Attribute {
  /** The known key as the language spells it (`Derives from`). */
  readonly key: string;
  readonly keySpan: Span;
  /** Text after the colon, code spans as U+FFFC. */
  readonly text: string;
  readonly codes: readonly CodeSpan[];
  /** The value in the document. */
  readonly valueSpan: Span;
  readonly span: Span;
}

/** The attributes of one key, in the order written. */
export function attributesOf(requirement: Requirement, key: string): readonly Attribute[] {
  return requirement.attributes.filter((attribute) => attribute.key === key);
}

/** The words of an attribute's values, parted at semicolons and commas, trimmed. */
export function listOf(requirement: Requirement, key: string): readonly string[] {
  return attributesOf(requirement, key)
    .flatMap(({ text }) => text.split(/[;,]/))
    .map((word) => word.trim())
    .filter((word) => word !== '');
}

/** Whether people can come to harm: what is said of it and cannot be read is taken for yes. */
export function isSafety(requirement: Requirement): boolean {
  return attributesOf(requirement, 'Safety').some(({ text }) => !['', 'no'].includes(text.toLowerCase()));
}
