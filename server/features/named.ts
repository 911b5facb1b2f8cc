/** Something of a product by its name: a requirement's id, a fact's full name, a row's. */
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Place } from '../model/place';
import { describe } from './hover';
import type { Target } from './occurrences';

export interface Named {
  readonly target: Target;
  readonly place: Place;
}

/** Null where nothing has the name. */
export function named({ analysis }: ProductAnalysis, name: string): Named | null {
  const { product } = analysis;
  const requirement = product.requirements.find(({ id }) => id === name);
  if (requirement !== undefined) {
    const place = { file: requirement.file, span: requirement.idSpan };
    return { target: { type: 'requirement', requirement }, place };
  }
  const fact = product.facts.get(name);
  if (fact !== undefined)
    return { target: { type: 'fact', fact, mode: null }, place: { file: fact.file, span: fact.nameSpan } };
  const dot = name.lastIndexOf('.');
  const row = product.tables.get(name.slice(0, Math.max(dot, 0)))?.rowsById.get(name.slice(dot + 1));
  return row === undefined ? null : { target: { type: 'row', row }, place: row.place };
}

/** All that is known of it, as Markdown; null where nothing has the name. */
export function documentationOf(whole: ProductAnalysis, name: string): string | null {
  const found = named(whole, name);
  return found === null ? null : describe(whole, found.target);
}
