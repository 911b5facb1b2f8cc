/** How strongly a text binds: its obligation words. */
import type { Obligation } from '../../../grammar/sentence-words';
import type { Prose } from '../markdown/block';
import { wordsOf } from './words';

export type { Obligation } from '../../../grammar/sentence-words';

/** A quick look before words are told apart: most paragraphs bind nobody. */
const MODAL = /shall|must|should|will|may/iu;
const STRENGTH: readonly Obligation[] = ['shall', 'should'];

/** *shall* (and *must*) before *should*, these before the first of *will* and *may*; null without any of them. */
export function obligationOf(prose: Prose): Obligation | null {
  if (!MODAL.test(prose.text)) return null;
  const meanings = wordsOf(prose).terms.map(({ meaning }) => meaning);
  const found = meanings.flatMap((meaning) => (meaning.kind === 'modal' ? [meaning.obligation] : []));
  return STRENGTH.find((obligation) => found.includes(obligation)) ?? found[0] ?? null;
}
