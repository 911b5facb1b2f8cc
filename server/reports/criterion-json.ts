/** A judged criterion for programs: unrounded, in its limit's unit. */

import type { Analysis } from '../engine/analysis';
import type { CriterionResult } from '../engine/judge-criterion';
import { verdictKey } from '../engine/verdict';
import * as rational from '../quantity/rational';
import { distanceIn, extentIn, numberIn } from './numbers';
import { spreadJson } from './range-json';

export function criterionJson(analysis: Analysis, result: CriterionResult) {
  const { criterion, verdict, mode, row, figures } = result;
  const common = { text: criterion.text, verdict: verdictKey(verdict), mode, row };
  if (figures === null)
    return { ...common, value: null, limit: null, margin: null, surplus: null, rss: null, drivers: null };
  const { unit, relation, low, high, margin, surplus } = figures;
  return {
    ...common,
    value: { typical: extentIn(figures.typical, unit), ...extentIn(figures.value, unit), unit: unit.canonical },
    limit: { relation, low: numberIn(low, unit), high: numberIn(high, unit), unit: unit.canonical },
    margin: margin === null ? null : distanceIn(margin, unit),
    surplus: surplus === null ? null : rational.toDouble(surplus),
    ...spreadJson(analysis, result),
  };
}
