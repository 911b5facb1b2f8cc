/** duplicate-id, unknown parents, duplicate rows, undecided options: things that must be one and are not. */
import type { Analysis } from '../engine/analysis';
import { duplicateRow } from '../engine/lowering/names';
import type { AnalysisPart } from '../engine/parts';
import { derivedIn } from '../engine/relations';
import { nearestWords } from '../model/nearest';
import { listOf } from '../model/requirement';
import type { Draft } from './finding';

/** What must be one and is not, wherever it stands. */
export function* identities(analysis: Analysis): Iterable<Draft> {
  yield* duplicateRows(analysis);
  yield* unknownParents(analysis);
  yield* undecidedOptions(analysis);
}

/** Found on each; the first is the one that others mean. */
export function* duplicateIds({ index }: Analysis, { requirements }: AnalysisPart): Iterable<Draft> {
  for (const { requirement: one } of requirements) {
    const { id } = one;
    const all = index().withId(id);
    if (all.length < 2) continue;
    const related = all
      .filter((other) => other !== one)
      .map((other) => ({ place: { file: other.file, span: other.idSpan }, message: `${id} stands here too` }));
    const which =
      one === all[0] ? 'this one, the first, is the one that others mean' : 'the first is the one that others mean';
    yield {
      code: 'duplicate-id',
      requirement: id,
      message: `${id} stands ${all.length} times; ${which}`,
      place: { file: one.file, span: one.idSpan },
      related,
    };
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

function* unknownParents(analysis: Analysis): Iterable<Draft> {
  const { product, index } = analysis;
  for (const requirement of analysis.parts.flatMap(derivedIn)) {
    for (const attribute of requirement.attributes.filter(({ key }) => key === 'Derives from')) {
      for (const parent of listOf({ ...requirement, attributes: [attribute] }, 'Derives from')) {
        if (index().withId(parent).length > 0) continue;
        const [near] = nearestWords(
          parent,
          product.requirements.map(({ id }) => id),
        );
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
