/** What the pairing has settled so far; the one place of it that changes, and only inside one call. */
import type { PairingProblem, ProseLimit } from '../pairing';
import type { Name } from './fit';
import type { Phrase } from './phrase';

export interface Ledger {
  readonly limits: ProseLimit[];
  readonly problems: PairingProblem[];
  readonly usedPhrases: Set<Phrase>;
  /** Names that have a limit, or that a finding asks about already. */
  readonly settledNames: Set<Name>;
  /** The phrases that limit each name. */
  readonly phrasesOf: Map<Name, readonly Phrase[]>;
  /** Clauses in which something has its limit. */
  readonly limitedClauses: Set<number>;
}

export function emptyLedger(): Ledger {
  return {
    limits: [],
    problems: [],
    usedPhrases: new Set(),
    settledNames: new Set(),
    phrasesOf: new Map(),
    limitedClauses: new Set(),
  };
}
