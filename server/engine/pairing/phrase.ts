/** Limit phrases: a relation and a figure, as read; and bare figures that have no relation. */
import type { Rational } from '../../quantity/rational';
import type { Place } from '../../syntax/sentence/token';
import type { Figure } from './figure';

/** `ends`: inside both or containing both, which the verb and the fact decide. */
export type PartRelation = '>=' | '>' | '<=' | '<' | '=' | 'ends';

/** One relation with its figure. */
export interface Part {
  readonly relation: PartRelation;
  readonly figure: Figure;
  /** The words that give the relation; null where the figure alone does (`A to B`). */
  readonly relationPlace: Place | null;
}

/** Several readings: what a person is asked. */
export interface Question {
  /** Why, as the rest of a sentence that begins with the phrase. */
  readonly why: string;
  readonly readings: readonly (PartRelation | 'within' | 'spans')[];
}

export interface Phrase {
  /** One, or a lower and an upper bound that are joined; empty for a bare figure. */
  readonly parts: readonly Part[];
  /** The (first) figure. */
  readonly figure: Figure;
  readonly question: Question | null;
  /** The relation word may as well name a circumstance (above, below, over, under). */
  readonly isWeak: boolean;
  /** Led by a preposition, so that it may say under which circumstances. */
  readonly isCircumstance: boolean;
  /** Holds for every fitting name of its clause. */
  readonly distributes: boolean;
  /** "75 % of the …": a share of items. */
  readonly isShare: boolean;
  /** Behind the obligation word of its sentence. */
  readonly isObliged: boolean;
  /** Opening bracket around it; -1 for none. */
  readonly bracket: number;
  readonly verb: VerbKind;
  readonly first: number;
  readonly next: number;
  readonly start: number;
  readonly end: number;
  readonly clause: number;
  readonly sentence: number;
}

/** What the main verb of its clause makes of two ends. */
export type VerbKind = 'capability' | 'other' | 'unclear';

/** A comparison with one value: what two limits agree in. */
export interface Atom {
  readonly relation: '>=' | '>' | '<=' | '<' | '=' | '!=';
  readonly value: Rational;
}

export function isBare(phrase: Phrase): boolean {
  return phrase.parts.length === 0;
}

/** The comparisons that a phrase makes, in base units; a bare figure makes none. */
export function atomsOf(phrase: Phrase): readonly Atom[] {
  return phrase.parts.flatMap(({ relation, figure }): readonly Atom[] =>
    relation === 'ends'
      ? [
          { relation: '>=', value: figure.low },
          { relation: '<=', value: figure.high },
        ]
      : [{ relation, value: figure.low }],
  );
}
