/** What evidence there is of a requirement, method by method, and why it is no better. */

import type { FileDigest } from '../../model/evidence-file';
import type { Method, RunValue, TestRun, Verification } from '../../model/verification';
import type { NamedMethod } from '../../model/verify-methods';
import type { Interval } from '../../quantity/interval';
import type { Unit } from '../../quantity/unit';
import type { CriterionResult } from '../judge-criterion';

/** Weakest first (3-semantics, Untested). */
export const EVIDENCE_STATES = ['failed', 'untested', 'planned', 'stale', 'partial', 'calculated', 'verified'] as const;

export type EvidenceState = (typeof EVIDENCE_STATES)[number];

export interface Evidence {
  /** The weakest of all that is asked for. */
  readonly state: EvidenceState;
  readonly items: readonly EvidenceItem[];
}

/** A method without a record, or one record. */
export interface EvidenceItem {
  readonly method: Method | null;
  /** Where a method is named; null for a record that names the requirement. */
  readonly named: NamedMethod | null;
  readonly verification: Verification | null;
  /** The record's id; null for a method without one. The record may not be written yet. */
  readonly record: string | null;
  readonly state: EvidenceState;
  /** The latest conclusive run. */
  readonly run: TestRun | null;
  /** Criteria with the values that it measured. */
  readonly measured: readonly Disagreement[];
  readonly disagreements: readonly Disagreement[];
  /** Why it is stale. */
  readonly causes: readonly StaleCause[];
  /** Criteria whose worst case moved away from the limit since. */
  readonly moved: readonly Moved[];
  /** Ranges that no run went through. */
  readonly uncovered: readonly Uncovered[];
}

/** The criterion with the measured values in place of the design's says the other thing. */
export interface Disagreement {
  readonly result: CriterionResult;
  readonly measured: CriterionResult;
}

export interface Moved {
  readonly result: CriterionResult;
  readonly then: Interval;
  readonly now: Interval;
  readonly unit: Unit;
}

export type StaleCause =
  | ({ readonly type: 'moved' } & Moved)
  /** A condition without figures held then and does not now. */
  | { readonly type: 'no-longer'; readonly result: CriterionResult }
  /** What was proved does not imply what is asked today. */
  | { readonly type: 'tightened'; readonly result: CriterionResult; readonly proved: RunValue }
  /** The limit, which is itself computed, came nearer. */
  | { readonly type: 'limit-moved'; readonly result: CriterionResult }
  /** The run says nothing of this criterion; null for a requirement without criteria. */
  | { readonly type: 'not-recorded'; readonly result: CriterionResult | null }
  | { readonly type: 'statement' }
  | { readonly type: 'document'; readonly path: string; readonly now: FileDigest }
  /** Nothing can be compared while the requirement is undecided. */
  | { readonly type: 'undecided' };

export interface Uncovered {
  readonly name: string;
  readonly range: Interval;
  /** Null: not at all. */
  readonly tested: Interval | null;
  readonly unit: Unit;
}

export function weakest(states: readonly EvidenceState[]): EvidenceState {
  return EVIDENCE_STATES.find((state) => states.includes(state)) ?? 'verified';
}
