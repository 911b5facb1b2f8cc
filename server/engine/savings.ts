/** What a change of one figure would save: totals of the product that fall. */
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Analysis } from './analysis';
import { Lowering } from './lowering/lowering';
import type { Figure } from './ranges/figure';
import { changeTo } from './ranges/figures';
import { type TotalFigures, totalsOf } from './totals';
import { changedProduct } from './trial';

export interface Saving {
  /** The total's name: `cost`. */
  readonly total: string;
  /** In base units; greater than zero. */
  readonly by: Rational;
  readonly figures: TotalFigures;
}

/** What moving the figure there would save. */
export type SavingsOf = (figure: Figure, at: Rational) => readonly Saving[];

/** Figures tried at the most: each makes the totals anew. */
const MOST_TRIED = 60;

export function savingsIn({ product, lowering }: Analysis): SavingsOf {
  const { result: totals, uses } = lowering.tracked(() => totalsOf(lowering));
  const touched = lowering.restsOn(uses);
  let tried = 0;
  return (figure, at) => {
    if (!touched.has(figure.fact.name) || tried >= MOST_TRIED) return [];
    tried += 1;
    const changed = totalsOf(new Lowering(changedProduct(product, changeTo(figure, at))));
    return totals.flatMap(({ name, figures }, index) => {
      const [now, then] = [figures?.worst.high ?? null, changed[index]?.figures?.worst.high ?? null];
      if (figures === null || now === null || then === null || rational.compare(then, now) >= 0) return [];
      return [{ total: name, by: rational.subtract(now, then), figures }];
    });
  };
}
