/** Functions over the rows of a table: each row weighs as often as its quantity, and nothing is met by absence. */

import type { Row } from '../../model/fact';
import { lookUp, lookUpTable } from '../../model/names';
import type { Table } from '../../model/product';
import * as dimension from '../../quantity/dimension';
import * as rational from '../../quantity/rational';
import { startKey } from '../../syntax/anchor';
import type { Expression } from '../../syntax/expression/ast';
import type { Condition, Term } from '../term';
import * as term from '../term';
import { quantity, type Reason, reason, reasonsOf, type Typed, type TypedQuantity, undecided } from '../typed';
import { notAQuantity } from './arithmetic';
import { isComparable } from './comparisons';
import { lowerCondition } from './conditions';
import { describeUnit, isInUnit, nameOf } from './describe';
import { type Environment, type ItemTag, placeIn } from './environment';
import { presentValue, wholeNumber } from './literals';
import type { Lowering } from './lowering';
import { duplicateRow, unknownName } from './names';

export type AggregateNode = Expression & { type: 'aggregate' };

export function lowerAggregate(lowering: Lowering, node: AggregateNode, environment: Environment): Typed {
  const table = tableOf(lowering, node, environment);
  if ('type' in table) return table;
  const selection = select(lowering, node, table, environment);
  if ('type' in selection) return selection;
  if (selection.length === 0 && (node.name === 'count' || node.name === 'sum')) {
    const message = `${nameOf(node.table)} has no row${node.condition === null ? '' : ' that this condition selects'}, so this ${node.name} is 0`;
    lowering.remark(reason('empty-selection', message, placeIn(environment, node.span)));
  }
  switch (node.name) {
    case 'count':
      return quantity(term.sum(selection.map((selected) => howMany(lowering, selected))), dimension.DIMENSIONLESS);
    case 'all':
    case 'any':
      return quantified(lowering, node, selection, environment);
    default:
      return overElements(lowering, node, selection, environment);
  }
}

/** The table that an aggregate runs over, or why there is none. */
export function tableOf(lowering: Lowering, node: AggregateNode, environment: Environment): Table | Typed {
  const { table } = node;
  if (table.type !== 'name') {
    return undecided(
      reason('no-value', 'a table stands here: its name, such as parts', placeIn(environment, table.span)),
    );
  }
  const found = lookUpTable(lowering.product, table.parts, environment.scope);
  if (found !== null) {
    lowering.noteUse(found.name);
    const twice = [...found.duplicateRows.values()];
    return twice.length > 0 ? undecided(...twice.map(duplicateRow)) : found;
  }
  if (lookUp(lowering.product, table.parts, environment.scope) === null) {
    return undecided(unknownName(lowering, table, environment));
  }
  return undecided(reason('no-value', `${nameOf(table)} is no table`, placeIn(environment, table.span)));
}

/** A row that counts surely, or under a condition that its spread leaves open. */
export interface Selected {
  readonly row: Row;
  readonly quantity: Term;
  /** How many items it is as the design stands; null where that is not sure. */
  readonly count: number | null;
  /** Null where the row counts surely. */
  readonly condition: Condition | null;
  readonly environment: Environment;
  readonly node: AggregateNode;
  readonly table: Table;
}

/** The rows that *where* lets through, each with its quantity and the environment of its fields. */
export function select(
  lowering: Lowering,
  node: AggregateNode,
  table: Table,
  environment: Environment,
): readonly Selected[] | Typed {
  const selected: Selected[] = [];
  const reasons: Reason[] = [];
  for (const row of table.rows) {
    const at = environmentOf(table, row, 'item', node, environment);
    const condition = node.condition === null ? term.known(true) : lowerCondition(lowering, node.condition, at);
    if ('reasons' in condition) {
      reasons.push(...condition.reasons);
      continue;
    }
    const known = lowering.known(condition);
    if (known === false) continue;
    const count = quantityOf(lowering, table, row, environment);
    if (count.type !== 'quantity') reasons.push(...(reasonsOf(count) ?? []));
    else
      selected.push({
        row,
        quantity: count.term,
        count: wholeNumber(lowering, count.term),
        condition: known === true ? null : condition,
        environment: at,
        node,
        table,
      });
  }
  return reasons.length > 0 ? undecided(...reasons) : selected;
}

export function environmentOf(
  table: Table,
  row: Row,
  tag: ItemTag,
  node: AggregateNode,
  environment: Environment,
): Environment {
  return { ...environment, row: { table, row, tag, alias: node.row, outer: environment.row } };
}

function quantityOf(lowering: Lowering, table: Table, row: Row, environment: Environment): Typed {
  const fact = row.fields.get('quantity');
  if (fact === undefined) return quantity(term.ONE, dimension.DIMENSIONLESS);
  const typed = lowering.fact(fact, environment.mode, 'item');
  if (typed.type === 'undecided') return typed;
  const place = { file: fact.file, span: fact.span };
  const name = `${table.name}.${row.id}.quantity`;
  if (typed.type === 'quantity' && typed.dimension.base.size > 0) {
    const message = `${name} counts items, so it has no unit such as ${describeUnit(lowering, typed)}`;
    return undecided(reason('unit-mismatch', message, place));
  }
  if (typed.type === 'quantity' && mayCount(lowering, typed.term)) return typed;
  return undecided(reason('bad-value', `${name} counts items, so it is a whole number from 0 on`, place));
}

