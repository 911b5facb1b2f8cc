/** Judges a condition that is no plain comparison (`or`, `any`, yes/no) by looking at parts of its box until it is sure. */
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import * as rational from '../quantity/rational';
import type { Judgement } from './criterion';
import { type Box, decide } from './enclosure';
import type { Extent, ExtremeFinder } from './extremes';
import { noValueReasons } from './no-value';
import type { Condition, Variable } from './term';

/** Parts of the box looked at before the answer is “not shown”. */
const MAXIMUM_PARTS = 1_000;

export function judgeCondition(finder: ExtremeFinder, condition: Condition): Judgement {
  const full = decideOver(finder, condition, 'full');
  if (typeof full === 'object') return full;
  if (full === 'everywhere') return plain('met');
  const typical = decideOver(finder, condition, 'typical');
  if (typeof typical === 'object') return typical;
  if (typical === 'somewhere not') return plain('unmet');
  const shown = typical === 'everywhere' && full === 'somewhere not';
  return { ...plain('at risk'), remark: shown ? null : 'not-shown' };
}

function plain(verdict: Judgement['verdict']): Judgement {
  return { verdict, figures: null, reasons: [], remark: null };
}

type Answer = 'everywhere' | 'somewhere not' | 'not shown' | Judgement;

function decideOver(finder: ExtremeFinder, condition: Condition, extent: Extent): Answer {
  const parts: ReadonlyMap<Variable, Interval>[] = [
    new Map([...condition.support].map((variable) => [variable, finder.extentOf(variable, extent)])),
  ];
  for (let looked = 0; looked < MAXIMUM_PARTS; looked += 1) {
    const part = parts.shift();
    if (part === undefined) return 'everywhere';
    finder.spend(part.size);
    const decided = decide(condition, boxOf(part));
    if (decided === true) continue;
    if (decided !== null && typeof decided === 'object') {
      return {
        verdict: 'undecided',
        figures: null,
        reasons: noValueReasons(null, decided),
        remark: null,
      };
    }
    if (decided === false || failsAtACorner(condition, part)) return 'somewhere not';
    const halves = split(part);
    if (halves === null) return 'not shown';
    parts.push(...halves);
  }
  return 'not shown';
}

function boxOf(part: ReadonlyMap<Variable, Interval>): Box {
  return { extentOf: (variable) => part.get(variable) ?? variable.full, memo: new Map(), tighten: () => null };
}

/** The two opposite corners are looked at: where something fails for large or for small values, one of them shows it. */
function failsAtACorner(condition: Condition, part: ReadonlyMap<Variable, Interval>): boolean {
  return (['low', 'high'] as const).some((side) => {
    const corner = new Map([...part].map(([variable, extent]) => [variable, pointAt(extent, side)]));
    return decide(condition, boxOf(corner)) === false;
  });
}

function pointAt(extent: Interval, side: 'low' | 'high'): Interval {
  const end = extent[side] ?? extent.low ?? extent.high ?? rational.ZERO;
  return interval.point(end);
}

function split(part: ReadonlyMap<Variable, Interval>): readonly ReadonlyMap<Variable, Interval>[] | null {
  let widest: Variable | null = null;
  let width = 0;
  for (const [variable, { low, high }] of part) {
    if (low === null || high === null) return null;
    const own = rational.toDouble(rational.subtract(high, low));
    if (own > width) [widest, width] = [variable, own];
  }
  if (widest === null) return null;
  const { low, high } = part.get(widest) as { low: rational.Rational; high: rational.Rational };
  const middle = rational.divide(rational.add(low, high), rational.integer(2));
  return [new Map(part).set(widest, { low, high: middle }), new Map(part).set(widest, { low: middle, high })];
}
