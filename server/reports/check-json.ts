/** `check --format json`: the verdicts, facts and findings of a product for programs; keys never go missing. */

import type { FactContent, FactResult, RequirementResult } from '../engine/analysis';
import type { EvidenceState } from '../engine/evidence/state';
import { type Verdict, verdictKey } from '../engine/verdict';
import { limitUnits, unitOfFact } from '../findings/fact-units';
import type { Finding } from '../findings/finding';
import { type OpenPoint, openPointsByOwner } from '../findings/open-owners';
import type { ProductAnalysis } from '../findings/product-analysis';
import { listOf } from '../model/requirement';
import { dateOfBase } from '../quantity/calendar';
import * as interval from '../quantity/interval';
import type { Unit } from '../quantity/unit';
import { criterionJson } from './criterion-json';
import { deferred } from './deferred';
import { type Lines, lineIndexes } from './lines';
import { extentIn } from './numbers';
import { factRangesJson } from './range-json';

/** The version of this shape; it changes only when a program that reads it would have to. */
const SCHEMA = 1;

/** To be written with `JSON.stringify`, which makes each entry of the long lists in its turn. */
export function checkJson(result: ProductAnalysis, productName: string): Readonly<Record<string, unknown>> {
  const { analysis, findings } = result;
  const common = jsonContext(result);
  return {
    schema: SCHEMA,
    product: productName,
    phase: analysis.product.configuration.phase,
    summary: summary(analysis.requirements, common.generous),
    requirements: analysis.requirements.map((requirement) => deferred(() => requirementJson(requirement, common))),
    facts: analysis.facts.map((fact) => deferred(() => factJson(fact, common))),
    openPoints: openPointsByOwner(analysis, findings).map((point) => openPointJson(point, common)),
    findings: findings.map((finding) => deferred(() => findingJson(finding, common))),
  };
}

/** What the parts of a report have in common. */
export interface JsonContext {
  readonly result: ProductAnalysis;
  readonly lines: Lines;
  /** The unit of the first limit on each name. */
  readonly units: ReadonlyMap<string, Unit>;
  readonly generous: Generous;
}

export function jsonContext(result: ProductAnalysis): JsonContext {
  const { analysis, ranges, texts } = result;
  return {
    result,
    lines: lineIndexes(texts),
    units: limitUnits(analysis.requirements),
    generous: ranges && new Set(ranges.overSpecified.map((found) => found.result)),
  };
}

/** Requirements that are over-specified; null where that was not asked for. */
type Generous = ReadonlySet<RequirementResult> | null;

/** Counts by verdict; what is not computed yet is null. */
export function summary(
  requirements: readonly RequirementResult[],
  generous: Generous,
): Readonly<Record<string, number | null | Readonly<Record<EvidenceState, number>>>> {
  const count = (verdict: Verdict) => requirements.filter((requirement) => requirement.verdict === verdict).length;
  const bySquares = requirements.filter(({ verdict, basis }) => verdict === 'met' && basis === 'rss').length;
  return {
    requirements: requirements.length,
    met: count('met') - bySquares,
    'met-rss': bySquares,
    'at-risk': count('at risk'),
    unmet: count('unmet'),
    open: count('open'),
    undecided: count('undecided'),
    'not-applicable': count('not applicable'),
    waived: count('waived'),
    'over-specified': generous === null ? null : generous.size,
    evidence: evidenceCounts(requirements),
  };
}

/** Coverage: requirements by the weakest evidence that each has; those that do not apply need none. */
function evidenceCounts(requirements: readonly RequirementResult[]): Readonly<Record<EvidenceState, number>> {
  const applying = requirements.filter(({ verdict }) => verdict !== 'not applicable');
  const count = (state: EvidenceState) => applying.filter(({ evidence }) => evidence.state === state).length;
  return {
    untested: count('untested'),
    planned: count('planned'),
    failed: count('failed'),
    stale: count('stale'),
    partial: count('partial'),
    calculated: count('calculated'),
    verified: count('verified'),
  };
}

