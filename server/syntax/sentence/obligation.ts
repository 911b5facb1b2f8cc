/** How strongly a text binds: its obligation words. */
import type { Obligation } from '../../../grammar/sentence-words';
import type { Prose } from '../markdown/block';
import { findTerms } from './term';
import { tokenize } from './tokenize';

export type { Obligation } from '../../../grammar/sentence-words';

const STRENGTH: readonly Obligation[] = ['shall', 'should'];

/** *shall* (and *must*) before *should*, these before the first of *will* and *may*; null without any of them. */
export function obligationOf(prose: Prose): Obligation | null {
  const meanings = findTerms(tokenize(prose)).map(({ meaning }) => meaning);
  const found = meanings.flatMap((meaning) => (meaning.kind === 'modal' ? [meaning.obligation] : []));
  return STRENGTH.find((obligation) => found.includes(obligation)) ?? found[0] ?? null;
}
