/** Judged criteria with their figures as shown and as numbers. */
import type { FactContent } from '../../engine/analysis';
import type { Figures } from '../../engine/criterion';
import type { CriterionResult } from '../../engine/judge-criterion';
import { differenceUnit } from '../../quantity/conversion';
import { formatIn, outwardEnds } from '../../quantity/format';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import { distanceIn, numberIn } from '../numbers';
import type { CriterionLimit, MatrixCriterion, ShownFigure } from './record';
import type { Scene } from './scene';

export function criterionRow(scene: Scene, result: CriterionResult): MatrixCriterion {
  const { criterion, verdict, mode, row, figures } = result;
  const common = { text: criterion.text, verdict, mode, row };
  if (figures === null) {
    const nothing = { low: null, high: null, typical: null, limit: null, margin: null, share: null };
    return { ...common, ...nothing, word: wordOf(scene, result) };
  }
  const { value, typical, unit } = figures;
  return {
    ...common,
    ...endsIn(value, unit),
    typical: interval.equals(value, typical) ? null : endsIn(typical, unit),
    word: null,
    limit: limitOf(figures),
    margin: marginOf(figures),
    share: shareOf(figures),
  };
}

function endsIn(extent: Interval, unit: Unit) {
  const shown = outwardEnds(extent, unit);
  return { low: endIn(extent.low, shown.low, unit), high: endIn(extent.high, shown.high, unit) };
}

function endIn(value: Rational | null, shown: string | null, unit: Unit): ShownFigure | null {
  if (value === null || shown === null) return null;
  return shownFigure(shown, unit, unit.point === 'date' ? null : numberIn(value, unit));
}

/** Parts the digits from the unit behind them. */
function shownFigure(shown: string, { canonical }: Unit, number: number | null): ShownFigure {
  const suffix = ` ${canonical}`;
  return shown.endsWith(suffix)
    ? { digits: shown.slice(0, -suffix.length), unit: canonical, number }
    : { digits: shown, unit: '', number };
}

function limitOf({ relation, low, high, unit }: Figures): CriterionLimit {
  return { relation, low: numberIn(low, unit), high: numberIn(high, unit), unit: unit.canonical };
}

function marginOf({ margin, unit }: Figures): ShownFigure | null {
  if (margin === null) return null;
  const shown = formatIn(margin, unit, 'down', { difference: true });
  return shownFigure(shown, differenceUnit(unit), distanceIn(margin, unit).value);
}

/** Zero of a point's scale is a convention, so nothing is a share of it. */
function shareOf({ margin, low, high, unit }: Figures): number | null {
  const limit = low ?? high;
  if (margin === null || limit === null || unit.point !== null || rational.sign(limit) === 0) return null;
  const share = rational.toDouble(rational.divide(margin, rational.absolute(limit)));
  return Number.isFinite(share) ? share : null;
}

/** The text, yes or no of the only fact that a condition without figures rests on. */
function wordOf({ facts }: Scene, { uses }: CriterionResult): string | null {
  const [name, ...others] = uses;
  if (name === undefined || others.length > 0) return null;
  const values = facts.get(name)?.values ?? [];
  const words = new Set(values.map(({ content }) => plainWord(content)));
  return words.size === 1 ? ([...words][0] ?? null) : null;
}

function plainWord(content: FactContent): string | null {
  if (content.type === 'text') return content.text;
  return content.type === 'boolean' ? (content.boolean ? 'yes' : 'no') : null;
}
