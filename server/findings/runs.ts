/** result-disagrees, off-model, and names in records that mean nothing or something of another unit. */
import { type Analysis, factResultNamed } from '../engine/analysis';
import { factNamed, fits, knownValue } from '../engine/evidence/measured';
import { worstCaseThen } from '../engine/evidence/proved';
import type { EvidenceItem } from '../engine/evidence/state';
import type { CriterionResult } from '../engine/judge-criterion';
import { atRoot } from '../engine/lowering/environment';
import { nearestNames } from '../engine/lowering/names';
import type { AnalysisPart } from '../engine/parts';
import { nearestWords } from '../model/nearest';
import { isYetToCome, type RunValue, type TestRun, type Verification } from '../model/verification';
import { formatOutward } from '../quantity/format';
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Unit } from '../quantity/unit';
import { valueText } from '../quantity/value-text';
import { shortfall, subjectOf } from './describe';
import type { Draft } from './finding';

export function* runFindings(analysis: Analysis): Iterable<Draft> {
  for (const record of analysis.product.verifications.values()) {
    yield* unknownRequirements(analysis, record);
    for (const run of record.runs) yield* [...yetToCome(analysis, record, run), ...wrongNames(analysis, record, run)];
  }
  yield* duplicates(analysis);
  yield* disagreements(analysis);
  yield* offModel(analysis);
}

function* unknownRequirements({ product, index }: Analysis, { id, file, verifies }: Verification): Iterable<Draft> {
  for (const { text, span } of verifies) {
    if (index().withId(text).length > 0) continue;
    const [nearest] = nearestWords(
      text,
      product.requirements.map((requirement) => requirement.id),
    );
    yield {
      code: 'unknown-name',
      message: `${id} verifies ${text}, and there is no such requirement${nearest === undefined ? '' : `; the nearest is ${nearest}`}`,
      place: { file, span },
      fixes: nearest === undefined ? [] : [{ title: `Write ${nearest}`, edits: [{ span, text: nearest }] }],
    };
  }
}

function* yetToCome({ product }: Analysis, { id, file }: Verification, run: TestRun): Iterable<Draft> {
  const { today } = product.surroundings;
  if (!isYetToCome(run, today)) return;
  const counts = run.result === 'fail' ? 'it counts as failed all the same' : 'it proves nothing until then';
  yield {
    code: 'bad-value',
    message: `${id}: today is ${today}, so no run of ${run.date} has taken place; ${counts}; write the day on which it was run`,
    place: { file, span: run.dateSpan },
  };
}

/** `against` keeps names as they were then, so only what a person writes is looked at. */
function* wrongNames(analysis: Analysis, { id, file }: Verification, run: TestRun): Iterable<Draft> {
  for (const one of [...run.measured, ...run.at]) {
    const named = factNamed(analysis.product, one.name);
    if (named === null) yield unknownName(analysis, id, file, one);
    const value = knownValue(one);
    if (named === null || value === null || fits(analysis.lowering, named, value)) continue;
    yield {
      code: 'unit-mismatch',
      message: `${id}: ${one.name} cannot be ${valueText(value)}; in the design it is ${designText(analysis, named.fact.name)}`,
      place: { file, span: one.span },
      related: [
        { place: { file: named.fact.file, span: named.fact.span }, message: `${named.fact.name} in the design` },
      ],
    };
  }
}

function unknownName({ lowering }: Analysis, id: string, file: string, { name, nameSpan: span }: RunValue): Draft {
  const [nearest] = nearestNames(lowering, name, atRoot(file, null));
  const hint = nearest === undefined ? '' : `; the nearest is ${nearest}`;
  return {
    code: 'unknown-name',
    message: `${id}: ${name} is no fact of the design${hint}`,
    place: { file, span },
    fixes: nearest === undefined ? [] : [{ title: `Write ${nearest}`, edits: [{ span, text: nearest }] }],
  };
}

function designText(analysis: Analysis, name: string): string {
  const found = factResultNamed(analysis, name);
  const content = found?.values[0]?.content;
  if (content?.type === 'quantity' && content.unit !== null) return formatOutward(content.full, content.unit);
  return content?.type === 'quantity'
    ? 'of another dimension'
    : `a ${content?.type === 'boolean' ? 'yes or no' : (content?.type ?? 'value')}`;
}

/** Found on each; the first is the one that others mean. */
function* duplicates({ product }: Analysis): Iterable<Draft> {
  for (const [id, all] of product.duplicateVerifications) {
    for (const one of all)
      yield {
        code: 'duplicate-id',
        message: `${id} is recorded ${all.length} times; the first is the one that others mean`,
        place: { file: one.file, span: one.idSpan },
        related: all
          .filter((other) => other !== one)
          .map((other) => ({ place: { file: other.file, span: other.idSpan }, message: `${id} stands here too` })),
      };
  }
}

