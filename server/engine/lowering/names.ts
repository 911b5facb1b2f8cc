/** Names → what they mean where they stand: a row's field, a fact, an end of it, its value in a mode. */

import type { Fact, Row } from '../../model/fact';
import { knownNames, lookUp, type Meaning } from '../../model/names';
import { nearestWords } from '../../model/nearest';
import type { Place } from '../../model/place';
import type { Table } from '../../model/product';
import { DIMENSIONLESS } from '../../quantity/dimension';
import * as interval from '../../quantity/interval';
import type { Expression } from '../../syntax/expression/ast';
import { NOWHERE } from '../../syntax/span';
import { isNoValue } from '../enclosure';
import type { Extremes } from '../extremes';
import { noValueReasons, openEnd } from '../no-value';
import * as term from '../term';
import { quantity, type Reason, reason, type Typed, undecided } from '../typed';
import { type Environment, type ItemTag, placeIn, type RowEnvironment } from './environment';
import { endOfFigure } from './literals';
import type { Lowering } from './lowering';

export function lowerName(lowering: Lowering, node: Expression & { type: 'name' }, environment: Environment): Typed {
  const field = rowField(lowering, node, environment);
  if (field !== null) return field;
  const meaning = lookUp(lowering.product, node.parts, environment.scope);
  if (meaning === null)
    return unwritten(lowering, node, environment) ?? undecided(unknownName(lowering, node, environment));
  return meant(lowering, meaning, node, environment);
}

/** `x else y`: y where the row does not have x. */
export function lowerElse(lowering: Lowering, node: Expression & { type: 'else' }, environment: Environment): Typed {
  const value = lowering.expression(node.value, environment);
  return value.type === 'absent' ? lowering.expression(node.otherwise, environment) : value;
}

/** The facts that a path names from a scope, for the order of work; empty where it names none. */
export function factsNamed(lowering: Lowering, parts: readonly string[], scope: readonly string[]): readonly Fact[] {
  let meaning = lookUp(lowering.product, parts, scope);
  while (meaning?.type === 'end' || meaning?.type === 'in-mode') meaning = meaning.of;
  return meaning?.type === 'fact' ? [meaning.fact] : [];
}

/** The rows that an expression may stand at, innermost first, and the field path it names there. */
function rowField(
  lowering: Lowering,
  { parts, span }: Expression & { type: 'name' },
  environment: Environment,
): Typed | null {
  const place = placeIn(environment, span);
  for (let row = environment.row; row !== null; row = row.outer) {
    if (row.alias !== null) {
      if (parts[0] === row.alias && parts.length > 1) return fieldOf(lowering, row, parts.slice(1), environment, place);
    } else if (isFieldOf(row.table, parts)) return fieldOf(lowering, row, parts, environment, place);
  }
  return null;
}

function isFieldOf(table: Table, parts: readonly string[]): boolean {
  if (parts.length === 1 && (parts[0] === 'id' || parts[0] === 'quantity')) return true;
  return (
    table.fieldNames.has(parts.join('.')) || (parts.length > 1 && table.fieldNames.has(parts.slice(0, -1).join('.')))
  );
}

function fieldOf(
  lowering: Lowering,
  at: RowEnvironment,
  parts: readonly string[],
  environment: Environment,
  place: Place,
): Typed {
  const name = parts.join('.');
  const own = `${at.table.name}.${at.row.id}.${name}`;
  const duplicates = lowering.product.duplicates.get(own);
  if (duplicates !== undefined) return undecided(duplicateName(lowering, duplicates));
  const fact = lowering.product.facts.get(own);
  if (fact !== undefined) return lowering.fact(fact, environment.mode, at.tag);
  if (name === 'quantity') return quantity(term.ONE, DIMENSIONLESS);
  const meaning = lookUp(lowering.product, own.split('.'), []);
  if (meaning !== null && (meaning.type === 'end' || meaning.type === 'in-mode'))
    return tagged(lowering, meaning, at.tag, environment, place);
  return { type: 'absent', row: at.row, field: name, quantity: holdsQuantity(at.table, name), place: at.row.place };
}

/** A sibling field that this row lacks but others have, named in the row's own expression. */
function unwritten(
  lowering: Lowering,
  node: Expression & { type: 'name' },
  { item, scope }: Environment,
): Typed | null {
  if (item === null || scope.length === 0) return null;
  const name = node.parts.join('.');
  return lowering.product.tables.get(item.row.table)?.fieldNames.has(name)
    ? { type: 'absent', row: item.row, field: name, quantity: true, place: item.row.place }
    : null;
}