/** A written or computed count is whole; one with a spread is a count of rows whose conditions are open. */
function mayCount(lowering: Lowering, count: Term): boolean {
  const value = presentValue(lowering, count);
  if (value === null) return count.type !== 'variable';
  return rational.isInteger(value) && rational.sign(value) >= 0;
}

/** How many items of a row are counted. */
function howMany(lowering: Lowering, selected: Selected): Term {
  return weighed(lowering, selected, () => term.ONE);
}

/**
 * The sum of a figure over the items of a row: the item that names mean, and the others, which move apart from it.
 * Where the condition is open, each of the others may count or not: any share of them.
 */
function weighed(lowering: Lowering, selected: Selected, figure: (environment: Environment) => Term): Term {
  const { condition, environment, count } = selected;
  const own = figure(environment);
  const counted = condition === null ? own : term.choice(condition, own, term.ZERO);
  if (count === 1 && selected.quantity.type === 'constant') return counted;
  if (count === 0) return noneOf(lowering, selected, counted);
  const apart = { ...environment, row: environment.row && { ...environment.row, tag: 'others' as const } };
  const others = figure(apart);
  if (condition === null && sameVariables(own, others)) return term.product(selected.quantity, own);
  const rest = count === null ? selected.quantity : term.difference(selected.quantity, term.ONE);
  const alike = condition === null ? others : term.product(openShare(lowering, selected, condition), others);
  // Without a written count the items cannot be told apart; all of them then move as the others do.
  return count === null ? term.product(rest, alike) : term.sum([counted, term.product(rest, alike)]);
}

/** No items: nothing of them counts, however they move. */
function noneOf(lowering: Lowering, { quantity: count }: Selected, counted: Term): Term {
  lowering.hold(count.support);
  return term.scaled(counted, rational.ZERO);
}

function openShare(lowering: Lowering, { table, row, node, environment }: Selected, condition: Condition): Term {
  const id = `${table.name}.${row.id}#share:${environment.file}:${startKey(node.span)}`;
  return term.variable(lowering.openShare(id, `${table.name}.${row.id}`, row.place, condition));
}

function sameVariables(a: Term, b: Term): boolean {
  return a.support.size === b.support.size && [...a.support].every((variable) => b.support.has(variable));
}

function quantified(
  lowering: Lowering,
  node: AggregateNode,
  selection: readonly Selected[],
  environment: Environment,
): Typed {
  if (selection.length === 0) return undecided(noRow(node, environment));
  const conditions: Condition[] = [];
  const reasons: Reason[] = [];
  for (const selected of selection) {
    for (const tag of tagsOf(selected)) {
      const at = { ...selected.environment, row: selected.environment.row && { ...selected.environment.row, tag } };
      const condition = lowerCondition(lowering, node.element as Expression, at);
      if ('reasons' in condition) reasons.push(...condition.reasons);
      else conditions.push(node.name === 'all' ? implied(selected, condition) : required(selected, condition));
    }
  }
  const decisive = node.name === 'any';
  const joined = decisive ? term.either(conditions) : term.both(conditions);
  if (reasons.length > 0 && lowering.known(joined) !== decisive) return undecided(...reasons);
  return { type: 'condition', condition: joined };
}

/** One item of a row speaks for itself; of several, the others are asked too. */
export function tagsOf({ count }: Selected): readonly ItemTag[] {
  return count === 1 ? ['item'] : ['item', 'others'];
}

function implied({ condition }: Selected, then: Condition): Condition {
  return condition === null ? then : term.either([term.negated(condition), then]);
}

function required({ condition }: Selected, also: Condition): Condition {
  return condition === null ? also : term.both([condition, also]);
}

export function noRow(node: AggregateNode, environment: Environment): Reason {
  const where = node.condition === null ? '' : ' that its condition selects';
  return reason(
    'no-value',
    `${nameOf(node.table)} has no row${where}, and ${node.name} of nothing is no value`,
    placeIn(environment, node.span),
  );
}

