/** Where things are: definition, references, implementation, highlights. */
import type { Analysis } from '../engine/analysis';
import type { ProductAnalysis } from '../findings/product-analysis';
import { CONFIGURATION_FILE } from '../model/configuration';
import type { Place } from '../model/place';
import { listOf } from '../model/requirement';
import {
  filesWithOccurrences,
  isSameTarget,
  type Occurrence,
  occurrenceAt,
  occurrencesIn,
  type Target,
} from './occurrences';

/** Where what stands at the offset is defined; several places where it is given more than once. */
export function definitionsAt(whole: ProductAnalysis, file: string, offset: number): readonly Place[] {
  const occurrence = at(whole, file, offset);
  return occurrence === null ? [] : definitionsOf(whole.analysis, occurrence.target);
}

/** Every place that names it, its definitions as well. */
export function referencesAt(whole: ProductAnalysis, file: string, offset: number): readonly Occurrence[] {
  const occurrence = at(whole, file, offset);
  return occurrence === null ? [] : referencesTo(whole, occurrence.target);
}

export function referencesTo(whole: ProductAnalysis, target: Target): readonly Occurrence[] {
  return filesWithOccurrences(whole.analysis).flatMap((file) =>
    occurrencesIn(whole, file).filter((one) => isSameTarget(one.target, target)),
  );
}

/** The same in one document, for highlights while the cursor moves. */
export function highlightsAt(whole: ProductAnalysis, file: string, offset: number): readonly Occurrence[] {
  const occurrence = at(whole, file, offset);
  if (occurrence === null) return [];
  const all = occurrencesIn(whole, file);
  return all.filter((one) => isSameTarget(one.target, occurrence.target));
}

/** What carries a requirement out: the given facts that it rests on, and parts that say that they satisfy it. */
export function implementationsAt(whole: ProductAnalysis, file: string, offset: number): readonly Place[] {
  const { analysis } = whole;
  const occurrence = at(whole, file, offset);
  const target = occurrence?.target;
  if (target?.type !== 'requirement') return [];
  const { id } = target.requirement;
  const result = analysis.requirements.find(({ requirement }) => requirement.id === id);
  const places: Place[] = [];
  for (const name of result?.uses ?? []) {
    const fact = analysis.product.facts.get(name);
    if (fact !== undefined && fact.content.type !== 'expression') places.push({ file: fact.file, span: fact.nameSpan });
  }
  for (const { rows } of analysis.product.tables.values())
    for (const row of rows) {
      const satisfies = row.fields.get('satisfies');
      const isNamed =
        satisfies !== undefined &&
        occurrencesIn(whole, satisfies.file).some(
          (one) =>
            one.target.type === 'requirement' &&
            one.target.requirement.id === id &&
            satisfies.span.start <= one.span.start &&
            one.span.end <= satisfies.span.end,
        );
      if (isNamed) places.push(row.place);
    }
  return places;
}

/** Requirements that derive from one. */
export function childrenOf({ requirements }: Analysis, id: string): readonly Place[] {
  return requirements
    .filter(({ requirement }) => listOf(requirement, 'Derives from').includes(id))
    .map(({ requirement }) => ({ file: requirement.file, span: requirement.idSpan }));
}

function at(whole: ProductAnalysis, file: string, offset: number): Occurrence | null {
  return occurrenceAt(occurrencesIn(whole, file), offset);
}

function definitionsOf({ product }: Analysis, target: Target): readonly Place[] {
  switch (target.type) {
    case 'requirement':
      return product.requirements
        .filter(({ id }) => id === target.requirement.id)
        .map(({ file, idSpan }) => ({ file, span: idSpan }));
    case 'fact': {
      const all = product.duplicates.get(target.fact.name) ?? [target.fact];
      return all.map(({ file, nameSpan }) => ({ file, span: nameSpan }));
    }
    case 'row':
      return [target.row.place];
    case 'table':
      return product.documents.flatMap(({ tables }) =>
        tables.filter(({ name }) => name === target.table.name).map(({ place }) => place),
      );
    case 'field':
      return target.table.rows.flatMap(({ fields }) => {
        const field = fields.get(target.field);
        return field === undefined ? [] : [{ file: field.file, span: field.nameSpan }];
      });
    case 'record':
      return [{ file: target.record.file, span: target.record.idSpan }];
    case 'mode':
      return product.configuration.modes.flatMap(({ text, scalar }) =>
        text === target.mode && scalar !== null ? [{ file: CONFIGURATION_FILE, span: scalar.span }] : [],
      );
  }
}
