/** Which findings there are: those of one document, which rest on it and on what they look up, and those of the whole product. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import { attributeValues } from './attribute-values';
import { causes, codeOf } from './causes';
import { contradictions } from './contradiction';
import { documentProblems, paragraphsWithoutId } from './documents';
import { evidenceFindings } from './evidence';
import type { Draft } from './finding';
import { hidingNames } from './hides';
import { duplicateIds, identities } from './identity';
import { methodFindings } from './methods';
import { withoutSource } from './no-source';
import { openRequirements } from './open';
import { openPoints } from './open-points';
import { overSpecifiedLimits } from './over-specified';
import { derivationCycles, derivations } from './parents';
import { passedOver } from './passed-over';
import { readingQuestions } from './reading';
import { runFindings } from './runs';
import { brokenLimits } from './unmet';
import { unneeded } from './unneeded';
import { unusedFacts } from './unused';
import { agreementFindings, waiverFindings } from './waivers';
import { wording } from './wording';

export type PartRule = (analysis: Analysis, part: AnalysisPart) => Iterable<Draft>;

/** What they look up outside the part they look up by name. */
export const PART_RULES: readonly PartRule[] = [
  (_, { document }) => (document === null ? [] : documentProblems(document)),
  duplicateIds,
  (_, part) => readingQuestions(part),
  contradictions,
  derivations,
  (_, part) => openRequirements(part),
  openPoints,
  (_, part) => attributeValues(part),
  methodFindings,
  evidenceFindings,
  (_, part) => waiverFindings(part),
  (_, part) => agreementFindings(part),
  withoutSource,
  wording,
];

/** They ask of many names whether there are such, and are asked again when any name comes or goes. */
export const NAME_RULES: readonly PartRule[] = [hidingNames, passedOver];

/** What is broken, and with ranges what would mend it. */
export const RANGE_RULES: readonly ((
  analysis: Analysis,
  part: AnalysisPart,
  ranges: RangeAnalysis | null,
) => Iterable<Draft>)[] = [brokenLimits];

/** @param ranges how far figures may move; without them nothing is said of that */
export function* productDrafts(analysis: Analysis, ranges: RangeAnalysis | null): Iterable<Draft> {
  for (const document of analysis.product.setAside) yield* documentProblems(document);
  yield* paragraphsWithoutId(analysis);
  yield* identities(analysis);
  yield* causes(analysis);
  yield* derivationCycles(analysis);
  yield* runFindings(analysis);
  for (const note of analysis.notes) yield { ...note, code: codeOf(note) };
  if (ranges !== null) yield* beyondNeed(analysis, ranges);
}

/** What the design has more of than anybody asks for. */
function* beyondNeed(analysis: Analysis, ranges: RangeAnalysis): Iterable<Draft> {
  yield* overSpecifiedLimits(analysis, ranges);
  yield* unneeded(analysis, ranges);
  yield* unusedFacts(ranges);
}
