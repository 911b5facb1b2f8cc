/** duplicate-id, unknown parents, duplicate rows, undecided options: things that must be one and are not. */
import type { Analysis } from '../engine/analysis';
import { duplicateRow } from '../engine/lowering/names';
import { nearestWords } from '../model/nearest';
import { listOf, type Requirement } from '../model/requirement';
import type { Draft } from './finding';

export function* identities(analysis: Analysis): Iterable<Draft> {
  yield* duplicateIds(analysis.product.requirements);
  yield* duplicateRows(analysis);
  yield* unknownParents(analysis.product.requirements);
  yield* undecidedOptions(analysis);
}

/** Found on each; the first is the one that others mean. */
function* duplicateIds(requirements: readonly Requirement[]): Iterable<Draft> {
  const byId = group(requirements);
  for (const [id, all] of byId) {
    if (all.length < 2) continue;
    for (const one of all) {
      const related = all
        .filter((other) => other !== one)
        .map((other) => ({ place: { file: other.file, span: other.idSpan }, message: `${id} stands here too` }));
      const [first] = all;
      const which =
        one === first ? 'this one, the first, is the one that others mean' : 'the first is the one that others mean';
      yield {
        code: 'duplicate-id',
        requirement: id,
        message: `${id} stands ${all.length} times; ${which}`,
        place: { file: one.file, span: one.idSpan },
        related,
      };
    }
  }
}

/** Found on each row. */
function* duplicateRows({ product }: Analysis): Iterable<Draft> {
  for (const { duplicateRows: rowsById } of product.tables.values()) {
    for (const rows of rowsById.values()) {
      for (const row of rows) {
        const { message, related } = duplicateRow([row, ...rows.filter((other) => other !== row)]);
        yield { code: 'duplicate-id', message, place: row.place, related };
      }
    }
  }
}

function group(requirements: readonly Requirement[]): ReadonlyMap<string, readonly Requirement[]> {
  const byId = new Map<string, Requirement[]>();
  for (const requirement of requirements) byId.set(requirement.id, [...(byId.get(requirement.id) ?? []), requirement]);
  return byId;
}

function* unknownParents(requirements: readonly Requirement[]): Iterable<Draft> {
  const ids = new Set(requirements.map(({ id }) => id));
  for (const requirement of requirements) {
    for (const attribute of requirement.attributes.filter(({ key }) => key === 'Derives from')) {
      for (const parent of listOf({ ...requirement, attributes: [attribute] }, 'Derives from')) {
        if (ids.has(parent)) continue;
        const [near] = nearestWords(parent, ids);
        const hint = near === undefined ? 'no id is near it' : `the nearest is ${near}`;
        yield {
          code: 'unknown-name',
          requirement: requirement.id,
          message: `${requirement.id} derives from “${parent}”, and there is no such requirement; ${hint}`,
          place: { file: requirement.file, span: attribute.span },
        };
      }
    }
  }
}

function* undecidedOptions({ product }: Analysis): Iterable<Draft> {
  for (const { group: name, alternatives, chosen } of product.undecidedOptions) {
    const names = alternatives.map(({ option }) => option?.alternative ?? '').join(', ');
    const why = chosen === null ? 'none is chosen' : `“${chosen}” is chosen, which is none of them`;
    for (const { file, option } of alternatives) {
      if (option === null) continue;
      yield {
        code: 'undecided-option',
        message: `${name} has the alternatives ${names}, and ${why}: write “choose: {${name}: ${option.alternative}}” in plimsoll.yaml`,
        place: { file, span: option.span },
      };
      break;
    }
  }
}