export function requirementJson(result: RequirementResult, { lines, generous, result: whole }: JsonContext) {
  const { requirement, verdict, basis, criteria, provisional, evidence, withoutWaiver } = result;
  return {
    id: requirement.id,
    title: requirement.title,
    file: requirement.file,
    line: lines(requirement.file).positionAt(requirement.idSpan.start).line + 1,
    obligation: requirement.obligation,
    derivesFrom: listOf(requirement, 'Derives from'),
    verdict: verdictKey(verdict),
    basis,
    withoutWaiver: withoutWaiver === null ? null : verdictKey(withoutWaiver),
    overSpecified: generous === null ? null : generous.has(result),
    provisional,
    evidence: verdict === 'not applicable' ? null : evidence.state,
    criteria: criteria.map((criterion) => criterionJson(whole.analysis, criterion)),
  };
}

export function factJson({ fact, values }: FactResult, { result: { analysis, ranges }, units, lines }: JsonContext) {
  const given = fact.content.type === 'value' || fact.content.type === 'modes';
  const unitFor = (content: FactContent & { type: 'quantity' }): Unit =>
    unitOfFact(fact, content, units.get(fact.name), analysis.product.units);
  const moded = values.length > 1 || values[0]?.mode !== null;
  return {
    name: fact.name,
    file: fact.file,
    line: lines(fact.file).positionAt(fact.nameSpan.start).line + 1,
    given,
    value: valueJson(hullOf(values.map(({ content }) => content)), unitFor),
    modes: moded
      ? Object.fromEntries(values.map(({ mode, content }) => [mode ?? '', valueJson(content, unitFor)]))
      : null,
    ...factRangesJson(fact.name, ranges),
  };
}

/** All modes together; null where they hold different kinds of things. */
function hullOf(contents: readonly FactContent[]): FactContent {
  const [first, ...rest] = contents;
  if (first === undefined) return { type: 'undecided' };
  return rest.reduce((joined, content) => joinTwo(joined, content), first);
}

function joinTwo(a: FactContent, b: FactContent): FactContent {
  if (a.type === 'quantity' && b.type === 'quantity' && a.dimension === b.dimension) {
    return { ...a, full: interval.hull(a.full, b.full), typical: interval.hull(a.typical, b.typical) };
  }
  return a.type === 'text' && b.type === 'text' && a.text === b.text ? a : { type: 'undecided' };
}

function valueJson(content: FactContent, unitFor: (content: FactContent & { type: 'quantity' }) => Unit): unknown {
  switch (content.type) {
    case 'undecided':
      return null;
    case 'text':
      return { text: content.text };
    case 'boolean':
      return { boolean: content.boolean };
    case 'set':
      return { set: content.items.map((item) => valueJson(item, unitFor)) };
    case 'quantity': {
      const unit = unitFor(content);
      if (unit.point === 'date' && interval.isPoint(content.full) && content.full.low !== null)
        return { date: dateOfBase(content.full.low) };
      return { typical: extentIn(content.typical, unit), ...extentIn(content.full, unit), unit: unit.canonical };
    }
  }
}

function openPointJson({ owner, subject, finding }: OpenPoint, { lines }: JsonContext) {
  const { requirement, message, place } = finding;
  const line = lines(place.file).positionAt(place.span.start).line + 1;
  return { owner, subject, requirement, message, file: place.file, line };
}

export function findingJson({ code, severity, requirement, message, place, related }: Finding, { lines }: JsonContext) {
  const index = lines(place.file);
  return {
    code,
    severity,
    requirement,
    message,
    file: place.file,
    range: { start: index.positionAt(place.span.start), end: index.positionAt(place.span.end) },
    related: related.map((other) => ({
      file: other.place.file,
      line: lines(other.place.file).positionAt(other.place.span.start).line + 1,
      message: other.message,
    })),
  };
}
