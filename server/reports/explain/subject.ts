/** What a name means to somebody who asks for an explanation: a requirement, a fact, or a row of a table. */
import type { Analysis, FactResult, RequirementResult } from '../../engine/analysis';
import type { Row } from '../../model/fact';
import { nearestWords } from '../../model/nearest';

export type Subject =
  | { readonly type: 'requirement'; readonly result: RequirementResult }
  | { readonly type: 'fact'; readonly result: FactResult }
  | { readonly type: 'row'; readonly row: Row };

/** An id, a fact's name, `parts.soc`, or the bare id of a part; else what is near. */
export function subjectNamed(
  { product, requirements, facts }: Analysis,
  name: string,
): Subject | { readonly nearest: readonly string[] } {
  const requirement = requirements.find((result) => result.requirement.id === name);
  if (requirement !== undefined) return { type: 'requirement', result: requirement };
  const fact = facts.find((result) => result.fact.name === name);
  if (fact !== undefined) return { type: 'fact', result: fact };
  const dot = name.lastIndexOf('.');
  const [table, id] = dot < 0 ? ['parts', name] : [name.slice(0, dot), name.slice(dot + 1)];
  const row = product.tables.get(table)?.rowsById.get(id);
  if (row !== undefined) return { type: 'row', row };
  const rows = [...product.tables.values()].flatMap((one) => one.rows.map((own) => `${one.name}.${own.id}`));
  const ids = requirements.map((result) => result.requirement.id);
  return { nearest: nearestWords(name, [...ids, ...product.facts.keys(), ...rows]).slice(0, 3) };
}
