/** wording: words that keep a requirement from being checked, a missing obligation word, lone numbers and units. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { Requirement } from '../model/requirement';
import type { UnitTable } from '../quantity/unit-table';
import { documentSpan } from '../syntax/markdown/document-span';
import { readStatement } from '../syntax/sentence/read-statement';
import type { Sentence, StatementReading } from '../syntax/sentence/reading';
import type { Span } from '../syntax/span';
import type { Draft } from './finding';
import { findLoneFigures, type LoneFigure } from './wording-figures';
import { findWording } from './wording-terms';

/** What binds or is a goal is looked at; what only permits or states a fact, and every attribute, is not. */
export function* wording(analysis: Analysis): Iterable<Draft> {
  for (const result of analysis.requirements) {
    const { requirement } = result;
    if (requirement.obligation === 'may' || requirement.obligation === 'will') continue;
    const settled = settledPlaces(result);
    for (const { message, span } of remarks(requirement, analysis.product.units)) {
      if (settled.some((place) => place.start < span.end && span.start < place.end)) continue;
      yield {
        code: 'wording',
        requirement: requirement.id,
        message: `${requirement.id}: ${message}`,
        place: { file: requirement.file, span },
      };
    }
  }
}

interface Remark {
  readonly message: string;
  readonly span: Span;
}

/** Words that another finding asks about already, and figures that were read as a limit. */
function settledPlaces({ problems, criteria }: RequirementResult): readonly Span[] {
  const read = criteria.flatMap(({ criterion: { trace } }) => (trace === null ? [] : [trace.quantity]));
  return [...problems.map(({ span }) => span), ...read];
}

function remarks(requirement: Requirement, units: UnitTable): readonly Remark[] {
  const { statement, obligationWritten } = requirement;
  if (statement === null) return [];
  const reading = readStatement(statement);
  const sentences = reading.sentences.filter((sentence) => !obligationWritten || promises(reading, sentence));
  const remark = (message: string, start: number, end: number): Remark => ({
    message,
    span: documentSpan(statement, start, end),
  });
  const words = findWording(reading, sentences).map(({ from, to, row }) => {
    const [start, end] = [reading.tokens[from]?.start ?? 0, reading.tokens[to - 1]?.end ?? 0];
    return remark(`${shown(reading, start, end)} ${row.why}: ${row.checkable}`, start, end);
  });
  const figures = findLoneFigures(reading, sentences, units).map((figure) =>
    remark(loneMessage(reading, figure), figure.start, figure.end),
  );
  const missing = remark(NO_OBLIGATION, 0, statement.text.length);
  return [...(obligationWritten ? [] : [missing]), ...words, ...figures];
}

const NO_OBLIGATION =
  'no obligation word says how strongly this binds, so it is taken for “shall”: write shall, should, will or may';

/** It binds or is a goal itself, or is an item of a list under a sentence that does. */
function promises({ terms, sentences }: StatementReading, { obligation, lead }: Sentence): boolean {
  const modal = obligation ?? (lead === null ? null : (sentences[lead]?.obligation ?? null));
  const meaning = terms.find(({ from }) => from === modal)?.meaning;
  return meaning?.kind === 'modal' && (meaning.binding || meaning.obligation === 'should');
}

function loneMessage(reading: StatementReading, { type, start, end, noun }: LoneFigure): string {
  const words = shown(reading, start, end);
  if (type === 'number') return `${words} has no unit, and ${noun} is measured in one: write it behind the number`;
  return `${words} is a unit without a number: write how many, such as “60 W”`;
}

function shown({ prose }: StatementReading, start: number, end: number): string {
  return `“${prose.text.slice(start, end).replace(/\s+/g, ' ')}”`;
}
