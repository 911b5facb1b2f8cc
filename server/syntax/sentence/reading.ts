/** A statement as its sentences say it, before any unit or name is known: the contract between text and pairing. */
import type { Prose } from '../markdown/block';
import type { Term } from './term';
import type { Token } from './token';

export interface StatementReading {
  readonly prose: Prose;
  readonly tokens: readonly Token[];
  /** In text order. */
  readonly terms: readonly Term[];
  /** Of each token the index of the `(` or `[` that it stands in, innermost; -1 outside. A bracket stands in itself. */
  readonly brackets: readonly number[];
  readonly sentences: readonly Sentence[];
}

/** Token indexes; `to` is exclusive and includes the full stop. */
export interface Sentence {
  readonly from: number;
  readonly to: number;
  /** Without gaps. */
  readonly segments: readonly Segment[];
  /** The first obligation word outside conditions. */
  readonly obligation: number | null;
  /** For an item of a list under a statement that ends with a colon: that sentence. */
  readonly lead: number | null;
}

/** What stands between commas and the words that open a clause. */
export interface Segment {
  readonly from: number;
  readonly to: number;
  readonly kind: 'main' | 'condition';
  /** `when`, `while`, `where` …: the word that opens a condition; null for main. */
  readonly opener: string | null;
  /** Stands before the obligation it belongs to. */
  readonly isOpening: boolean;
}
