/** What somebody wants to try, in words → the changes of the design that it means, or why it means none. */

import type { Content, Fact } from '../model/fact';
import { type End, lookUp, type Meaning } from '../model/names';
import { nearestWords } from '../model/nearest';
import type { Product } from '../model/product';
import { type NamedText, readWrittenValue } from '../model/written-value';
import * as rational from '../quantity/rational';
import type { QuantityValue, SimpleValue } from '../quantity/value';
import { valueText } from '../quantity/value-text';
import { printExpression } from '../syntax/expression/print';
import type { Analysis } from './analysis';
import type { ChangedValue, Changes, RowName } from './changes';
import { fits } from './evidence/measured';
import { atRoot } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import { nearestNames } from './lowering/names';

export interface TrialRequest {
  readonly values: readonly NamedText[];
  /** Rows to be taken out: `soc`, `parts.soc`. */
  readonly without: readonly string[];
}

export interface ReadTrial {
  readonly changes: Changes;
  /** For each value, what it was and what it is on trial, as an author writes them. */
  readonly given: readonly GivenValue[];
}

export interface GivenValue {
  readonly name: string;
  readonly was: string;
  readonly is: string;
}

interface Mistake {
  readonly mistake: string;
}

export function readTrial(analysis: Analysis, { values, without }: TrialRequest): ReadTrial | Mistake {
  if (values.length === 0 && without.length === 0)
    return { mistake: 'nothing to try: give a figure (supply.draw=45W), or a part to leave out (--without soc)' };
  const given: GivenValue[] = [];
  let changed: readonly ChangedValue[] = [];
  for (const { name, value } of values) {
    const read = readOne(analysis, changed, name, value);
    if ('mistake' in read) return { mistake: `${name}: ${read.mistake}` };
    given.push(read.given);
    changed = read.changed;
  }
  // Only when all ends are known: each by itself may pass where the other was.
  const turned = changed.find(({ value }) => !isInOrder(value));
  if (turned !== undefined)
    return { mistake: `${turned.name}: ${valueText(turned.value)} has its ends in the wrong order` };
  const rows: RowName[] = [];
  for (const part of without) {
    const row = readRow(analysis, part);
    if ('mistake' in row) return row;
    rows.push(row);
  }
  return { changes: { values: changed, without: rows }, given };
}

interface ReadOne {
  readonly given: GivenValue;
  /** All that changed so far, with this. */
  readonly changed: readonly ChangedValue[];
}

function readOne(
  { product, lowering }: Analysis,
  changed: readonly ChangedValue[],
  name: string,
  text: string,
): ReadOne | Mistake {
  const meaning = lookUp(product, name.split('.'), []);
  const target = targetOf(meaning);
  if (target === null) return { mistake: whyNot(product, lowering, name, meaning) };
  const read = readWrittenValue(product, text);
  if ('mistake' in read) return read;
  const { fact, mode, end } = target;
  if (!fits(lowering, target, read.value))
    return { mistake: `it cannot be ${text}: it has another unit, or is another kind of value, in the design` };
  const earlier = changed.filter((one) => one.name === fact.name);
  if (
    earlier.some((one) => (end === null ? one.mode === mode || one.mode === null || mode === null : one.mode !== mode))
  )
    return { mistake: 'it is given twice' };
  const was = contentIn(fact.content, mode);
  const [before] = earlier;
  const start: Content = end === null || before === undefined ? was : { type: 'value', value: before.value };
  const value = end === null ? read.value : movedEnd(start, end, read.value);
  if ('mistake' in value) return value;
  const others = end === null ? changed : changed.filter((one) => one !== before);
  return {
    given: { name, was: contentText(was), is: valueText(value) },
    changed: [...others, { name: fact.name, mode, value }],
  };
}

interface Target {
  readonly fact: Fact;
  readonly mode: string | null;
  readonly end: End | null;
}

function targetOf(meaning: Meaning | null): Target | null {
  if (meaning?.type === 'fact') return { fact: meaning.fact, mode: null, end: null };
  if (meaning?.type === 'in-mode' && meaning.of.type === 'fact')
    return { fact: meaning.of.fact, mode: meaning.mode, end: null };
  const of = meaning?.type === 'end' ? targetOf(meaning.of) : null;
  return of === null || meaning?.type !== 'end' ? null : { ...of, end: meaning.end };
}

function whyNot(product: Product, lowering: Lowering, name: string, meaning: Meaning | null): string {
  if (meaning?.type === 'duplicate') return 'it stands in several places, so that none of them counts';
  if (meaning?.type === 'one-item') return 'no quantity is written there: give the row one first';
  if (meaning !== null) return 'it is no figure, but a part, a table or a mode';
  const [nearest] = nearestNames(lowering, name, atRoot('', null));
  const isRequirement = product.requirements.some(({ id }) => id === name);
  if (isRequirement) return 'it is a requirement: on trial are figures of the design';
  return `there is no such fact${nearest === undefined ? '' : `; the nearest is ${nearest}`}`;
}

function contentIn(content: Content, mode: string | null): Content {
  return content.type === 'modes' && mode !== null ? (content.modes.get(mode) ?? { type: 'tbd' }) : content;
}

function contentText(content: Content): string {
  switch (content.type) {
    case 'value':
      return valueText(content.value);
    case 'expression':
      return `= ${printExpression(content.expression)}`;
    case 'modes':
      return `{${[...content.modes].map(([mode, own]) => `${mode}: ${contentText(own)}`).join(', ')}}`;
    case 'ends':
      return 'a range between computed ends';
    case 'curve':
      return 'a curve';
    case 'tbd':
      return 'to be determined';
    case 'bad':
      return 'not readable';
  }
}

/** The written value with one of its ends elsewhere. */
function movedEnd(content: Content, end: End, value: SimpleValue): QuantityValue | Mistake {
  if (content.type !== 'value' || content.value.type !== 'quantity' || content.value.spread === 'exact')
    return { mistake: 'no ends are written there: give the whole value' };
  if (value.type !== 'quantity' || value.spread !== 'exact' || value.typical === null)
    return { mistake: 'an end is one exact figure' };
  return withEnd(content.value, end, value.typical);
}

function isInOrder(value: SimpleValue): boolean {
  if (value.type !== 'quantity') return true;
  const ends = [value.low, value.typical, value.high].filter((end) => end !== null);
  return ends.every((end, index) => index === 0 || rational.compare(ends[index - 1] ?? end, end) <= 0);
}

/** What was ± has two ends of their own then. */
function withEnd(value: QuantityValue, end: End, at: rational.Rational): QuantityValue {
  const form = value.form.type === 'range' ? value.form : ({ type: 'mapping' } as const);
  switch (end) {
    case 'min':
      return { ...value, form, low: at };
    case 'typ':
      return { ...value, form, typical: at };
    case 'max':
      return { ...value, form, high: at };
  }
}

function readRow({ product }: Analysis, part: string): RowName | Mistake {
  const dot = part.lastIndexOf('.');
  const [table, id] = dot < 0 ? ['parts', part] : [part.slice(0, dot), part.slice(dot + 1)];
  if (product.tables.get(table)?.rowsById.has(id)) return { table, id };
  const names = [...product.tables.values()].flatMap((one) => one.rows.map((row) => `${one.name}.${row.id}`));
  const near = nearestWords(`${table}.${id}`, names)[0];
  return { mistake: `there is no part ${part}${near === undefined ? '' : `; the nearest is ${near}`}` };
}
