/** no-source: given figures that decide a binding requirement, and nobody says where they come from. */
import type { Analysis } from '../engine/analysis';
import { isBinding } from '../engine/binding';
import type { AnalysisPart } from '../engine/parts';
import { CONFIGURATION_FILE } from '../model/configuration';
import { type Fact, TEXT_FIELDS } from '../model/fact';
import type { Product } from '../model/product';
import type { Draft } from './finding';

export function* withoutSource({ product, index }: Analysis, { facts }: AnalysisPart): Iterable<Draft> {
  const rows = new Set<string>();
  for (const { fact } of facts) {
    const row = fact.row === null ? null : `${fact.row.table}.${fact.row.id}`;
    if ((row !== null && rows.has(row)) || !isWithoutSource(product, fact)) continue;
    const decided = index().restingOn(fact.name).find(isBinding);
    if (decided === undefined) continue;
    if (row !== null) rows.add(row);
    yield draft(fact, row, decided.id);
  }
}

/** A row says it once for all its fields. */
function isWithoutSource(product: Product, fact: Fact): boolean {
  const { content, source, row, file } = fact;
  if (source !== null || file === CONFIGURATION_FILE) return false;
  if (content.type !== 'value' && content.type !== 'modes' && content.type !== 'curve') return false;
  if (row === null) return true;
  const field = fact.name.slice(fact.name.lastIndexOf('.') + 1);
  return !TEXT_FIELDS.has(field) && !product.tables.get(row.table)?.rowsById.get(row.id)?.fields.has('source');
}

function draft(fact: Fact, row: string | null, id: string): Draft {
  const name = row ?? fact.name;
  const mend = row === null ? '{value: …, source: "…"}' : 'a field source: "…"';
  return {
    code: 'no-source',
    message: `${name} decides ${id}, and nothing says where it comes from; write ${mend}`,
    place: { file: fact.file, span: fact.nameSpan },
    alike: { name, mend },
  };
}
