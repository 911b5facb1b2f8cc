/** failed, untested, planned, stale, partial: what evidence there is of a requirement, and what it lacks. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { EvidenceItem, StaleCause, Uncovered } from '../engine/evidence/state';
import type { Requirement } from '../model/requirement';
import type { TestRun, Verification } from '../model/verification';
import { formatOutward } from '../quantity/format';
import { type Fix, spanOf } from '../syntax/span';
import { changesSince } from './changes-since';
import type { Draft, Related } from './finding';

/** One finding a requirement, for the weakest of its evidence. */
export function* evidenceFindings(analysis: Analysis): Iterable<Draft> {
  for (const result of analysis.requirements) {
    const { requirement, evidence, verdict } = result;
    if (verdict === 'not applicable') continue;
    if (evidence.state === 'untested' && verdict !== 'open') yield untested(requirement);
    const weakest = evidence.items.filter(({ state }) => state === evidence.state);
    for (const item of weakest.slice(0, 1)) yield* ofItem(analysis, result, item);
  }
}

function* ofItem(analysis: Analysis, result: RequirementResult, item: EvidenceItem): Iterable<Draft> {
  const { id } = result.requirement;
  switch (item.state) {
    case 'failed':
      if (item.disagreements.length === 0 || item.run?.result === 'fail')
        yield draft(result, item, 'failed', `${id}: ${runText(item)} failed`);
      return;
    case 'planned':
      // An open requirement says so itself.
      if (result.verdict !== 'open') yield draft(result, item, 'planned', `${id}: ${plannedText(item)}`);
      return;
    case 'stale': {
      const [cause] = item.causes.filter(({ type }) => type !== 'undecided');
      if (cause === undefined) return;
      const { text, related } = changesSince(analysis, item.run, result);
      yield draft(result, item, 'stale', `${id}: ${runText(item)} passed, but ${causeText(cause)}${text}`, related);
      return;
    }
    case 'partial':
      yield draft(
        result,
        item,
        'partial',
        `${id}: ${runText(item)} passed, but not over ${item.uncovered.map(uncoveredText).join(', and not over ')}`,
      );
  }
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

function plannedText({ method, named, verification }: EvidenceItem): string {
  if (verification?.hasUnreadRuns)
    return `${verification.id} has a run that cannot be read, so that nothing is known of it`;
  const record = verification?.id ?? named?.records[0];
  const what = [method, record].filter((word) => word != null).join(' ');
  const isUnknown = verification === null && record !== undefined;
  return isUnknown
    ? `it is to be verified by ${what}, and there is no record ${record}`
    : `it is to be verified by ${what}, and no conclusive run is recorded`;
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
      return cause.isMissing ? `${cause.path} is not there any more` : `${cause.path} has been changed since`;
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

/** A line after the attributes; a requirement of a table has no place for one. */
function stub({ attributes, span, statementSpan }: Requirement): readonly Fix[] {
  if (statementSpan.start === span.start && statementSpan.end === span.end) return [];
  const inList = attributes.some((attribute) => attribute.span.end === span.end);
  const text = `${inList ? '\n' : '\n\n'}- Verify: test`;
  return [{ title: 'Verify it by test', edits: [{ span: spanOf(span.end, span.end), text }] }];
}
