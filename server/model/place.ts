/** Where something stands: a document of the product and a span of its text. */
import type { Problem, Span } from '../syntax/span';

export interface Place {
  /** The document's key: its path below the product's folder, with `/`. */
  readonly file: string;
  readonly span: Span;
}

/** A problem with the document it stands in. */
export interface PlacedProblem extends Problem {
  readonly file: string;
}
