/** Where one more attribute of a requirement is written: a line of its own after those that are there. */
import type { Requirement } from '../model/requirement';
import { spanBeside } from '../syntax/anchor';
import type { Edit } from '../syntax/span';

/**
 * @param attribute `Verify: test`
 * @returns null for a requirement of a table, which has no place for one
 */
export function attributeLine({ attributes, span, statementSpan }: Requirement, attribute: string): Edit | null {
  if (statementSpan.start === span.start && statementSpan.end === span.end) return null;
  const inList = attributes.some((one) => one.span.end === span.end);
  return { span: spanBeside(span, span.end, span.end), text: `${inList ? '\n' : '\n\n'}- ${attribute}` };
}
