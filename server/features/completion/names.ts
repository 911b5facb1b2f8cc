/** Names of the design: facts whose unit fits what is written beside them first, then functions. */
import { AGGREGATES, FUNCTIONS } from '../../../grammar/expression';
import type { Analysis, FactContent } from '../../engine/analysis';
import type { Fact } from '../../model/fact';
import type { Dimension } from '../../quantity/dimension';
import { valueLines } from '../figures';
import { backwards, type CompletionItem, type Cursor, plainItem } from './item';

/** Items offered at once at the most; an editor asks again when more was typed. */
const MOST_NAMES = 500;
const NAME_BEFORE = /[\p{L}\p{N}_.-]*$/u;
const QUANTITY = /(?<![\p{L}\p{N}.])[\d][\d.,]*/gu;

export interface NameOptions {
  /** The mapping that names are looked up in first; empty for prose. */
  readonly scope: readonly string[];
  /** Text whose figures say which units fit; empty where none do. */
  readonly beside: string;
  /** Functions may stand there as well. */
  readonly functions: boolean;
}

export function nameItems(analysis: Analysis, cursor: Cursor, options: NameOptions): readonly CompletionItem[] {
  const typed = NAME_BEFORE.exec(cursor.before)?.[0] ?? '';
  const replace = backwards(cursor, typed.length);
  const wanted = dimensionsIn(analysis, options.beside);
  const fits = (name: string) => couldBe(name, typed);
  const items: CompletionItem[] = [];
  for (const result of analysis.facts) {
    const { fact, values } = result;
    const insert = nameFrom(fact, options.scope);
    if (!fits(fact.name) && !fits(insert)) continue;
    const rank = fitsOne(values[0]?.content, wanted) ? 0 : insert === fact.name ? 3 : 2;
    items.push(
      plainItem(insert, 'fact', replace, {
        detail: valueLines(analysis, result).join('; '),
        rank,
        subject: fact.name,
      }),
    );
  }
  for (const table of analysis.product.tables.values())
    if (fits(table.name))
      items.push(plainItem(table.name, 'table', replace, { detail: `${table.rows.length} rows`, rank: 4 }));
  if (options.functions) items.push(...functionItems(replace, typed));
  return items.sort((a, b) => a.rank - b.rank || (a.label < b.label ? -1 : 1)).slice(0, MOST_NAMES);
}

function functionItems(replace: CompletionItem['replace'], typed: string): readonly CompletionItem[] {
  return [...FUNCTIONS, ...AGGREGATES].flatMap(([name, { form, meaning }]) =>
    couldBe(name, typed) ? plainItem(name, 'function', replace, { detail: form, documentation: meaning, rank: 6 }) : [],
  );
}

/** Every letter typed stands in the name, in this order. */
function couldBe(name: string, typed: string): boolean {
  let from = 0;
  for (const letter of typed.toLowerCase()) {
    const at = name.toLowerCase().indexOf(letter, from);
    if (at < 0) return false;
    from = at + letter.length;
  }
  return true;
}

/** A sibling, or what a group further out holds, is called without the groups that both stand in. */
function nameFrom({ name }: Fact, scope: readonly string[]): string {
  const group = scope.join('.');
  return group !== '' && name.startsWith(`${group}.`) ? name.slice(group.length + 1) : name;
}

/** The dimensions of the figures that a text holds. */
function dimensionsIn({ product }: Analysis, text: string): ReadonlySet<Dimension> {
  const found = new Set<Dimension>();
  for (const match of text.matchAll(QUANTITY)) {
    let end = match.index + match[0].length;
    while (text[end] === ' ' || text[end] === '\u00a0') end += 1;
    const unit = product.units.scan(text, end);
    if (unit !== null) found.add(unit.unit.dimension);
  }
  return found;
}

function fitsOne(content: FactContent | undefined, wanted: ReadonlySet<Dimension>): boolean {
  return content?.type === 'quantity' && wanted.has(content.dimension);
}
