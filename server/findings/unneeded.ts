/** unneeded: parts that nothing needed leans on, and rows of which fewer items would do. */
import type { Analysis, FactResult } from '../engine/analysis';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import { type Unneeded, unneededParts } from '../engine/unneeded';
import { formatIn } from '../quantity/format';
import { formatNumber } from '../quantity/format-number';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Draft } from './finding';

export function* unneeded(analysis: Analysis, ranges: RangeAnalysis): Iterable<Draft> {
  const found = unneededParts(analysis, ranges) ?? [];
  const facts = new Map(found.length === 0 ? [] : analysis.facts.map((fact) => [fact.fact.name, fact]));
  for (const one of found)
    yield {
      code: 'unneeded',
      message: message(one, facts),
      place: one.quantity === null ? one.row.place : placeOf(one),
    };
}

function placeOf({ row, enough, quantity }: Unneeded): Draft['place'] {
  if (quantity === null || rational.sign(enough) === 0) return row.place;
  return { file: quantity.file, span: quantity.span };
}

function message({ row, enough, quantity }: Unneeded, facts: ReadonlyMap<string, FactResult>): string {
  const name = `${row.table}.${row.id}`;
  const all = (quantity === null ? null : figureOf(facts, quantity.name)) ?? rational.ONE;
  const saved = savings(name, rational.subtract(all, enough), facts);
  if (rational.sign(enough) === 0) return `${name}: nothing that is needed leans on it${saved}`;
  return `${name}: ${number(enough)} of the ${number(all)} would do${saved}`;
}

function number(value: Rational): string {
  return formatNumber(value, 'nearest');
}

/** What the items cost and draw, where they say so. */
function savings(name: string, items: Rational, facts: ReadonlyMap<string, FactResult>): string {
  const saved = ['cost', 'power'].flatMap((field) => {
    const content = facts.get(`${name}.${field}`)?.values[0]?.content;
    if (content?.type !== 'quantity' || content.unit === null || content.unit.rates.size > 0) return [];
    const { low } = content.typical;
    return low === null || rational.sign(low) <= 0
      ? []
      : [`${formatIn(rational.multiply(low, items), content.unit, 'down')} of ${field}`];
  });
  return saved.length === 0 ? '' : `; ${saved.join(' and ')} would be saved`;
}

function figureOf(facts: ReadonlyMap<string, FactResult>, name: string): Rational | null {
  const content = facts.get(name)?.values[0]?.content;
  return content?.type === 'quantity' ? content.typical.low : null;
}
