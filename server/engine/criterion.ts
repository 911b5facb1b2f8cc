/** A criterion as read, and what judging it found. */
import type { Place } from '../model/place';
import type { Interval } from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import type { Expression } from '../syntax/expression/ast';
import type { Relation } from '../syntax/sentence/limit';
import type { LimitTrace } from './pairing';
import type { Reason } from './typed';
import type { CriterionVerdict } from './verdict';

/** One comparison or condition read from a sentence, a code span or a check. */
export interface Criterion {
  readonly condition: Expression;
  /** For a comparison taken from `all(…)`: the aggregate whose rows it is asked of. */
  readonly over: (Expression & { type: 'aggregate' }) | null;
  /** Canonical text: `storage.retention >= 7 d`. */
  readonly text: string;
  /** Where the limit stands. */
  readonly place: Place;
  /** Where the name or the condition stands. */
  readonly namePlace: Place;
  /** Which words gave relation and quantity; null where a code span says it all. */
  readonly trace: LimitTrace | null;
  readonly provisional: boolean;
}

/** The figures of a judged comparison; all in base units. */
export interface Figures {
  readonly value: Interval;
  readonly typical: Interval;
  readonly relation: Relation;
  readonly low: Rational | null;
  readonly high: Rational | null;
  /** The unit of the limit, in which figures are shown. */
  readonly unit: Unit;
  /** Worst-case distance to the limit, negative when broken; null where open ends leave it open and for `!=`. */
  readonly margin: Rational | null;
  /** For two ends: the distance to each. */
  readonly margins: { readonly low: Rational | null; readonly high: Rational | null } | null;
  readonly surplus: Rational | null;
}

export interface Judgement {
  readonly verdict: CriterionVerdict;
  /** Null for `or`, `any`, texts and yes/no, and where nothing could be computed. */
  readonly figures: Figures | null;
  /** What stands in the way, when undecided. */
  readonly reasons: readonly Reason[];
  /** Something to say beside the verdict: the step limit, `=` on a spread. */
  readonly remark: Remark | null;
}

/** *not-shown*: the worst case could not be shown within the step limit. *use-within*: `=` on a value with spread. */
export type Remark = 'not-shown' | 'use-within';
