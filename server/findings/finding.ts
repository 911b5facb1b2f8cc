/** One thing reported: a code, a severity and a place, and a message that stands alone on one line. */
import type { FindingCode, Severity } from '../../grammar/findings';
import type { Place } from '../model/place';
import type { Fix } from '../syntax/span';

export interface Finding {
  readonly code: FindingCode;
  readonly severity: Severity;
  /** The id of the requirement that it speaks of, or null. */
  readonly requirement: string | null;
  readonly message: string;
  readonly place: Place;
  readonly related: readonly Related[];
  /** Edits in the document of `place`, where there are right ones. */
  readonly fixes: readonly Fix[];
}

export interface Related {
  readonly place: Place;
  readonly message: string;
}

/** A finding before its severity is settled. */
export interface Draft {
  readonly code: FindingCode;
  readonly message: string;
  readonly place: Place;
  readonly requirement?: string;
  readonly related?: readonly Related[];
  readonly fixes?: readonly Fix[];
  /** Milder than the table has it: files that take no part. */
  readonly severity?: Severity;
}
