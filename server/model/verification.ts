/** Verifications as they are recorded in front matter: a procedure, the requirements it speaks for, and its runs. */
import { dayAfter } from '../quantity/calendar';
import type { Span } from '../syntax/span';
import type { ReadContent } from './read-content';

/** The four methods of ISO/IEC/IEEE 29148:2018 (6.5.2.2, from memory). */
export const METHODS = ['inspection', 'analysis', 'demonstration', 'test'] as const;

export type Method = (typeof METHODS)[number];

export const RESULTS = ['pass', 'fail', 'inconclusive'] as const;

export type RunResult = (typeof RESULTS)[number];

export interface Verification {
  readonly id: string;
  readonly idSpan: Span;
  readonly title: string | null;
  readonly method: Method;
  readonly file: string;
  /** The record; for a single one written at the top of the front matter, its id. */
  readonly span: Span;
  /** Ids of requirements. */
  readonly verifies: readonly PlacedText[];
  /** In text order. */
  readonly runs: readonly TestRun[];
  /** A run could not be read, so that what the record proves is not known. */
  readonly hasUnreadRuns: boolean;
}

/** One execution. */
export interface TestRun {
  readonly span: Span;
  /** ISO 8601. */
  readonly date: string;
  readonly dateSpan: Span;
  readonly result: RunResult;
  readonly resultSpan: Span;
  /** Which one was tested. */
  readonly article: string | null;
  readonly measured: readonly RunValue[];
  /** The conditions it was run in: one figure, or a sweep. */
  readonly at: readonly RunValue[];
  /** By criterion as read: its worst case then; null where it was not recorded. */
  readonly proved: readonly ProvedValue[] | null;
  /** The given facts that the criteria rested on, as they were. */
  readonly against: readonly RunValue[];
  /** SHA-256 of the documents of evidence, by their path below the product's folder. */
  readonly documents: ReadonlyMap<string, string>;
}

/**
 * Its day has begun nowhere on earth. `today` is UTC's, and days begin up to 14 hours earlier (UTC+14, from memory of the
 * IANA time zone database), so whoever wrote tomorrow's may have been there.
 *
 * @param today ISO 8601; null: nobody knows
 */
export function isYetToCome({ date }: Pick<TestRun, 'date'>, today: string | null): boolean {
  return today !== null && date > today && date !== dayAfter(today);
}

export interface PlacedText {
  readonly text: string;
  readonly span: Span;
}

/** A value that a run gives to a name. */
export interface RunValue extends ReadContent {
  readonly name: string;
  readonly nameSpan: Span;
  readonly span: Span;
}

/** `statement`: digests of the statements of requirements that are judged by evidence. */
export interface ProvedValue extends RunValue {
  readonly digests: readonly string[];
}
