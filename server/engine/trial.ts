/** Verdicts as if some given figures had other values, or a row were taken out: only what rests on them is judged anew. */
import type { Product } from '../model/product';
import { type Changes, changedProduct } from './changes';
import { Lowering } from './lowering/lowering';
import { type RequirementResult, requirementResult } from './requirement-result';

export { type ChangedValue, type Changes, changedProduct, type RowName } from './changes';

export interface Trial {
  readonly product: Product;
  /** All requirements, in the order of the product; those that nothing changed touches as they were. */
  readonly requirements: readonly RequirementResult[];
  /** Those judged anew, before and after. */
  readonly touched: readonly { readonly before: RequirementResult; readonly after: RequirementResult }[];
}

/** @param results the verdicts of the product as it is written */
export function trial(product: Product, results: readonly RequirementResult[], changes: Changes): Trial {
  const changed = changedProduct(product, changes);
  const lowering = new Lowering(changed);
  const names = touchedNames(product, changes);
  const touched: { before: RequirementResult; after: RequirementResult }[] = [];
  const requirements = results.map((before) => {
    if (!isTouched(before, names)) return before;
    const after = requirementResult(lowering, before.requirement);
    touched.push({ before, after });
    return after;
  });
  return { product: changed, requirements, touched };
}

/** One requirement of the product as if the changes were made. */
export function judgedAnew(product: Product, { requirement }: RequirementResult, changes: Changes): RequirementResult {
  return requirementResult(new Lowering(changedProduct(product, changes)), requirement);
}

function touchedNames(product: Product, { values, without }: Changes): ReadonlySet<string> {
  const names = new Set(values.map(({ name }) => name));
  for (const { table, id } of without) {
    names.add(table);
    for (const { name } of product.tables.get(table)?.rowsById.get(id)?.fields.values() ?? []) names.add(name);
  }
  return names;
}

/** What conditions of applying rest on, and what was not read yet for want of a value, is not among the uses. */
function isTouched({ uses, appliesWhen, verdict }: RequirementResult, names: ReadonlySet<string>): boolean {
  if (appliesWhen.length > 0 || verdict === 'undecided') return true;
  for (const name of names) if (uses.has(name)) return true;
  return false;
}
