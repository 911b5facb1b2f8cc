/** Parts that nothing needed leans on, and rows of which fewer items would do: found by taking them out. */
import type { Fact, Row } from '../model/fact';
import type { Table } from '../model/product';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { Expression } from '../syntax/expression/ast';
import type { Span } from '../syntax/span';
import type { Analysis } from './analysis';
import type { RangeAnalysis } from './ranges/ranges';
import type { RequirementResult } from './requirement-result';
import { type Changes, trial } from './trial';
import type { Reason } from './typed';
import type { Verdict } from './verdict';

export interface Unneeded {
  readonly row: Row;
  /** How many items would do; 0 where the part is needed not at all. */
  readonly enough: Rational;
  /** Null where there is one item and no quantity is written. */
  readonly quantity: Fact | null;
}

/** Names and facts gone through in all trials together: counted, never timed. Past it no part is called unneeded. */
const MOST_WORK = 50_000;

/** In the order of the parts; null where there were too many to try. */
export function unneededParts(analysis: Analysis, ranges: RangeAnalysis): readonly Unneeded[] | null {
  const parts = analysis.product.tables.get('parts');
  if (parts === undefined || parts.duplicateRows.size > 0) return [];
  if (workOf(analysis, parts) > MOST_WORK) return null;
  const unread = wordsOfUndecided(analysis);
  const isSpokenOf = ({ table, id }: Row) => unread.has(table) || unread.has(id);
  const isNeeded = (row: Row) => isSpokenOf(row) || isRequired(analysis, row);
  const required = withUsed(parts, new Set(parts.rows.filter(isNeeded)));
  return parts.rows.flatMap((row) => {
    if (!required.has(row)) return [{ row, enough: rational.ZERO, quantity: row.fields.get('quantity') ?? null }];
    return fewerOf(analysis, ranges, row);
  });
}

/** Words in code spans of what is undecided: an expression that could not be read may lean on whatever it speaks of. */
function wordsOfUndecided({ requirements }: Analysis): ReadonlySet<string> {
  const undecided = requirements.filter(({ verdict }) => verdict === 'undecided').map(({ requirement }) => requirement);
  const codes = undecided.flatMap(({ statement, attributes }) => [
    ...(statement?.codes ?? []),
    ...attributes.flatMap((attribute) => attribute.codes),
  ]);
  return new Set(codes.flatMap(({ code }) => code.match(WORD) ?? []));
}

const WORD = /[\p{L}_][\p{L}\d_-]*/gu;

function workOf({ requirements, product }: Analysis, { name, rows }: Table): number {
  const touched = requirements.filter(({ uses }) => uses.has(name));
  return rows.length * (touched.reduce((total, { uses }) => total + uses.size, 0) + product.facts.size / 16);
}

/**
 * What it satisfies, and what it holds together, is not for figures to say: parts with interfaces, and those that make
 * a rail, are left out until connections and rails are weighed.
 */
function isRequired(analysis: Analysis, row: Row): boolean {
  const holdsTogether = [...row.fields.keys()].some(
    (field) => field === 'satisfies' || /^interfaces(?:\.|$)/.test(field),
  );
  if (holdsTogether || makesRail(analysis, row)) return true;
  const changes = { values: [], without: [{ table: row.table, id: row.id }] };
  return worsens(analysis, changes, row);
}

function makesRail({ product }: Analysis, { id }: Row): boolean {
  const rails = product.tables.get('rails')?.rows ?? [];
  return rails.some(({ fields }) => textsIn(fields.get('by')).includes(id));
}

/** With those that required parts list under `uses`, in turn. */
function withUsed(parts: Table, required: ReadonlySet<Row>): ReadonlySet<Row> {
  const all = new Set(required);
  for (const row of all) {
    for (const id of textsIn(row.fields.get('uses'))) {
      const used = parts.rowsById.get(id);
      if (used !== undefined) all.add(used);
    }
  }
  return all;
}

function textsIn(fact: Fact | undefined): readonly string[] {
  if (fact?.content.type !== 'value') return [];
  const { value } = fact.content;
  if (value.type === 'text') return [value.text];
  return value.type === 'set' ? value.items.flatMap((item) => (item.type === 'text' ? [item.text] : [])) : [];
}

/** Worst last; what does not apply any more asks nothing. */
const ORDER: readonly Verdict[] = ['not applicable', 'waived', 'met', 'open', 'at risk', 'undecided', 'unmet'];

function worsens(analysis: Analysis, changes: Changes, row: Row): boolean {
  const { product, requirements } = analysis;
  return trial(product, requirements, changes).touched.some(
    ({ before, after }) =>
      // What is undecided and leans on it may come to need it.
      (before.verdict === 'undecided' && leansOn(before, row)) ||
      (ORDER.indexOf(after.verdict) > ORDER.indexOf(before.verdict) && !isOnlyMissed(analysis, after, row)),
  );
}

function leansOn({ uses }: RequirementResult, { table, fields }: Row): boolean {
  return uses.has(table) || [...fields.values()].some(({ name }) => uses.has(name));
}

/** Undecided only because a sum, count or total no longer finds the row's name. */
function isOnlyMissed(analysis: Analysis, { verdict, reasons, criteria }: RequirementResult, row: Row): boolean {
  if (verdict !== 'undecided') return false;
  const all = [...reasons, ...criteria.flatMap((criterion) => criterion.reasons)];
  return all.length > 0 && all.every((reason) => isMissedInSum(analysis, reason, row));
}

function isMissedInSum({ product }: Analysis, { code, message, place }: Reason, { table, id }: Row): boolean {
  if (code !== 'unknown-name' || !message.includes(`${table}.${id}.`)) return false;
  for (const { file, span, content } of product.facts.values()) {
    if (file !== place.file || place.span.start < span.start || place.span.end > span.end) continue;
    return content.type === 'expression' && isAddend(content.expression, place.span);
  }
  return false;
}

/** Whether what stands there is added up or counted; what is multiplied with other figures is more than one of a total. */
function isAddend(expression: Expression, span: Span): boolean {
  if (expression.type === 'binary' && (expression.operator === '+' || expression.operator === '-'))
    return isAddend(expression.left, span) || isAddend(expression.right, span);
  if (expression.type === 'binary' && expression.operator === '*')
    return (
      (expression.left.type === 'literal' && isAddend(expression.right, span)) ||
      (expression.right.type === 'literal' && isAddend(expression.left, span))
    );
  const isThere = expression.span.start <= span.start && span.end <= expression.span.end;
  if (expression.type === 'aggregate') return isThere && (expression.name === 'sum' || expression.name === 'count');
  return isThere && expression.type === 'name';
}

/** Fewer items with every verdict kept, as its allowed range says and a trial confirms. */
function fewerOf(analysis: Analysis, ranges: RangeAnalysis, row: Row): readonly Unneeded[] {
  const quantity = row.fields.get('quantity');
  const found = ranges.ofFact(quantity?.name ?? '')[0];
  if (quantity === undefined || found === undefined || row.fields.has('satisfies')) return [];
  const { figure, allowed } = found;
  const enough = allowed?.low?.value ?? null;
  if (enough === null || rational.sign(enough) <= 0 || rational.compare(enough, figure.now) >= 0) return [];
  const value = { ...figure.value, low: enough, typical: enough, high: enough };
  const changes = { values: [{ name: quantity.name, mode: null, value }], without: [] };
  return worsens(analysis, changes, row) ? [] : [{ row, enough, quantity }];
}
