/** no-source: given figures that decide a binding requirement, and nobody says where they come from. */
import type { Analysis } from '../engine/analysis';
import { isBinding } from '../engine/binding';
import { CONFIGURATION_FILE } from '../model/configuration';
import { type Fact, TEXT_FIELDS } from '../model/fact';
import type { Product } from '../model/product';
import type { Draft } from './finding';

export function* withoutSource({ product, requirements }: Analysis): Iterable<Draft> {
  const deciding = new Map<string, string>();
  for (const { requirement, uses } of requirements) {
    if (!isBinding(requirement)) continue;
    for (const name of uses) if (!deciding.has(name)) deciding.set(name, requirement.id);
  }
  const rows = new Set<string>();
  for (const [name, id] of deciding) {
    const fact = product.facts.get(name);
    if (fact === undefined || !isWithoutSource(product, fact)) continue;
    const row = fact.row === null ? null : `${fact.row.table}.${fact.row.id}`;
    if (row !== null && rows.has(row)) continue;
    if (row !== null) rows.add(row);
    yield draft(fact, row, id);
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
  const mend = row === null ? '{value: …, source: "…"}' : 'a field source: "…"';
  return {
    code: 'no-source',
    message: `${row ?? fact.name} decides ${id}, and nothing says where it comes from; write ${mend}`,
    place: { file: fact.file, span: fact.nameSpan },
  };
}
