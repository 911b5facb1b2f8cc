/** `trial`: verdicts as if the design were otherwise, beside today's; for people and for programs. */

import type { Analysis, RequirementResult } from '../engine/analysis';
import { CHANGES_OF_VERDICT, type ChangeOfVerdict, compareResults } from '../engine/comparison';
import { Lowering } from '../engine/lowering/lowering';
import { type Total, type TotalFigures, totalsOf } from '../engine/totals';
import type { Trial } from '../engine/trial';
import type { ReadTrial } from '../engine/trial-request';
import { type Verdict, verdictKey } from '../engine/verdict';
import { caseText, marginText, worstCaseText } from '../findings/criterion-text';
import { shownUnit } from '../findings/fact-units';
import { shownTitle } from '../findings/requirement-text';
import { formatOutward } from '../quantity/format';
import { summary } from './check-json';
import { criterionJson } from './criterion-json';
import { extentIn } from './numbers';
import type { Mark, TextStyle } from './text-style';
import { countsText } from './verdict-counts';

/** Requirements that fare otherwise than today, kind by kind, worst first. */
export interface TrialReport {
  readonly request: ReadTrial;
  readonly now: Analysis;
  readonly tried: Analysis;
  readonly changed: ReadonlyMap<ChangeOfVerdict, readonly ComparedResult[]>;
  readonly totals: readonly ComparedTotal[];
}

export interface ComparedResult {
  readonly before: RequirementResult;
  readonly after: RequirementResult;
}

export interface ComparedTotal {
  readonly name: string;
  readonly before: Total;
  readonly after: Total;
}

export function trialReport(now: Analysis, request: ReadTrial, trial: Trial): TrialReport {
  const lowering = new Lowering(trial.product);
  const changed = new Map<ChangeOfVerdict, ComparedResult[]>(CHANGES_OF_VERDICT.map((change) => [change, []]));
  for (const pair of trial.touched) changed.get(compareResults(pair.before, pair.after))?.push(pair);
  const before = totalsOf(now.lowering);
  const after = totalsOf(lowering);
  const totals = before.flatMap((total, index) => {
    const other = after[index];
    return other === undefined ? [] : [{ name: total.name, before: total, after: other }];
  });
  const tried: Analysis = { ...now, product: trial.product, requirements: trial.requirements, lowering };
  return { request, now, tried, changed, totals };
}

const HEADINGS: Readonly<Record<Exclude<ChangeOfVerdict, 'same'>, { readonly text: string; readonly mark: Mark }>> = {
  broken: { text: 'broken', mark: 'bad' },
  undecided: { text: 'undecided by it', mark: 'doubtful' },
  eroded: { text: 'with less margin', mark: 'doubtful' },
  repaired: { text: 'repaired', mark: 'good' },
  eased: { text: 'with more margin', mark: 'good' },
};

export function trialText(report: TrialReport, productName: string, style: TextStyle): string {
  const { request, now, tried, changed } = report;
  const without = request.changes.without.map(({ table, id }) => `  without ${table}.${id}`);
  const given = request.given.map(({ name, was, is }) => `  ${name} = ${is} (now ${was})`);
  const head = [style.paint('heading', `${productName}, as if`), ...given, ...without].join('\n');
  const blocks = CHANGES_OF_VERDICT.flatMap((change) => {
    const own = changed.get(change) ?? [];
    return change === 'same' || own.length === 0 ? [] : [blockText(change, own, style)];
  });
  const same =
    now.requirements.length -
    [...changed].reduce((sum, [change, own]) => sum + (change === 'same' ? 0 : own.length), 0);
  const counts = [
    same === now.requirements.length ? 'No requirement changes.' : `${same} as they are.`,
    `Today     ${countsText(now.requirements, style)}.`,
    `On trial  ${countsText(tried.requirements, style)}. Nothing was written.`,
  ].join('\n');
  const totals = report.totals.map((total) => totalText(total, now)).filter((text) => text !== null);
  return `${[head, ...blocks, ...(totals.length === 0 ? [] : [totals.join('\n')]), counts].join('\n\n')}\n`;
}

