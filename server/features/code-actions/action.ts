/** What an editor offers at a place: edits, or other figures to try. */
import type { Finding } from '../../findings/finding';
import type { Edit } from '../../syntax/span';

export interface CodeAction {
  readonly title: string;
  /** What it mends; null where nothing is wrong. */
  readonly finding: Finding | null;
  /** By file; empty for a trial. */
  readonly edits: ReadonlyMap<string, readonly Edit[]>;
  /** What to try, in an editor that can; null for edits. */
  readonly trial: Trial | null;
  /** The only right edit for its finding. */
  readonly isPreferred: boolean;
}

export interface Trial {
  /** Its id. */
  readonly requirement: string;
  readonly values: readonly { readonly name: string; readonly value: string }[];
}

export function editAction(
  title: string,
  finding: Finding,
  file: string,
  edits: readonly Edit[],
  isPreferred = false,
): CodeAction {
  return { title, finding, edits: new Map([[file, edits]]), trial: null, isPreferred };
}

export function trialAction(
  title: string,
  finding: Finding | null,
  requirement: string,
  values: Trial['values'] = [],
): CodeAction {
  return { title, finding, edits: new Map(), trial: { requirement, values }, isPreferred: false };
}
