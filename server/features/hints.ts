/** Inlay hints: behind a code span the criterion as read, behind a given figure how far it may move. */
import type { RequirementResult } from '../engine/analysis';
import type { FigureRanges } from '../engine/ranges/ranges';
import { figuresText } from '../findings/criterion-text';
import type { ProductAnalysis } from '../findings/product-analysis';
import { endText } from '../findings/range-text';
import type { Span } from '../syntax/span';

export interface InlayHint {
  readonly offset: number;
  readonly text: string;
  readonly tooltip: string;
}

/** In text order. Ranges are shown once they are worked out. */
export function hintsIn(whole: ProductAnalysis, file: string, span: Span): readonly InlayHint[] {
  const { analysis } = whole;
  const hints = analysis.requirements
    .filter(({ requirement }) => requirement.file === file && touches(requirement.span, span))
    .flatMap((result) => criterionHints(whole, result));
  return [...hints, ...rangeHints(whole, file)]
    .filter(({ offset }) => span.start <= offset && offset <= span.end)
    .sort((a, b) => a.offset - b.offset);
}

function criterionHints(
  { texts }: ProductAnalysis,
  { requirement, criteria }: RequirementResult,
): readonly InlayHint[] {
  const text = texts.get(requirement.file) ?? '';
  return criteria.map((result) => {
    const { criterion, verdict } = result;
    return {
      offset: behindCode(text, criterion.namePlace.span.end),
      text: `${criterion.text}${figuresText(result)}`,
      tooltip: `${requirement.id}: ${verdict}`,
    };
  });
}

/** Behind the backticks that close a code span. */
function behindCode(text: string, end: number): number {
  let at = end;
  while (text[at] === ' ') at += 1;
  if (text[at] !== '`') return end;
  while (text[at] === '`') at += 1;
  return at;
}

function rangeHints({ analysis, ranges }: ProductAnalysis, file: string): readonly InlayHint[] {
  if (ranges === null) return [];
  const document = analysis.product.documents.find((one) => one.file === file);
  const facts = [
    ...(document?.facts ?? []),
    ...(document?.tables ?? []).flatMap(({ rows }) => rows.flatMap((row) => [...row.fields.values()])),
  ];
  return facts
    .filter((fact) => fact.file === file)
    .flatMap((fact) => {
      const shown = ranges.ofFact(fact.name).find(({ figure }) => figure.movement !== 'half-width');
      const text = shown === undefined ? null : allowedHint(shown);
      return text === null ? [] : [{ offset: fact.span.end, text, tooltip: `${fact.name}, all else as it is` }];
    });
}

/** `12 W (TRN-035) to 60 W (TRN-031)`; null where nothing binds it. */
function allowedHint({ figure, allowed }: FigureRanges): string | null {
  if (allowed === null) return null;
  const { low, high } = allowed;
  const bound = (by: string | null) => (by === null ? '' : ` (${by})`);
  const from = low === null ? null : `${endText(figure, low, 'up')}${bound(low.by)}`;
  const to = high === null ? null : `${endText(figure, high, 'down')}${bound(high.by)}`;
  if (from === null && to === null) return null;
  if (from === null) return `may go up to ${to}`;
  return to === null ? `may go down to ${from}` : `may go from ${from} to ${to}`;
}

function touches(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}
