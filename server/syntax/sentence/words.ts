/** The tokens and terms of a prose, worked out once however many ask: the model for its obligation, the engine for its limits. */
import type { Prose } from '../markdown/block';
import { findTerms, type Term } from './term';
import type { Token } from './token';
import { tokenize } from './tokenize';

export interface Words {
  readonly tokens: readonly Token[];
  /** In text order. */
  readonly terms: readonly Term[];
}

/** Prose is immutable, so what was read of it stays true as long as it lives. */
const known = new WeakMap<Prose, Words>();

export function wordsOf(prose: Prose): Words {
  const before = known.get(prose);
  if (before !== undefined) return before;
  const tokens = tokenize(prose);
  const words = { tokens, terms: findTerms(tokens) };
  known.set(prose, words);
  return words;
}
