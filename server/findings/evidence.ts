/** failed, untested, planned, stale, partial: what evidence there is of a requirement, and what it lacks. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { EvidenceItem, StaleCause, Uncovered } from '../engine/evidence/state';
import type { AnalysisPart } from '../engine/parts';
import type { FileDigest } from '../model/evidence-file';
import type { Requirement } from '../model/requirement';
import type { TestRun, Verification } from '../model/verification';
import { formatOutward } from '../quantity/format';
import type { Fix } from '../syntax/span';
import { attributeLine } from './attribute-line';
import { changesSince } from './changes-since';
import type { Draft, Related } from './finding';
import { measuredText } from './runs';

/** Each method and record that lacks something says so; what is only planned is one finding together. */
export function* evidenceFindings(analysis: Analysis, part: AnalysisPart): Iterable<Draft> {
  for (const result of part.requirements) {
    const { requirement, evidence, verdict } = result;
    if (verdict === 'not applicable') continue;
    // An open requirement says so itself.
    if (verdict !== 'open' && evidence.items.length === 0) yield untested(requirement);
    for (const item of evidence.items) yield* ofItem(analysis, result, item);
    const planned = evidence.items.filter(({ state }) => state === 'planned');
    const [first] = planned;
    if (first !== undefined && (verdict !== 'open' || evidence.items.length > planned.length))
      yield draft(result, first, 'planned', `${requirement.id}: ${plannedText(result, planned)}`);
  }
}

function* ofItem(analysis: Analysis, result: RequirementResult, item: EvidenceItem): Iterable<Draft> {
  const { id } = result.requirement;
  switch (item.state) {
    case 'failed':
      if (item.disagreements.length === 0 || item.run?.result === 'fail')
        yield draft(result, item, 'failed', `${id}: ${runText(item)} failed${whyFailed(item)}`);
      return;
    case 'stale': {
      const [cause] = item.causes.filter((one) => !isToldElsewhere(analysis, result, one));
      if (cause === undefined) return;
      const { text, related } = changesSince(analysis, item.run, result);
      yield draft(
        result,
        item,
        'stale',
        `${id}: ${runText(item)} passed, but ${causeText(cause)}${text}; run it again`,
        related,
      );
      return;
    }
    case 'partial':
      yield draft(
        result,
        item,
        'partial',
        `${id}: ${runText(item)} passed, but not over ${item.uncovered.map(uncoveredText).join(', and not over ')}; run it there as well`,
      );
  }
}

function whyFailed({ measured }: EvidenceItem): string {
  const broken = measured.find((one) => one.measured.verdict === 'unmet');
  return broken === undefined ? '' : `: as measured, ${measuredText(broken.measured)}`;
}

/** What leaves it undecided, and a document that is pointed at and cannot be read, are findings of their own. */
function isToldElsewhere({ product }: Analysis, { requirement }: RequirementResult, cause: StaleCause): boolean {
  if (cause.type === 'undecided') return true;
  if (cause.type !== 'document' || typeof cause.now === 'string') return false;
  return product.evidenceFiles.some((one) => one.path === cause.path && one.requirement === requirement.id);
}

function draft(
  { requirement }: RequirementResult,
  { run, verification }: EvidenceItem,
  code: Draft['code'],
  message: string,
  related: readonly Related[] = [],
): Draft {
  const of = run === null || verification === null ? [] : [runPlace(verification, run)];
  return {
    code,
    requirement: requirement.id,
    message,
    place: { file: requirement.file, span: requirement.idSpan },
    related: [...of, ...related],
  };
}

function runPlace({ id, file }: Verification, { date, resultSpan }: TestRun): Related {
  return { place: { file, span: resultSpan }, message: `the run of ${id} on ${date}` };
}

function runText({ verification, run }: EvidenceItem): string {
  const article = run?.article == null ? '' : ` with ${run.article}`;
  return `${verification?.id ?? 'the run'} of ${run?.date ?? ''}${article}`;
}

function plannedText(result: RequirementResult, planned: readonly EvidenceItem[]): string {
  const unread = planned.find(({ verification }) => verification?.hasUnreadRuns);
  if (unread !== undefined)
    return `${unread.verification?.id} has a run that cannot be read, so that nothing is known of it`;
  const unwritten = planned.flatMap(({ named, verification, record }) =>
    verification === null && named !== null && record !== null ? [record] : [],
  );
  const how = planned.map(({ method, record }) => [method, record].filter((word) => word !== null).join(' '));
  // A pass that leaves it planned is one whose day is yet to come.
  const passes = planned.some(({ verification }) => verification?.runs.some(({ result }) => result === 'pass'));
  const runs = passes ? 'the run that passed is dated after today' : 'no conclusive run is recorded';
  const known = unwritten.length === 0 ? runs : `there is no record ${unwritten.join(', ')}`;
  return `it is to be verified by ${how.join(' and ')}, and ${known}${whyNotCalculated(result, planned)}`;
}

/** An analysis needs no record where the design itself shows the requirement met in the worst case. */
function whyNotCalculated(
  { verdict, withoutWaiver, basis }: RequirementResult,
  planned: readonly EvidenceItem[],
): string {
  if (!planned.some(({ method, record }) => method === 'analysis' && record === null)) return '';
  if (verdict === 'met')
    return basis === 'rss'
      ? '; root sum square alone does not show it'
      : '; where people can come to harm, a calculation alone does not show it';
  return verdict === 'open' ? '' : `; by calculation it is ${withoutWaiver ?? verdict}`;
}

function documentText(path: string, now: FileDigest): string {
  if (now === null) return `${path} is not there any more`;
  return typeof now === 'string' ? `${path} has been changed since` : `${path} cannot be read: ${now.unread}`;
}

function causeText(cause: StaleCause): string {
  switch (cause.type) {
    case 'moved':
      return `the design has moved toward the limit since: ${cause.result.criterion.text} was proved at ${formatOutward(cause.then, cause.unit)}, and is at ${formatOutward(cause.now, cause.unit)}`;
    case 'no-longer':
      return `${cause.result.criterion.text} held then and does not hold now`;
    case 'tightened':
      return `it proved ${cause.proved.name}, which does not imply ${cause.result.criterion.text}`;
    case 'limit-moved':
      return `the limit of ${cause.result.criterion.text} has come nearer since`;
    case 'not-recorded':
      return `what it proved${cause.result === null ? '' : ` of ${cause.result.criterion.text}`} is not recorded`;
    case 'statement':
      return 'the statement has been changed since';
    case 'document':
      return documentText(cause.path, cause.now);
    case 'undecided':
      return 'nothing can be compared while it is undecided';
  }
}

function uncoveredText({ name, range, tested, unit }: Uncovered): string {
  const run = tested === null ? 'no condition of a run says so' : `run at ${formatOutward(tested, unit)}`;
  return `all of ${name}, ${formatOutward(range, unit)} (${run})`;
}

function untested(requirement: Requirement): Draft {
  const { id, file, idSpan } = requirement;
  return {
    code: 'untested',
    requirement: id,
    message: `${id}: nothing says how it is verified; write - Verify: test (or inspection, analysis, demonstration)`,
    place: { file, span: idSpan },
    fixes: stub(requirement),
  };
}

function stub(requirement: Requirement): readonly Fix[] {
  const edit = attributeLine(requirement, 'Verify: test');
  return edit === null ? [] : [{ title: 'Verify it by test', edits: [edit] }];
}
