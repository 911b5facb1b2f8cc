/** One more attribute of a requirement: a way to verify it, a waiver to be filled in, words that are no limits. */
import type { FindingCode } from '../../../grammar/findings';
import type { Figures } from '../../engine/criterion';
import { outwardText } from '../../engine/evidence/rounding';
import type { RequirementResult } from '../../engine/requirement-result';
import { extentToday } from '../../engine/waive';
import { attributeLine } from '../../findings/attribute-line';
import { subjectOf } from '../../findings/describe';
import type { Finding } from '../../findings/finding';
import { attributesOf } from '../../model/requirement';
import { METHODS } from '../../model/verification';
import { type Edit, spanOf } from '../../syntax/span';
import { type CodeAction, editAction } from './action';

const ASKS_ABOUT_WORDS: readonly FindingCode[] = ['unchecked', 'which-limit'];
const IS_BROKEN: readonly FindingCode[] = ['unmet', 'at-risk'];

export function attributeStubs(finding: Finding, result: RequirementResult, text: string): readonly CodeAction[] {
  if (finding.code === 'untested') return verifications(finding, result);
  if (IS_BROKEN.includes(finding.code)) return waiver(finding, result);
  return ASKS_ABOUT_WORDS.includes(finding.code) ? notLimits(finding, result, text) : [];
}

/** A test is the finding's own fix. */
function verifications(finding: Finding, { requirement }: RequirementResult): readonly CodeAction[] {
  return METHODS.filter((method) => method !== 'test').flatMap((method) =>
    withLine(finding, `Verify it by ${method}`, attributeLine(requirement, `Verify: ${method}`)),
  );
}

/** Nothing is waived before somebody has said why, who and until when: a stub cannot be read as a waiver. */
function waiver(finding: Finding, { requirement, criteria }: RequirementResult): readonly CodeAction[] {
  const broken = criteria.filter(({ verdict }) => verdict !== 'met');
  const [only] = broken;
  if (only?.figures == null || broken.length !== 1 || attributesOf(requirement, 'Waived').length > 0) return [];
  const { figures } = only;
  const extent = outwardText(extentToday(figures), figures.unit);
  if (extent.startsWith('{')) return [];
  const isAlone = criteria.filter((other) => other.figures !== null && isOfUnit(other.figures, figures)).length === 1;
  const shown = isAlone ? extent : `${subjectOf({ ...only, row: null, mode: null })} ${figures.relation} ${extent}`;
  const line = attributeLine(requirement, `Waived: to ${shown}; reason; who; until year-month-day`);
  return withLine(finding, `Waive ${requirement.id} to ${extent}: reason, who and until when to be filled in`, line);
}

function isOfUnit({ unit }: Figures, other: Figures): boolean {
  return unit.dimension.key === other.unit.dimension.key && unit.point === other.unit.point;
}

function notLimits(finding: Finding, { requirement }: RequirementResult, text: string): readonly CodeAction[] {
  const { start, end } = finding.place.span;
  const words = text.slice(start, end).replace(/\s+/g, ' ').trim();
  if (words === '' || words.includes(';') || finding.place.file !== requirement.file) return [];
  const [known] = attributesOf(requirement, 'Not limits');
  const line =
    known === undefined
      ? attributeLine(requirement, `Not limits: ${words}`)
      : { span: spanOf(known.valueSpan.end, known.valueSpan.end), text: `; ${words}` };
  return withLine(finding, `List ${words.startsWith('`') ? words : `“${words}”`} under Not limits`, line);
}

function withLine(finding: Finding, title: string, line: Edit | null): readonly CodeAction[] {
  return line === null ? [] : [editAction(title, finding, finding.place.file, [line])];
}
