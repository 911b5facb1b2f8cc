/** Requirements whose terms are made anew when a figure moves: which rows count, whether they apply. They are judged anew where it is tried. */
import type { Fact } from '../../model/fact';
import type { Product } from '../../model/product';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Part } from '../claims';
import type { ExtremeFinder } from '../extremes';
import { Lowering } from '../lowering/lowering';
import type { Condition, Variable } from '../term';
import { changedProduct, judgedAnew } from '../trial';
import type { BoundEnd } from './allowed';
import { type Demand, demandOf, holds, supportOf } from './demand';
import { extentsBetween, type Figure } from './figure';
import { changeTo, figuresOfFact, ownKinds, variablesOf } from './figures';
import { beyond, furthest } from './search';

/** Names and facts gone through in all trials together: counted, never timed. */
const MOST_WORK = 100_000;
/** How often the terms may change while a figure moves one way. */
const MOST_PIECES = 8;
/** Judges requirements anew for moved figures, while there is work left. */
export class Remaker {
  private work = 0;

  constructor(private readonly product: Product) {}

  /** Whether the requirement is met with the figure there; null when the work is used up. */
  isMet(demand: Demand, figure: Figure, at: Rational): boolean | null {
    if (!this.spend(demand)) return null;
    const { verdict } = judgedAnew(this.product, demand.result, changeTo(figure, at));
    return verdict === 'met' || (verdict === 'waived' && demand.result.verdict === 'waived');
  }

  /** The furthest place up to which it stays met; null for no end, *unknown* where that was not found out. */
  end(demand: Demand, figure: Figure, direction: 1 | -1, limit: BoundEnd | null): BoundEnd | null | 'unknown' {
    let from = figure.now;
    for (let count = 0; count < MOST_PIECES; count += 1) {
      const piece = this.piece(demand, figure, from);
      if (piece === null) return 'unknown';
      const test = (to: Rational | null) => staysIn(piece, from, to, direction);
      const end = furthest(test, from, direction, limit?.value ?? null, figure.value.unit.factor);
      if (end === null || (limit !== null && rational.equals(end.value, limit.value))) return limit;
      const next = beyond(end.value, direction, figure.value.unit.factor);
      if (limit !== null && rational.compare(next, limit.value) * direction > 0) return limit;
      const met = this.isMet(demand, figure, next);
      if (met === null) return 'unknown';
      if (!met) return { ...end, by: demand.requirement.id };
      from = next;
    }
    return 'unknown';
  }

  private spend({ result }: Demand): boolean {
    this.work += result.uses.size + this.product.facts.size / 16;
    return this.work <= MOST_WORK;
  }

  /** The terms as they are with the figure there; null where a value decides them that moves with it. */
  private piece(demand: Demand, figure: Figure, at: Rational): Piece | null {
    if (!this.spend(demand)) return null;
    const moved = changedProduct(this.product, changeTo(figure, at));
    const lowering = new Lowering(moved, 'variables');
    const made = demandOf(lowering, demand.result);
    const fact = moved.facts.get(figure.fact.name) as Fact;
    const own = figuresOfFact(lowering, fact, ownKinds(moved)).find(
      ({ name, movement }) => name === figure.name && movement === figure.movement,
    );
    if (own === undefined || (made.appliesOverSpread && made.applying.has(figure.fact.name))) return null;
    const variables = variablesOf(own);
    if (variables.some((variable) => lowering.held.has(variable))) return null;
    return pieceOf(lowering, own, made.parts, variables);
  }
}

/** Terms that stay as they are while these conditions hold as they do. */
interface Piece {
  readonly figure: Figure;
  readonly finder: ExtremeFinder;
  readonly parts: readonly Part[];
  readonly conditions: readonly { readonly condition: Condition; readonly holds: boolean | null }[];
}

function pieceOf(lowering: Lowering, figure: Figure, parts: readonly Part[], variables: readonly Variable[]): Piece {
  const conditions = new Set(variables.flatMap((variable) => [...(lowering.heldConditions.get(variable) ?? [])]));
  const finder = lowering.extremes;
  return {
    figure,
    finder,
    parts: parts.filter((part) => variables.some((variable) => supportOf(part).has(variable))),
    conditions: [...conditions].map((condition) => ({ condition, holds: finder.decide(condition, 'full') })),
  };
}

function staysIn({ figure, finder, parts, conditions }: Piece, from: Rational, to: Rational | null, direction: 1 | -1) {
  const moved = finder.with(extentsBetween(figure, from, to, direction));
  return (
    conditions.every((held) => moved.decide(held.condition, 'full') === held.holds) &&
    parts.every((part) => holds(moved, part))
  );
}
