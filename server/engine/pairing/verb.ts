/** The main verb of each clause: whether it says what a product can do, or supply. */
import {
  ACTED_ON,
  ADVERBS,
  CAPABILITY_VERBS,
  SUPPLY_VERBS,
  VERB_PREFIXES,
  WATCHING_VERBS,
  WEAK_OBLIGATIONS,
} from '../../../grammar/sentence-words';
import { buildTrie, longestMatch } from '../../syntax/sentence/trie';
import type { Clause } from './clause';
import { type Context, keyAt } from './context';

const verbs = buildTrie<'capability' | 'both' | 'supply'>([
  { meaning: 'capability', phrases: CAPABILITY_VERBS },
  { meaning: 'supply', phrases: SUPPLY_VERBS },
  { meaning: 'both', phrases: CAPABILITY_VERBS.filter((verb) => SUPPLY_VERBS.includes(verb)) },
]);
const prefixes = buildTrie([{ meaning: true, phrases: VERB_PREFIXES }]);
const weakObligations = buildTrie([{ meaning: true, phrases: WEAK_OBLIGATIONS }]);

/** What a maximum behind the verb may be, and what two ends behind it are. */
export interface Capability {
  readonly isCapability: boolean;
  readonly isSupply: boolean;
  /** First token of the verb. */
  readonly at: number;
}

/** The verb right behind the obligation word of each clause; a clause that begins without a verb goes on with the last. */
export function findVerbs(context: Context, clauses: readonly Clause[]): readonly (Capability | null)[] {
  let last: Capability | null = null;
  let sentence = -1;
  return clauses.map((clause) => {
    if (clause.sentence !== sentence) last = null;
    sentence = clause.sentence;
    if (clause.kind !== 'main') return null;
    const obligation = obligationIn(context, clause);
    if (obligation !== null) last = verbAt(context, verbStart(context, obligation));
    else if (!continues(context, clause)) last = verbAt(context, verbStart(context, contentStart(context, clause)));
    return last;
  });
}

/** Of each clause the first capability verb behind its obligation word, main verb or not ("start and operate from"). */
export function findCapabilities(context: Context, clauses: readonly Clause[]): readonly (number | null)[] {
  return clauses.map((clause) => {
    const obligation = obligationIn(context, clause);
    if (obligation === null) return null;
    for (let index = obligation; index < clause.to; index++) {
      const found = context.tokens[index]?.type === 'word' ? verbAt(context, index) : null;
      if (found?.isCapability) return index;
    }
    return null;
  });
}

/** What the clause does about the figures of its subject, or watches. */
export interface ClauseAction {
  /** Behind the obligation word of "… shall be rejected", "… shall not be possible". */
  readonly actedOn: number | null;
  /** The main verb of "shall log …". */
  readonly watches: number | null;
}

export function findActions(context: Context, clauses: readonly Clause[]): readonly ClauseAction[] {
  return clauses.map((clause) => {
    const obligation = obligationIn(context, clause);
    if (obligation === null) return { actedOn: null, watches: null };
    const verb = verbStart(context, obligation);
    const isActedOn = keyAt(context, verb) === 'be' && ACTED_ON.has(keyAt(context, verbStart(context, verb + 1)));
    const isNegated = context.termFrom.get(obligation)?.meaning.kind === 'negation';
    return {
      actedOn: isActedOn || isNegated ? obligation : null,
      watches: WATCHING_VERBS.has(keyAt(context, verb)) ? verb : null,
    };
  });
}

/** Token behind the obligation word of the clause. */
function obligationIn(context: Context, { from, to }: Clause): number | null {
  for (let index = from; index < to; index++) {
    const term = context.termFrom.get(index);
    if (term?.meaning.kind === 'modal') return term.to;
    const key = keyAt(context, index);
    if (key !== 'is' && key !== 'are') continue;
    const weak = longestMatch(weakObligations, index, (at) => [keyAt(context, at)]);
    if (weak) return index + weak.length;
  }
  return null;
}

function contentStart(context: Context, { from }: Clause): number {
  return ['and', 'or', 'but', ','].includes(keyAt(context, from)) ? from + 1 : from;
}

const CONTINUATIONS: ReadonlySet<string> = new Set(
  'from at over in on with for a an the within between to under above below per of as by'.split(' '),
);

/** Begins with a figure, a relation or a preposition, so has no verb of its own. */
function continues(context: Context, clause: Clause): boolean {
  const at = contentStart(context, clause);
  const token = context.tokens[at];
  if (token?.type !== 'word') return true;
  return context.termFrom.has(at) || CONTINUATIONS.has(token.key);
}

function verbStart(context: Context, from: number): number {
  let index = from;
  for (;;) {
    const prefix = longestMatch(prefixes, index, (at) => [keyAt(context, at)]);
    const key = keyAt(context, index);
    const isAdverb = ADVERBS.has(key) || (key.endsWith('ly') && key !== 'supply' && key !== 'apply');
    if (!prefix?.length && !isAdverb) return index;
    index += prefix?.length ?? 1;
  }
}

function verbAt(context: Context, at: number): Capability | null {
  const found = longestMatch(verbs, at, (index) => [keyAt(context, index)]);
  if (!found) return null;
  return { isCapability: found.meaning !== 'supply', isSupply: found.meaning !== 'capability', at };
}
