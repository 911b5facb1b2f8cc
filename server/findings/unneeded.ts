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

/** What the items cost and draw, where they say so; in the mode that takes most. */
function savings(name: string, items: Rational, facts: ReadonlyMap<string, FactResult>): string {
  const saved = ['cost', 'power'].flatMap((field) => {
    const values = facts.get(`${name}.${field}`)?.values ?? [];
    const amounts = values.flatMap(({ content }) => {
      if (content.type !== 'quantity' || content.unit === null || content.unit.rates.size > 0) return [];
      const { low } = content.typical;
      return low === null || rational.sign(low) <= 0 ? [] : [{ low, unit: content.unit }];
    });
    const [most] = amounts.toSorted((a, b) => rational.compare(b.low, a.low));
    if (most === undefined) return [];
    const amount = formatIn(rational.multiply(most.low, items), most.unit, 'down');
    return [`${values.length > 1 ? 'up to ' : ''}${amount} of ${field}`];
  });
  return saved.length === 0 ? '' : `; ${saved.join(' and ')} would be saved`;
}

function figureOf(facts: ReadonlyMap<string, FactResult>, name: string): Rational | null {
  const content = facts.get(name)?.values[0]?.content;
  return content?.type === 'quantity' ? content.typical.low : null;
}
