/** One thing that can be written at a place, and what stands there now. */
import { type Span, spanOf } from '../../syntax/span';

export type CompletionKind =
  | 'fact'
  | 'table'
  | 'row'
  | 'mode'
  | 'function'
  | 'requirement'
  | 'record'
  | 'key'
  | 'value'
  | 'unit';

export interface CompletionItem {
  readonly label: string;
  readonly kind: CompletionKind;
  /** Beside the label: a value, a title. */
  readonly detail: string;
  /** What is written. */
  readonly insert: string;
  /** What it replaces. */
  readonly replace: Span;
  /** Smaller numbers stand first; equal ones in the order of the alphabet. */
  readonly rank: number;
  /** Markdown, or null: it is asked for by {@link CompletionItem.subject} when the item is looked at. */
  readonly documentation: string | null;
  /** A requirement's id or a fact's full name that it stands for. */
  readonly subject: string | null;
}

/** Where completion was asked for. */
export interface Cursor {
  readonly text: string;
  readonly offset: number;
  /** The line up to the cursor, and where it begins. */
  readonly before: string;
  readonly lineStart: number;
}

export function cursorAt(text: string, offset: number): Cursor {
  const lineStart = Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
  return { text, offset, lineStart, before: text.slice(lineStart, offset) };
}

/** What stands between the last `length` characters and the cursor. */
export function backwards({ offset }: Cursor, length: number): Span {
  return spanOf(offset - length, offset);
}

export function plainItem(
  label: string,
  kind: CompletionKind,
  replace: Span,
  more: Partial<CompletionItem> = {},
): CompletionItem {
  return { label, kind, detail: '', insert: label, replace, rank: 5, documentation: null, subject: null, ...more };
}
