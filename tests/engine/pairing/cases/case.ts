/** A sentence, what its names measure, and what is read: limits, then the codes of findings, in text order. */
import type { TypeWord } from '../../../support/statement';

export type Case = readonly [sentence: string, types: Readonly<Record<string, TypeWord>>, expected: readonly string[]];

/** Sentences after one pattern; `source` names where the pattern is found. */
export interface CaseGroup {
  readonly source: string;
  readonly cases: readonly Case[];
}
