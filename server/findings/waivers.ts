/** waiver-open, and waivers that cannot be read; agreed-other-text: what people have put their names to. */
import type { RequirementResult } from '../engine/analysis';
import { outwardText } from '../engine/evidence/rounding';
import { agreementDigest } from '../engine/evidence/text-digest';
import type { AnalysisPart } from '../engine/parts';
import { extentToday } from '../engine/waive';
import { readAgreement } from '../model/agreement';
import { SHOWN_DIGITS } from '../model/digest';
import { attributesOf, type Requirement } from '../model/requirement';
import type { Waiver } from '../model/waiver';
import { spanBeside } from '../syntax/anchor';
import type { Fix, Span } from '../syntax/span';
import type { Draft } from './finding';

export function* waiverFindings({ requirements }: AnalysisPart): Iterable<Draft> {
  for (const result of requirements) {
    const { requirement, waiver } = result;
    const [attribute, ...others] = attributesOf(requirement, 'Waived');
    for (const { valueSpan } of others) yield oneTooMany(requirement, valueSpan);
    if (attribute === undefined || waiver === null) continue;
    const place = { file: requirement.file, span: attribute.valueSpan };
    const own = { requirement: requirement.id, place };
    if (waiver.type === 'bad') yield { ...own, code: 'bad-value', message: `${requirement.id}: ${waiver.mistake}` };
    if (waiver.type === 'open')
      yield {
        ...own,
        code: 'waiver-open',
        message: `${requirement.id}: this waiver is not applied: ${waiver.why}`,
        fixes: extentFix(result, waiver.waiver),
      };
    if (waiver.type === 'over' || waiver.type === 'exceeded')
      yield { ...own, ...noLonger(result, waiver.type, waiver.waiver) };
  }
}

/** A waiver stands over one criterion while all others are met, so two can never hold together. */
function oneTooMany({ id, file }: Requirement, span: Span): Draft {
  const message = `${id}: this waiver is not applied: there is one above it already, and the other criteria have to be met`;
  return { code: 'bad-value', requirement: id, message, place: { file, span } };
}

function noLonger({ requirement }: RequirementResult, why: 'over' | 'exceeded', { until, who }: Waiver) {
  const message =
    why === 'over'
      ? `${requirement.id}: the waiver by ${who} was granted until ${until} and is not in force`
      : `${requirement.id}: the waiver by ${who} does not reach as far as the design has gone`;
  return { code: 'waiver-open' as const, message };
}

/** Today's worst case as the extent, where one criterion is broken. */
function extentFix({ criteria }: RequirementResult, { extent, attribute }: Waiver): readonly Fix[] {
  const broken = criteria.filter(({ verdict }) => verdict === 'unmet' || verdict === 'at risk');
  const [only] = broken;
  if (extent !== null || broken.length !== 1 || only?.figures == null) return [];
  const text = outwardText(extentToday(only.figures), only.figures.unit);
  const { valueSpan } = attribute;
  const before = spanBeside(valueSpan, valueSpan.start, valueSpan.start);
  return [{ title: `Waive it to ${text}`, edits: [{ span: before, text: `to ${text}; ` }] }];
}

export function* agreementFindings({ requirements }: AnalysisPart): Iterable<Draft> {
  for (const { requirement, criteria } of requirements) {
    const agreed = attributesOf(requirement, 'Agreed');
    if (agreed.length === 0) continue;
    const today = agreementDigest(
      requirement,
      criteria.map(({ criterion }) => criterion),
    );
    for (const attribute of agreed) {
      const place = { file: requirement.file, span: attribute.valueSpan };
      const agreement = readAgreement(attribute);
      if ('mistake' in agreement) {
        yield {
          code: 'bad-value',
          requirement: requirement.id,
          message: `${requirement.id}: ${agreement.mistake}`,
          place,
        };
        continue;
      }
      const { digest, digestSpan } = agreement;
      if (digest !== null && today.startsWith(digest)) continue;
      const text = `${digest === null ? '; ' : ''}${today.slice(0, SHOWN_DIGITS)}`;
      yield {
        code: 'agreed-other-text',
        requirement: requirement.id,
        message:
          digest === null
            ? `${requirement.id}: nothing says to which text was agreed; the digest of today's is ${today.slice(0, SHOWN_DIGITS)}`
            : `${requirement.id}: statement or criteria have been changed since they were agreed to`,
        place,
        fixes: [{ title: 'Agree to the text as it stands', edits: [{ span: digestSpan, text }] }],
      };
    }
  }
}
