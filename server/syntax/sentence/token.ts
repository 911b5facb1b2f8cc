/** What a sentence is made of: words, numbers, dates, names that hold digits, code spans and marks. */
import type { Rational } from '../../quantity/rational';

/** Offsets into the prose's text; `end` is exclusive. */
export interface Place {
  readonly start: number;
  readonly end: number;
}

export type Token = WordToken | NumberToken | DateToken | NameToken | CodeToken | MarkToken;

export interface WordToken extends Place {
  readonly type: 'word';
  /** In lower case, apostrophes and hyphens made alike. */
  readonly key: string;
  readonly capitals: number;
}

/** Why a number cannot be taken as it stands. */
export type NumberDoubt =
  /** `2 100`: one number or two. */
  | 'grouping'
  | 'decimal-comma'
  /** `2 1/4`: two and a quarter, or two of a quarter. */
  | 'mixed-fraction'
  /** `10/100`: alternatives or a fraction. */
  | 'slash'
  /** `100 × 50`: a product or two sizes. */
  | 'product'
  /** `5 thousand`, `two dozen`, `twenty four`. */
  | 'number-words'
  /** `5+`, `5"`, `5²`. */
  | 'suffix'
  /** Past ±10^99. */
  | 'too-large'
  /** `2027-02-30`. */
  | 'no-such-day';

export interface NumberToken extends Place {
  readonly type: 'number';
  /** Zero where a doubt leaves no value. */
  readonly value: Rational;
  /** One unit of the last digit given: 0.1 of 6.7, 100 of 1,800. */
  readonly place: Rational;
  readonly doubt: NumberDoubt | null;
  /** Written as a word. */
  readonly spelled: boolean;
  /** `1/2`, `½`: a number only in front of a unit. */
  readonly isFraction: boolean;
  /** What follows without a space. */
  readonly touches: 'letter' | 'hyphen' | null;
}

/** A calendar date, ISO 8601; seconds since 1970-01-01 UTC. */
export interface DateToken extends Place {
  readonly type: 'date';
  readonly value: Rational;
  readonly doubt: NumberDoubt | null;
}

/** Digits that are part of a name (`RJ45`, `3V3`, `10/100/1000`, `3.2.1`) and never a figure. */
export interface NameToken extends Place {
  readonly type: 'name';
  readonly key: string;
}

export interface CodeToken extends Place {
  readonly type: 'code';
  /** Index into the prose's code spans. */
  readonly code: number;
}

/** Punctuation and signs: one character, or several that belong together (`+/-`, `<=`, `...`). */
export interface MarkToken extends Place {
  readonly type: 'mark';
  readonly key: string;
}

/** The word or mark that a token shows, in lower case; empty for everything else. */
export function keyOf(token: Token | undefined): string {
  return token?.type === 'word' || token?.type === 'mark' ? token.key : '';
}