function overElements(
  lowering: Lowering,
  node: AggregateNode,
  selection: readonly Selected[],
  environment: Environment,
): Typed {
  if (selection.length === 0)
    return node.name === 'sum' ? emptySum(lowering, node, environment) : undecided(noRow(node, environment));
  const elements = selection.map((selected) => lowering.expression(node.element as Expression, selected.environment));
  const reasons = reasonsOf(...elements);
  if (reasons !== null) return undecided(...reasons);
  const wrong = elements.find((element) => element.type !== 'quantity');
  if (wrong !== undefined) return notAQuantity(node.element as Expression, wrong, environment);
  const typed = elements.filter((element): element is TypedQuantity => element.type === 'quantity');
  const [first] = typed as [TypedQuantity];
  const other = typed.findIndex((element) => !isComparable(first, element));
  if (other >= 0) {
    const [firstId, otherId] = [selection[0]?.row.id, selection[other]?.row.id];
    const message = `rows of ${nameOf(node.table)} differ: ${nameOf(node.element as Expression)} of ${firstId} ${isInUnit(lowering, first)} and of ${otherId} ${isInUnit(lowering, typed[other] as TypedQuantity)}`;
    return undecided(reason('unit-mismatch', message, placeIn(environment, node.span)));
  }
  return join(lowering, node, selection, typed, environment);
}

/** The sum over no row is 0 in whatever unit the field has elsewhere. */
function emptySum(lowering: Lowering, node: AggregateNode, environment: Environment): Typed {
  const table = tableOf(lowering, node, environment);
  if ('type' in table) return table;
  for (const row of table.rows) {
    const typed = lowering.expression(node.element as Expression, environmentOf(table, row, 'item', node, environment));
    if (typed.type === 'quantity') return quantity(term.ZERO, typed.dimension, { unit: typed.unit });
  }
  return undecided(noRow(node, environment));
}

function join(
  lowering: Lowering,
  node: AggregateNode,
  selection: readonly Selected[],
  typed: readonly TypedQuantity[],
  environment: Environment,
): Typed {
  const [first] = typed as [TypedQuantity];
  const common = typed.map((element) => element.dimension).reduce(dimension.common);
  const figure = (at: Environment): Term => {
    const element = lowering.expression(node.element as Expression, at);
    return element.type === 'quantity' ? element.term : term.ZERO;
  };
  switch (node.name) {
    case 'sum':
      if (first.point !== null)
        return undecided(
          reason(
            'unit-mismatch',
            `points such as ${describeUnit(lowering, first)} have no sum; take their mean`,
            placeIn(environment, node.span),
          ),
        );
      return quantity(term.sum(selection.map((selected) => weighed(lowering, selected, figure))), common, {
        unit: first.unit,
      });
    case 'mean': {
      const total = term.sum(selection.map((selected) => weighed(lowering, selected, figure)));
      const count = term.sum(selection.map((selected) => howMany(lowering, selected)));
      return quantity(term.quotient(total, count, placeIn(environment, node.span)), common, {
        point: first.point,
        unit: first.unit,
      });
    }
    case 'overlap':
      return overlap(node, selection, typed, environment);
    default:
      return extreme(node, selection, figure, common, first, environment);
  }
}

function extreme(
  node: AggregateNode,
  selection: readonly Selected[],
  figure: (at: Environment) => Term,
  common: dimension.Dimension,
  first: TypedQuantity,
  environment: Environment,
): Typed {
  const figuresOf = (selected: Selected): Term[] => {
    const own = figure(selected.environment);
    if (selected.count === 1) return [own];
    const apart = {
      ...selected.environment,
      row: selected.environment.row && { ...selected.environment.row, tag: 'extreme' as const },
    };
    const others = figure(apart);
    return sameVariables(own, others) ? [own] : [own, others];
  };
  const type = node.name === 'min' ? 'least' : 'greatest';
  const sure = selection.filter(({ condition }) => condition === null).flatMap(figuresOf);
  if (sure.length === 0)
    return undecided(
      reason(
        'no-value',
        `${node.name} may be of no row at all: every row's condition may fail`,
        placeIn(environment, node.span),
      ),
    );
  const surest = term.extreme(type, sure);
  const open = selection
    .filter(({ condition }) => condition !== null)
    .flatMap((selected) =>
      figuresOf(selected).map((value) => term.choice(selected.condition as Condition, value, surest)),
    );
  return quantity(term.extreme(type, [surest, ...open]), common, { point: first.point, unit: first.unit });
}

/** What all rows' ranges share. */
function overlap(
  node: AggregateNode,
  selection: readonly Selected[],
  typed: readonly TypedQuantity[],
  environment: Environment,
): Typed {
  const [first] = typed as [TypedQuantity];
  if (selection.some(({ condition }) => condition !== null)) {
    return undecided(reason('no-value', 'which rows overlap is not sure', placeIn(environment, node.span)));
  }
  const ends = typed.map((element) => element.range ?? { low: element.term, high: element.term });
  const lows = ends.map(({ low }) => low).filter((low) => low !== null);
  const highs = ends.map(({ high }) => high).filter((high) => high !== null);
  const low = lows.length === ends.length ? term.extreme('greatest', lows) : null;
  const high = highs.length === ends.length ? term.extreme('least', highs) : null;
  const value = low ?? high;
  if (value === null)
    return undecided(reason('no-value', 'no row has both ends of its range', placeIn(environment, node.span)));
  return quantity(value, first.dimension, { point: first.point, unit: first.unit, range: { low, high } });
}