function holdsQuantity(table: Table, field: string): boolean {
  for (const row of table.rows) {
    const content = row.fields.get(field)?.content;
    if (content === undefined || content.type === 'tbd' || content.type === 'bad') continue;
    return content.type !== 'value' || content.value.type === 'quantity';
  }
  return true;
}

function meant(
  lowering: Lowering,
  meaning: Meaning,
  node: Expression & { type: 'name' },
  environment: Environment,
): Typed {
  const place = placeIn(environment, node.span);
  switch (meaning.type) {
    case 'fact':
      return lowering.fact(meaning.fact, environment.mode, tagOf(meaning.fact, environment));
    case 'duplicate':
      return undecided(duplicateName(lowering, meaning.facts));
    case 'end':
    case 'in-mode':
      return tagged(lowering, meaning, 'item', environment, place);
    case 'one-item':
      return quantity(term.ONE, DIMENSIONLESS);
    case 'row':
      return { type: 'text', text: meaning.row.id };
    case 'mode':
      return undecided(
        reason('no-value', `${meaning.mode} is a mode, not a figure; x.${meaning.mode} is the value of x in it`, place),
      );
    case 'table':
      return undecided(
        reason(
          'no-value',
          `${meaning.table.name} is a table; write count(${meaning.table.name}) or sum(… over ${meaning.table.name})`,
          place,
        ),
      );
  }
}

/** A sibling in a row's own expression belongs to the same item; any other name means the item that names mean. */
function tagOf(fact: Fact, { item }: Environment): ItemTag {
  return item !== null && fact.row?.table === item.row.table && fact.row.id === item.row.id ? item.tag : 'item';
}

/** @param place where the name is used */
function tagged(lowering: Lowering, meaning: Meaning, tag: ItemTag, environment: Environment, place: Place): Typed {
  switch (meaning.type) {
    case 'in-mode':
      return lowering.inOwnMode(() => tagged(lowering, meaning.of, tag, { ...environment, mode: meaning.mode }, place));
    case 'end':
      return endOf(lowering, tagged(lowering, meaning.of, tag, environment, place), meaning, tag, environment, place);
    case 'fact':
      return lowering.fact(meaning.fact, environment.mode, tag);
    case 'duplicate':
      return undecided(duplicateName(lowering, meaning.facts));
    default:
      return undecided();
  }
}

/** `x.min`, `x.max`: the ends of what x can be; `x.typ`: its typical value, which a range does not have. */
function endOf(
  lowering: Lowering,
  of: Typed,
  meaning: Meaning & { type: 'end' },
  tag: ItemTag,
  environment: Environment,
  used: Place,
): Typed {
  if (of.type !== 'quantity') return of;
  const written = endOfFigure(lowering, of.term, meaning.end);
  if (written !== null && (of.range === null || meaning.end !== 'typ')) return { ...of, term: written, range: null };
  const name = meaningName(meaning.of);
  const place = meaningPlace(meaning.of);
  if (of.range !== null && meaning.end !== 'typ') {
    const end = meaning.end === 'min' ? of.range.low : of.range.high;
    return end === null ? undecided(openEnd(name, meaning.end, place)) : { ...of, term: end, range: null };
  }
  lowering.hold(of.term.support);
  const found = lowering.extremes.extremes(of.term, meaning.end === 'typ' ? 'typical' : 'full');
  if (isNoValue(found)) return undecided(...noValueReasons(name, found));
  if (meaning.end === 'typ' && !interval.isPoint(found.outer) && movesTypically(of.term)) {
    return undecided(reason('no-value', `${name} is a range and has no typical value`, used));
  }
  const within = endWithin(found, meaning.end);
  if (within.low === null || within.high === null)
    return undecided(openEnd(name, meaning.end === 'max' ? 'max' : 'min', place));
  if (interval.isPoint(within)) return { ...of, term: term.constant(within.low), range: null };
  // Roots and the step limit leave the end itself unsure, by as much as is known of it.
  const variable = lowering.unsureEnd(`${name}.${meaning.end}@${environment.mode ?? ''}#${tag}`, name, place, within);
  return { ...of, term: term.variable(variable), range: null };
}

function movesTypically({ support }: term.Term): boolean {
  return [...support].some(({ typical }) => !interval.isPoint(typical));
}

/** Between which values an end lies: the furthest that is really taken, and the bound. */
function endWithin({ outer, inner }: Extremes, end: 'min' | 'typ' | 'max'): interval.Interval {
  if (end === 'typ') return outer;
  return end === 'max' ? { low: inner.high, high: outer.high } : { low: outer.low, high: inner.low };
}

