/** `TBD` in a sentence: a limit that nobody has set yet. */
import type { Requirement } from '../model/requirement';
import { documentSpan } from '../syntax/markdown/document-span';
import type { PairingProblem } from './pairing';
import { type Reason, reason } from './typed';

/** One for each TBD of the statement. */
export function openLimits(requirement: Requirement): readonly Reason[] {
  const { id, statement, file } = requirement;
  if (statement === null) return [];
  const message = `the limit of ${id} is to be determined`;
  return [...statement.text.matchAll(/(?<![\p{L}\d])TBD(?![\p{L}\d])/gu)].map(({ index }) =>
    reason('open-point', message, { file, span: documentSpan(statement, index, index + 'TBD'.length) }),
  );
}

/** Beside a limit that is to be determined, a name without a limit asks nothing new. */
export function problemsBeside(
  open: readonly Reason[],
  problems: readonly PairingProblem[],
  { statement }: Requirement,
): readonly PairingProblem[] {
  if (open.length === 0 || statement === null) return problems;
  const isOfName = ({ span }: PairingProblem) =>
    statement.codes.some(({ outer }) => outer.start <= span.start && span.end <= outer.end);
  return problems.filter((problem) => problem.code !== 'which-limit' || !isOfName(problem));
}
