/** All findings of an analysis, in one order: by file, place, then code. */
import type { FindingCode } from '../../grammar/findings';
import type { Analysis } from '../engine/analysis';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import { relate } from '../engine/relations';
import type { DocumentModel } from '../model/document';
import type { PlacedProblem } from '../model/place';
import { attributeValues } from './attribute-values';
import { causes, codeOf } from './causes';
import { contradictions } from './contradiction';
import { documentProblems } from './documents';
import { evidenceFindings } from './evidence';
import type { Draft, Finding } from './finding';
import { hidingNames } from './hides';
import { identities } from './identity';
import { methodFindings } from './methods';
import { withoutSource } from './no-source';
import { openRequirements } from './open';
import { openPoints } from './open-points';
import { overSpecifiedLimits } from './over-specified';
import { derivations } from './parents';
import { readingQuestions } from './reading';
import { runFindings } from './runs';
import { severityOf } from './severity';
import { brokenLimits } from './unmet';
import { unneeded } from './unneeded';
import { unusedFacts } from './unused';
import { agreementFindings, waiverFindings } from './waivers';
import { wording } from './wording';

/**
 * @param documents every document read
 * @param outside problems of files that could not become documents: encoding, size, configuration
 * @param ranges how far figures may move; without them nothing is said of that
 */
export function collectFindings(
  analysis: Analysis,
  documents: readonly DocumentModel[],
  outside: readonly PlacedProblem[],
  ranges: RangeAnalysis | null,
): readonly Finding[] {
  const relations = relate(analysis.lowering, analysis.requirements, analysis.limits);
  const drafts: Draft[] = [
    ...outside.map((problem) => ({
      code: codeOf(problem),
      message: problem.message,
      place: { file: problem.file, span: problem.span },
    })),
    ...documentProblems(analysis, documents),
    ...identities(analysis),
    ...readingQuestions(analysis),
    ...causes(analysis),
    ...brokenLimits(analysis, ranges),
    ...(ranges === null ? [] : aboutRanges(analysis, ranges)),
    ...contradictions(relations),
    ...derivations(relations),
    ...hidingNames(analysis),
    ...openRequirements(analysis),
    ...openPoints(analysis),
    ...attributeValues(analysis),
    ...methodFindings(analysis),
    ...runFindings(analysis),
    ...evidenceFindings(analysis),
    ...waiverFindings(analysis),
    ...agreementFindings(analysis),
    ...withoutSource(analysis),
    ...wording(analysis),
    ...analysis.notes.map((note) => ({ ...note, code: codeOf(note) })),
  ];
  const byId = new Map(
    [...analysis.product.requirements].reverse().map((requirement) => [requirement.id, requirement]),
  );
  const findings = toldOnce(drafts).flatMap((draft) => {
    const requirement = draft.requirement === undefined ? null : (byId.get(draft.requirement) ?? null);
    const severity = severityOf(draft, analysis.product.configuration, requirement);
    return severity === null ? [] : [settled(draft, severity)];
  });
  return findings.sort(byPlace);
}

/** What the design has more of than anybody asks for. */
function aboutRanges(analysis: Analysis, ranges: RangeAnalysis): readonly Draft[] {
  return [...overSpecifiedLimits(analysis, ranges), ...unneeded(analysis, ranges), ...unusedFacts(ranges)];
}

/** Found in a document and again by what leans on it; the second says what is left undecided. */
const TOLD_TWICE: readonly FindingCode[] = ['split-value', 'duplicate-id'];

function toldOnce(drafts: readonly Draft[]): readonly Draft[] {
  const placeOf = ({ code, place }: Draft) => `${code} ${place.file} ${place.span.start} ${place.span.end}`;
  const lastAt = new Map(drafts.map((draft) => [placeOf(draft), draft]));
  return drafts.filter((draft) => !TOLD_TWICE.includes(draft.code) || lastAt.get(placeOf(draft)) === draft);
}

function settled(draft: Draft, severity: Finding['severity']): Finding {
  const { code, message, place, related = [], fixes = [] } = draft;
  return { code, severity, requirement: draft.requirement ?? null, message, place, related, fixes };
}

function byPlace(a: Finding, b: Finding): number {
  return (
    compare(a.place.file, b.place.file) ||
    a.place.span.start - b.place.span.start ||
    a.place.span.end - b.place.span.end ||
    compare(a.code, b.code) ||
    compare(a.message, b.message)
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