function blockText(
  change: Exclude<ChangeOfVerdict, 'same'>,
  results: readonly ComparedResult[],
  style: TextStyle,
): string {
  const { text, mark } = HEADINGS[change];
  const lines = results.flatMap(({ before, after }) => resultLines(before, after, style));
  return [style.paint(mark, text), ...lines].join('\n');
}

function resultLines(before: RequirementResult, after: RequirementResult, style: TextStyle): readonly string[] {
  const { requirement } = after;
  const verdicts = verdictsText(before.verdict, after.verdict);
  const head = `  ${requirement.id}  ${shownTitle(requirement)}: ${verdicts}`;
  const criteria = after.criteria.flatMap((criterion, index) => {
    const was = before.criteria[index];
    const [then, is] = [was?.figures ?? null, criterion.figures];
    if (then === null || is === null || was === undefined) return [];
    const [a, b] = [`${worstCaseText(then)}${caseText(was)}`, `${worstCaseText(is)}${caseText(criterion)}`];
    const margins = marginText(is) === null ? '' : `, margin ${marginText(then) ?? 'none'} → ${marginText(is)}`;
    return a === b && marginText(then) === marginText(is)
      ? []
      : [`    ${criterion.criterion.text}: ${a} → ${b}${margins}`];
  });
  const reasons = after.verdict === 'undecided' && before.verdict !== 'undecided' ? whyUndecided(after) : [];
  return [head, ...criteria.map((line) => style.paint('quiet', line)), ...reasons];
}

function verdictsText(before: Verdict, after: Verdict): string {
  return before === after ? `still ${after}` : `${before} → ${after}`;
}

function whyUndecided({ reasons, criteria }: RequirementResult): readonly string[] {
  const all = [...reasons, ...criteria.flatMap((criterion) => criterion.reasons)];
  return [...new Set(all.map(({ message }) => message))].map((message) => `    ${message}`);
}

function totalText({ name, before, after }: ComparedTotal, { product }: Analysis): string | null {
  if (before.figures === null && after.figures === null) return null;
  const shown = ({ figures, reasons }: Total) => {
    if (figures === null) return `undecided (${reasons[0]?.message ?? 'no figure'})`;
    return formatOutward(figures.worst, unitOf(figures, product));
  };
  const [was, is] = [shown(before), shown(after)];
  return `${name}: ${was}${was === is ? '' : ` → ${is}`}`;
}

function unitOf({ unit, dimension }: TotalFigures, { units }: Analysis['product']) {
  return shownUnit(undefined, unit, dimension, units);
}

export function trialJson(report: TrialReport, productName: string): Readonly<Record<string, unknown>> {
  const { request, now, tried, changed, totals } = report;
  const ids = (change: ChangeOfVerdict) => (changed.get(change) ?? []).map(({ after }) => after.requirement.id);
  const different = CHANGES_OF_VERDICT.flatMap((change) => (change === 'same' ? [] : (changed.get(change) ?? [])));
  return {
    schema: 1,
    product: productName,
    changes: request.given,
    without: request.changes.without.map(({ table, id }) => `${table}.${id}`),
    summary: { now: summary(now.requirements, null), tried: summary(tried.requirements, null) },
    broken: ids('broken'),
    undecided: ids('undecided'),
    eroded: ids('eroded'),
    repaired: ids('repaired'),
    eased: ids('eased'),
    requirements: different.map(({ before, after }) => ({
      id: after.requirement.id,
      title: after.requirement.title,
      now: stateJson(now, before),
      tried: stateJson(tried, after),
    })),
    totals: totals.map(({ name, before, after }) => ({
      name,
      now: totalJson(before, now),
      tried: totalJson(after, tried),
    })),
  };
}

function stateJson(analysis: Analysis, { verdict, basis, evidence, criteria }: RequirementResult) {
  return {
    verdict: verdictKey(verdict),
    basis,
    evidence: verdict === 'not applicable' ? null : evidence.state,
    criteria: criteria.map((criterion) => criterionJson(analysis, criterion)),
  };
}

function totalJson({ figures }: Total, { product }: Analysis) {
  if (figures === null) return null;
  const unit = unitOf(figures, product);
  return { typical: extentIn(figures.typical, unit), ...extentIn(figures.worst, unit), unit: unit.canonical };
}
