/** From a place in prose back to the place in the document that shows it. */
import { spanBeside } from '../anchor';
import { NOWHERE, type Span } from '../span';
import type { Prose, ProseRun } from './block';

/**
 * The part of the document that shows `prose.text[start … end)`. An end inside a run that is not verbatim (a character
 * reference, a line break, a code span) takes the run whole. Of an empty range the place where its character begins.
 */
export function documentSpan(prose: Prose, start: number, end: number): Span {
  const from = startInDocument(prose, start);
  const other = prose.runs[0]?.documentSpan ?? NOWHERE;
  return spanBeside(other, from, end <= start ? from : Math.max(from, endInDocument(prose, end)));
}

function startInDocument(prose: Prose, offset: number): number {
  const run = firstRun(prose, (candidate) => candidate.start + candidate.length > offset);
  if (!run) return prose.runs.at(-1)?.documentSpan.end ?? 0;
  return run.verbatim ? run.documentSpan.start + Math.max(0, offset - run.start) : run.documentSpan.start;
}

function endInDocument(prose: Prose, offset: number): number {
  const run = firstRun(prose, (candidate) => candidate.start + candidate.length >= offset && candidate.length > 0);
  if (!run) return prose.runs.at(-1)?.documentSpan.end ?? 0;
  return run.verbatim ? run.documentSpan.start + Math.max(0, offset - run.start) : run.documentSpan.end;
}

function firstRun(prose: Prose, holds: (run: ProseRun) => boolean): ProseRun | undefined {
  return prose.runs.find(holds);
}
