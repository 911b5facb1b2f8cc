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
  /** How it is told together with others of its code; null: it is told by itself alone. */
  readonly alike: Alike | null;
}

/** What findings of one code say one after the other, where all of a document are told as one. */
export interface Alike {
  /** What it speaks of, by its full name. */
  readonly name: string;
  /** What is to be written to mend it. */
  readonly mend: string;
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
  readonly alike?: Alike;
  /** Milder than the table has it: files that take no part. */
  readonly severity?: Severity;
}
