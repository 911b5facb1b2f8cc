/** Figures that would mend a broken requirement, to be tried, and those that a generous one leaves room for. */
import type { OverSpecified } from '../../engine/over-specified';
import type { End } from '../../engine/ranges/affine';
import type { Figure, NeededOf } from '../../engine/ranges/ranges';
import type { RequirementResult } from '../../engine/requirement-result';
import { trial } from '../../engine/trial';
import { readTrial } from '../../engine/trial-request';
import type { Finding } from '../../findings/finding';
import type { ProductAnalysis } from '../../findings/product-analysis';
import { figureText, isMend } from '../../findings/range-text';
import * as rational from '../../quantity/rational';
import { type TrialFigure, trialFigures } from '../trial-figures';
import { type CodeAction, editAction, trialAction } from './action';

/** Figures offered for one requirement at the most, the nearest first. */
const MOST_OFFERED = 3;

export function figureActions(
  whole: ProductAnalysis,
  finding: Finding,
  result: RequirementResult,
): readonly CodeAction[] {
  if (finding.code === 'unmet' || finding.code === 'at-risk') return neededFigures(whole, finding, result);
  return finding.code === 'over-specified' ? relaxedFigures(whole, finding, result) : [];
}

function neededFigures(whole: ProductAnalysis, finding: Finding, result: RequirementResult): readonly CodeAction[] {
  const { id } = result.requirement;
  const needed = whole.ranges?.needed.get(result.requirement) ?? [];
  const figures = trialFigures(whole.analysis, whole.texts, result);
  const found = needed.flatMap((one) => {
    const value = neededValue(one, figures);
    return value !== null && isMet(whole, id, one.figure.name, value) ? [{ name: one.figure.name, value }] : [];
  });
  return found
    .slice(0, MOST_OFFERED)
    .map((tried) => trialAction(`Try ${tried.name} at ${tried.value}, which ${id} needs`, finding, id, [tried]));
}

/** The end of the needed range that is nearest to where the figure is, written as the figure is written. */
function neededValue({ figure, range }: NeededOf, figures: readonly TrialFigure[]): string | null {
  if (range.type !== 'range' || !isMend(figure, range)) return null;
  const { low, high } = range;
  const isBelow = high !== null && rational.compare(figure.now, high.value) > 0;
  return isBelow ? writtenAt(figure, high, 'down', figures) : low && writtenAt(figure, low, 'up', figures);
}

/** Null where the end itself is not allowed, and where the figure is not written as one line. */
function writtenAt(
  figure: Figure,
  { value, strict }: End,
  direction: 'up' | 'down',
  figures: readonly TrialFigure[],
): string | null {
  const written = figures.find(({ name }) => name === figure.name)?.written;
  if (strict || written === undefined || figure.movement === 'half-width') return null;
  const behind = /\s*(?:±|\+\s*\d).*$/u.exec(written)?.[0] ?? '';
  return `${figureText(figure, value, direction)}${behind}`;
}

/** What is shown is rounded, so it is judged before it is offered. */
function isMet(whole: ProductAnalysis, id: string, name: string, value: string): boolean {
  const touched = tried(whole, name, value);
  return touched?.some(({ after }) => after.requirement.id === id && after.verdict === 'met') ?? false;
}

function relaxedFigures(whole: ProductAnalysis, finding: Finding, result: RequirementResult): readonly CodeAction[] {
  const { analysis, ranges, texts } = whole;
  if (ranges === null) return [];
  const own = ranges.overSpecified.filter((one) => one.result === result);
  const figures = trialFigures(analysis, texts, result);
  const named = new Map(own.flatMap((one) => relaxation(whole, one, figures).map((figure) => [figure.name, figure])));
  return [...named.values()].flatMap(({ name, value, from }) => [
    editAction(`Relax ${name} to ${value}`, finding, from.place.file, [{ span: from.place.span, text: value }]),
    trialAction(`Try ${name} at ${value}`, finding, result.requirement.id, [{ name, value }]),
  ]);
}

interface Relaxed {
  readonly name: string;
  readonly value: string;
  readonly from: TrialFigure;
}

function relaxation(
  whole: ProductAnalysis,
  { ranges: { figure }, end }: OverSpecified,
  figures: readonly TrialFigure[],
): readonly Relaxed[] {
  const direction = rational.compare(end.value, figure.now) > 0 ? 'down' : 'up';
  const value = writtenAt(figure, end, direction, figures);
  const from = figures.find(({ name }) => name === figure.name);
  if (value === null || from === undefined || !keepsVerdicts(whole, figure.name, value)) return [];
  return [{ name: figure.name, value, from }];
}

function keepsVerdicts(whole: ProductAnalysis, name: string, value: string): boolean {
  return tried(whole, name, value)?.every(({ before, after }) => after.verdict === before.verdict) ?? false;
}

function tried({ analysis }: ProductAnalysis, name: string, value: string) {
  const read = readTrial(analysis, { values: [{ name, value }], without: [] });
  return 'mistake' in read ? null : trial(analysis.product, analysis.requirements, read.changes).touched;
}