function* disagreements(analysis: Analysis): Iterable<Draft> {
  const runs = latestRuns(analysis);
  const explained = new Set(runs.flatMap(({ item }) => (item.disagreements.length === 0 ? [item.run] : [])));
  for (const { requirement, item } of runs) {
    // A run fails for whichever of its requirements: only one that failed for none of them disagrees.
    if (item.run.result === 'fail' && explained.has(item.run)) continue;
    for (const { result, measured } of item.disagreements.slice(0, 1)) {
      const { id, file } = item.verification;
      const says = item.run.result === 'pass' ? 'passed' : 'failed';
      yield {
        code: 'result-disagrees',
        requirement,
        message: `${requirement}: ${id} of ${item.run.date} ${says}, but with the measured values ${measuredText(measured)}`,
        place: { file, span: item.run.resultSpan },
        related: [{ place: result.criterion.place, message: `${result.criterion.text} is asked here` }],
      };
    }
  }
}

/** What a measured value makes of a criterion, in words. */
export function measuredText(measured: CriterionResult): string {
  const { criterion, figures, verdict } = measured;
  if (verdict === 'met') return `${criterion.text} holds`;
  if (figures === null) return `${criterion.text} does not hold`;
  const { is, missed } = shortfall(figures, 'value');
  return `${subjectOf(measured)} is ${is}, ${missed}`;
}

function* offModel(analysis: Analysis): Iterable<Draft> {
  const told = new Set<string>();
  for (const { requirement, modes, item } of latestRuns(analysis)) {
    for (const one of item.run.measured) {
      const { id, file } = item.verification;
      const key = `${file} ${one.nameSpan.start}`;
      const computed = computedRange(analysis, item, modes, one);
      const value = knownValue(one);
      if (told.has(key) || computed === null || value?.type !== 'quantity') continue;
      if (
        value.unit.dimension.key !== computed.unit.dimension.key ||
        interval.intersect(value, computed.extent) !== null
      )
        continue;
      told.add(key);
      yield {
        code: 'off-model',
        requirement,
        message: `${id} of ${item.run.date}: ${one.name} was measured at ${valueText(value)}, wholly outside the ${formatOutward(computed.extent, computed.unit)} that ${computed.isThen ? 'was' : 'is'} computed for it`,
        place: { file, span: one.span },
      };
    }
  }
}

interface Computed {
  readonly extent: Interval;
  readonly unit: Unit;
  /** As the run recorded it, not as it is today. */
  readonly isThen: boolean;
}

function computedRange(
  analysis: Analysis,
  { run, verification }: LatestRun['item'],
  modes: readonly string[],
  { name }: RunValue,
): Computed | null {
  const named = factNamed(analysis.product, name);
  const then = named && worstCaseThen(analysis.lowering, run, named, modes, verification.file);
  if (then !== null) return { extent: then, unit: then.unit, isThen: true };
  const found = named === null ? undefined : factResultNamed(analysis, named.fact.name);
  const contents = (found?.values ?? []).filter(
    ({ mode }) => named?.mode == null || mode === null || mode === named.mode,
  );
  const quantities = contents.flatMap(({ content }) => (content.type === 'quantity' ? [content] : []));
  const [first] = quantities;
  const unit = first?.unit ?? null;
  if (first === undefined || quantities.length < contents.length) return null;
  const extent = quantities.map(({ full }) => full).reduce(interval.hull);
  const value = unit ?? unitOfMeasured(analysis, name);
  return value === null ? null : { extent, unit: value, isThen: false };
}

/** A derived figure is shown in the unit in which it was measured. */
function unitOfMeasured({ product }: Analysis, name: string): Unit | null {
  for (const { runs } of product.verifications.values())
    for (const one of runs.flatMap(({ measured }) => measured)) {
      const value = one.name === name ? knownValue(one) : null;
      if (value?.type === 'quantity') return value.unit;
    }
  return null;
}

interface LatestRun {
  readonly requirement: string;
  /** That the requirement is judged in. */
  readonly modes: readonly string[];
  readonly item: EvidenceItem & { readonly run: TestRun; readonly verification: Verification };
}

function latestRuns({ parts }: Analysis): readonly LatestRun[] {
  return parts.flatMap(runsIn);
}

const runsOf = new WeakMap<AnalysisPart, readonly LatestRun[]>();

/** A part that stands has the runs that it had. */
function runsIn(part: AnalysisPart): readonly LatestRun[] {
  const known = runsOf.get(part) ?? findRuns(part);
  runsOf.set(part, known);
  return known;
}

function findRuns({ requirements }: AnalysisPart): readonly LatestRun[] {
  return requirements.flatMap(({ requirement, evidence, verdict, modes }) =>
    evidence.items.flatMap((item) => {
      const { run, verification } = item;
      if (run === null || verification === null || verdict === 'not applicable') return [];
      return [{ requirement: requirement.id, modes, item: { ...item, run, verification } }];
    }),
  );
}
