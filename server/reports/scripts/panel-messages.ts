/** What a page in a panel and its editor say to each other. */

/** A place to be opened. */
export interface FromPage {
  readonly type: 'open';
  /** Below the product's folder. */
  readonly file: string;
  /** From 1; null: the document as a whole. */
  readonly line: number | null;
}

/** A newer page, or null where there is none any more. */
export interface ToPage {
  readonly html: string | null;
}
