/** wording: words that keep a requirement from being checked, a missing obligation word, lone numbers and units. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import type { UnitTable } from '../quantity/unit-table';
import type { Prose } from '../syntax/markdown/block';
import { documentSpan } from '../syntax/markdown/document-span';
import { readStatement } from '../syntax/sentence/read-statement';
import type { Sentence, StatementReading } from '../syntax/sentence/reading';
import type { Place } from '../syntax/sentence/token';
import type { Span } from '../syntax/span';
import type { Draft } from './finding';
import { findLoneFigures, type LoneFigure } from './wording-figures';
import { findWording, type WordingTerm } from './wording-terms';

/** What binds or is a goal is looked at; what only permits or states a fact, and every attribute, is not. */
export function* wording({ product }: Analysis, { requirements }: AnalysisPart): Iterable<Draft> {
  for (const result of requirements) {
    const { id, file, obligation, statement } = result.requirement;
    if (statement === null || obligation === 'may' || obligation === 'will') continue;
    for (const { message, span } of remarks(result, statement, product.units))
      yield { code: 'wording', requirement: id, message: `${id}: ${message}`, place: { file, span } };
  }
}

interface Remark {
  readonly message: string;
  readonly span: Span;
}

function remarks(result: RequirementResult, statement: Prose, units: UnitTable): readonly Remark[] {
  const { obligationWritten } = result.requirement;
  const found = remarksOnWords(readStatement(statement), obligationWritten, units);
  const settled = found.length === 0 ? [] : settledPlaces(result);
  const unsettled = found.filter(({ span }) => !settled.some((other) => overlaps(span, other)));
  const whole = documentSpan(statement, 0, statement.text.length);
  return obligationWritten ? unsettled : [{ message: NO_OBLIGATION, span: whole }, ...unsettled];
}

/** Words that another finding asks about already, and figures that were read as a limit. */
function settledPlaces({ problems, criteria }: RequirementResult): readonly Span[] {
  const read = criteria.flatMap(({ criterion: { trace } }) => (trace === null ? [] : [trace.quantity]));
  return [...problems.map(({ span }) => span), ...read];
}

function overlaps(a: Span, b: Span): boolean {
  return a.start < b.end && b.start < a.end;
}

function remarksOnWords(reading: StatementReading, obligationWritten: boolean, units: UnitTable): readonly Remark[] {
  const binding = bindingWords(reading);
  const sentences = reading.sentences.filter(
    (sentence) => !obligationWritten || binding.has(obligationWord(reading, sentence)),
  );
  const lone = findLoneFigures(reading, sentences, units);
  const loneStarts = new Set(lone.map(({ start }) => start));
  const words = findWording(reading, sentences).filter(({ to }) => !loneStarts.has(reading.tokens[to]?.start ?? -1));
  return [
    ...words.map((term) => wordRemark(reading, term)),
    ...lone.map((figure) => remark(reading, figure, loneMessage(figure))),
  ];
}

function wordRemark(reading: StatementReading, { from, to, row }: WordingTerm): Remark {
  const place = { start: reading.tokens[from]?.start ?? 0, end: reading.tokens[to - 1]?.end ?? 0 };
  return remark(reading, place, `${row.why}: ${row.checkable}`);
}

/** The message goes on after the words. */
function remark({ prose }: StatementReading, { start, end }: Place, message: string): Remark {
  const words = prose.text.slice(start, end).replace(/\s+/g, ' ');
  return { message: `“${words}” ${message}`, span: documentSpan(prose, start, end) };
}

function loneMessage({ type, noun }: LoneFigure): string {
  if (type === 'number') return `has no unit, and ${noun} is measured in one: write it behind the number`;
  return 'is a unit without a number: write how many in front of it';
}

const NO_OBLIGATION =
  'no obligation word says how strongly this binds, so it is taken for “shall”: write shall, should, will or may';

/** Token indexes of the obligation words that bind or set a goal. */
function bindingWords({ terms }: StatementReading): ReadonlySet<number | null> {
  const modals = terms.filter(
    ({ meaning }) => meaning.kind === 'modal' && (meaning.binding || meaning.obligation === 'should'),
  );
  return new Set(modals.map(({ from }) => from));
}

/** Its own, or for an item of a list that of the sentence above the list. */
function obligationWord({ sentences }: StatementReading, { obligation, lead }: Sentence): number | null {
  return obligation ?? (lead === null ? null : (sentences[lead]?.obligation ?? null));
}