function meaningName(meaning: Meaning): string {
  return meaning.type === 'fact'
    ? meaning.fact.name
    : meaning.type === 'in-mode'
      ? `${meaningName(meaning.of)}.${meaning.mode}`
      : 'this';
}

function meaningPlace(meaning: Meaning): Place {
  if (meaning.type === 'fact') return { file: meaning.fact.file, span: meaning.fact.span };
  return meaning.type === 'in-mode' ? meaningPlace(meaning.of) : { file: '', span: NOWHERE };
}

/** Neither of two facts of one name counts; of two rows of one id no field does. */
export function duplicateName({ product }: Lowering, facts: readonly Fact[]): Reason {
  const [first, ...others] = facts as readonly [Fact, ...Fact[]];
  const table = first.row === null ? undefined : product.tables.get(first.row.table);
  const rows = table?.duplicateRows.get(first.row?.id ?? '');
  if (rows !== undefined) return duplicateRow(rows);
  const related = others.map((other) => ({
    place: { file: other.file, span: other.nameSpan },
    message: `${other.name} stands here too`,
  }));
  const message = `${first.name} is given ${facts.length} times, so none of them counts; keep one`;
  return reason('duplicate-name', message, { file: first.file, span: first.nameSpan }, { related });
}

export function duplicateRow(rows: readonly Row[]): Reason {
  const [first, ...others] = rows as readonly [Row, ...Row[]];
  const related = others.map(({ place, id }) => ({ place, message: `${id} stands here too` }));
  const message = `${first.table}.${first.id} stands ${rows.length} times, so none of them counts; keep one`;
  return reason('duplicate-id', message, first.place, { related });
}

/** The nearest names, and what else a reader may have meant. */
export function unknownName(lowering: Lowering, node: Expression & { type: 'name' }, environment: Environment): Reason {
  const name = node.parts.join('.');
  const place = placeIn(environment, node.span);
  const subtraction = readAsSubtraction(lowering, node.parts, environment);
  if (subtraction !== null) {
    const fix = { title: `Write ${subtraction}`, edits: [{ span: node.span, text: subtraction }] };
    return reason('unknown-name', `there is no “${name}”; a minus needs spaces around it: ${subtraction}`, place, {
      fixes: [fix],
    });
  }
  const through = throughAlias(node.parts, environment.row);
  if (through !== null) {
    const fix = { title: `Write ${through}`, edits: [{ span: node.span, text: through }] };
    return reason('unknown-name', `“${name}” is reached through the row's name here: ${through}`, place, {
      fixes: [fix],
    });
  }
  const near = nearestNames(lowering, name, environment);
  const fixes = near.map((known) => ({ title: `Write ${known}`, edits: [{ span: node.span, text: known }] }));
  const hint =
    near.length === 0 ? 'no name is near it' : `the nearest ${near.length === 1 ? 'is' : 'are'} ${near.join(', ')}`;
  return reason('unknown-name', `there is no fact “${name}”; ${hint}`, place, { fixes });
}

export function nearestNames(lowering: Lowering, name: string, { row, scope }: Environment): readonly string[] {
  const known = [...knownNames(lowering.product)];
  const names = [...(row?.table.fieldNames ?? []), ...siblings(known, scope), ...known];
  const near = nearestWords(name, names);
  if (near.length > 0) return near;
  const last = name.slice(name.lastIndexOf('.') + 1);
  const sameEnding = known.filter((one) => one === last || one.endsWith(`.${last}`));
  return sameEnding.sort().slice(0, 3);
}

/** The names as they are called from the mapping that an expression stands in. */
function siblings(names: readonly string[], scope: readonly string[]): readonly string[] {
  const prefix = `${scope.join('.')}.`;
  return scope.length === 0
    ? []
    : names.filter((name) => name.startsWith(prefix)).map((name) => name.slice(prefix.length));
}

/** A field named bare where the row has a name after *as*. */
function throughAlias(parts: readonly string[], row: RowEnvironment | null): string | null {
  if (row === null) return null;
  const isField = row.alias !== null && isFieldOf(row.table, parts);
  return isField ? `${row.alias}.${parts.join('.')}` : throughAlias(parts, row.outer);
}

/** `a-b` where a and b are names. */
function readAsSubtraction(lowering: Lowering, parts: readonly string[], environment: Environment): string | null {
  const name = parts.join('.');
  for (let at = name.indexOf('-'); at > 0; at = name.indexOf('-', at + 1)) {
    const [left, right] = [name.slice(0, at), name.slice(at + 1)];
    const isKnown = (text: string) => lookUp(lowering.product, text.split('.'), environment.scope) !== null;
    if (right !== '' && isKnown(left) && isKnown(right)) return `${left} - ${right}`;
  }
  return null;
}
