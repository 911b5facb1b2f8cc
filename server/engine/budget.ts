/** The terms of a sum, recursively: who takes how much of it, typically and in the worst case. */
import type { Fact } from '../model/fact';
import { lookUp } from '../model/names';
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Unit } from '../quantity/unit';
import type { Expression } from '../syntax/expression/ast';
import { isNoValue } from './enclosure';
import { select, tableOf } from './lowering/aggregates';
import { atRoot, type Environment } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import type { Term } from './term';
import * as term from './term';
import { type Reason, reasonsOf, type TypedQuantity } from './typed';

export interface Budget {
  /** The mode it was drawn up in; null where no mode decides. */
  readonly mode: string | null;
  readonly total: Contribution;
  /** In which figures are shown. */
  readonly unit: Unit | null;
}

export interface Contribution {
  /** `parts.cam`, `supply.losses`, or the expression where it has no name. */
  readonly label: string;
  /** How many identical items it stands for, where that is more than one. */
  readonly items: Rational | null;
  readonly typical: Interval;
  readonly worst: Interval;
  /** Of the whole, at typical values; null where the whole is zero or spread. */
  readonly share: number | null;
  /** Biggest first. */
  readonly parts: readonly Contribution[];
}

/** What keeps a budget from being drawn up. */
export interface NoBudget {
  readonly reasons: readonly Reason[];
}

/** Draws up the budget of a fact in one mode. */
export function budgetOf(lowering: Lowering, fact: Fact, mode: string | null): Budget | NoBudget {
  const typed = lowering.fact(fact, mode, 'item');
  const reasons = reasonsOf(typed);
  if (reasons !== null) return { reasons };
  if (typed.type !== 'quantity') return { reasons: [] };
  const drawn = new BudgetMaker(lowering).contribution(fact.name, null, typed.term, piecesOf(fact, mode));
  return { mode, total: withShares(drawn, middleOf(drawn.typical)), unit: typed.unit };
}

/** Something that may be parted further: an expression where it stands, and what its value is multiplied by. */
interface Piece {
  readonly expression: Expression;
  readonly environment: Environment;
  readonly wrap: (value: Term) => Term;
}

interface Part {
  readonly label: string;
  readonly items: Rational | null;
  readonly value: Term;
  readonly inside: readonly Piece[];
}

function piecesOf(fact: Fact, mode: string | null): readonly Piece[] {
  if (fact.content.type !== 'expression') return [];
  const environment: Environment = { ...atRoot(fact.file, mode), scope: fact.scope };
  return [{ expression: fact.content.expression, environment, wrap: (value) => value }];
}

/** Past this depth a budget is no overview any more. */
const MAXIMUM_DEPTH = 12;

class BudgetMaker {
  private depth = 0;

  constructor(private readonly lowering: Lowering) {}

  contribution(label: string, items: Rational | null, value: Term, inside: readonly Piece[]): Contribution {
    const parts = this.depth >= MAXIMUM_DEPTH ? [] : inside.flatMap((piece) => this.split(piece));
    this.depth += 1;
    const made =
      parts.length > 1 ? parts.map((part) => this.contribution(part.label, part.items, part.value, part.inside)) : [];
    const only =
      parts.length === 1 && parts[0] !== undefined ? this.contribution(label, items, value, parts[0].inside).parts : [];
    this.depth -= 1;
    const sorted = [...made].sort((a, b) => rational.compare(sizeOf(b), sizeOf(a)));
    return {
      label,
      items,
      typical: this.extent(value, 'typical'),
      worst: this.extent(value, 'full'),
      share: null,
      parts: sorted.length > 0 ? sorted : only,
    };
  }

  private extent(value: Term, extent: 'full' | 'typical'): Interval {
    const found = this.lowering.extremes.extremes(value, extent);
    return isNoValue(found) ? interval.ENTIRE : found.outer;
  }

  /** The parts that an expression adds up; itself where it adds up nothing. */
  private split(piece: Piece): readonly Part[] {
    const { expression, environment } = piece;
    switch (expression.type) {
      case 'binary':
        return this.splitBinary(piece, expression);
      case 'aggregate':
        return expression.name === 'sum' ? this.splitSum(piece, expression) : this.whole(piece);
      case 'name': {
        const meaning =
          environment.row === null ? lookUp(this.lowering.product, expression.parts, environment.scope) : null;
        if (meaning?.type !== 'fact') return this.whole(piece);
        const inside = piecesOf(meaning.fact, environment.mode).map((inner) => ({ ...inner, wrap: piece.wrap }));
        return this.part(meaning.fact.name, null, piece, inside);
      }
      default:
        return this.whole(piece);
    }
  }

  private splitBinary(piece: Piece, node: Expression & { type: 'binary' }): readonly Part[] {
    const { environment, wrap } = piece;
    if (node.operator === '+' || node.operator === '-') {
      const negated = (value: Term) => wrap(node.operator === '-' ? term.scaled(value, rational.integer(-1)) : value);
      return [
        ...this.split({ ...piece, expression: node.left }),
        ...this.split({ expression: node.right, environment, wrap: negated }),
      ];
    }
    const right = this.term(node.right, environment);
    if (right === null) return this.whole(piece);
    const place = { file: environment.file, span: node.span };
    const around = (value: Term) =>
      wrap(node.operator === '*' ? term.product(value, right) : term.quotient(value, right, place));
    const parts = this.split({ expression: node.left, environment, wrap: around });
    return parts.length > 1 || (parts[0]?.inside.length ?? 0) > 0 ? parts : this.whole(piece);
  }

  private splitSum(piece: Piece, node: Expression & { type: 'aggregate' }): readonly Part[] {
    const { environment, wrap } = piece;
    const table = tableOf(this.lowering, node, environment);
    if ('type' in table || node.element === null) return this.whole(piece);
    const selection = select(this.lowering, node, table, environment);
    if ('type' in selection) return this.whole(piece);
    return selection.flatMap(({ row, quantity, environment: at }) => {
      const value = this.term(node.element as Expression, at);
      if (value === null) return [];
      const items =
        quantity.type === 'constant' && !rational.equals(quantity.value, rational.ONE) ? quantity.value : null;
      return [{ label: `${table.name}.${row.id}`, items, value: wrap(term.product(quantity, value)), inside: [] }];
    });
  }

  private whole(piece: Piece): readonly Part[] {
    const { expression } = piece;
    return this.part(expression.type === 'name' ? expression.parts.join('.') : 'the rest', null, piece, []);
  }

  private part(label: string, items: Rational | null, piece: Piece, inside: readonly Piece[]): readonly Part[] {
    const value = this.term(piece.expression, piece.environment);
    return value === null ? [] : [{ label, items, value: piece.wrap(value), inside }];
  }

  private term(expression: Expression, environment: Environment): Term | null {
    const typed = this.lowering.expression(expression, environment);
    return typed.type === 'quantity' ? (typed as TypedQuantity).term : null;
  }
}

function withShares(contribution: Contribution, whole: Rational | null): Contribution {
  const own = middleOf(contribution.typical);
  const share =
    whole === null || own === null || rational.sign(whole) === 0
      ? null
      : rational.toDouble(rational.divide(own, whole));
  return { ...contribution, share, parts: contribution.parts.map((part) => withShares(part, whole)) };
}

function middleOf({ low, high }: Interval): Rational | null {
  return low === null || high === null ? null : rational.divide(rational.add(low, high), rational.integer(2));
}

function sizeOf({ typical }: Contribution): Rational {
  return rational.absolute(middleOf(typical) ?? rational.ZERO);
}
