/** Digests of what a requirement says: changed by every word of it, by no line break and no emphasis. */
import { sha256OfText } from '../../model/digest';
import type { Requirement } from '../../model/requirement';
import type { Criterion } from '../criterion';

/** Of the statement; 64 hexadecimal digits. */
export function statementDigest(requirement: Requirement): string {
  return sha256OfText(statementText(requirement));
}

/** Of statement and criteria as read, which is what somebody agrees to. */
export function agreementDigest(requirement: Requirement, criteria: readonly Criterion[]): string {
  return sha256OfText([statementText(requirement), ...criteria.map(({ text }) => text)].join('\n'));
}

function statementText({ statement, title }: Requirement): string {
  let next = 0;
  const text = statement?.text.replace(/\uFFFC/gu, () => `\`${statement.codes[next++]?.code ?? ''}\``) ?? title;
  return text.normalize('NFC').replace(/\s+/gu, ' ').trim();
}
