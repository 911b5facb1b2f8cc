/** Places in a document's text, and what can be said of them. */

/**
 * UTF-16 offsets into the whole document's text; `end` is exclusive. Made by {@link spanOf} where a text is read, and
 * from another span by `spanBeside` where something is worked out: what is kept has to move with its text.
 */
export interface Span {
  readonly start: number;
  readonly end: number;
  /** In types alone, so that no two numbers pass for a span by mistake. */
  readonly [made]: true;
}

declare const made: unique symbol;

/** Something wrong with what was read, beside the value that could still be read. */
export interface Problem {
  /** The finding it becomes. */
  readonly code: string;
  readonly message: string;
  readonly span: Span;
  /** One right edit, where there is one. */
  readonly fix?: Fix;
}

/** A machine-applicable edit: replace each span by the text. */
export interface Fix {
  readonly title: string;
  readonly edits: readonly Edit[];
}

export interface Edit {
  readonly span: Span;
  readonly text: string;
}

export function spanOf(start: number, end: number): Span {
  return { start, end } as Span;
}

/** Of what stands in no text. */
export const NOWHERE = spanOf(0, 0);

export function covers(span: Span, offset: number): boolean {
  return span.start <= offset && offset < span.end;
}
