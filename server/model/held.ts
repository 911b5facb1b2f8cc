/** What was last read of a document whose front matter cannot be read now, moved to where it stands in the present text. */
import { contentStart, findFrontMatter } from '../syntax/front-matter';
import { mapSpans } from '../syntax/map-spans';
import { type Problem, spanOf } from '../syntax/span';
import { difference } from '../syntax/text-difference';
import type { DocumentModel } from './document';

/** A document as it was when its front matter could last be read. */
export interface LastGood {
  readonly text: string;
  readonly model: DocumentModel;
}

/**
 * The document with its last good facts where its front matter does not parse, else as it was read. While someone types
 * in it, whatever rests on its facts keeps them.
 */
export function heldDocument(file: string, text: string, read: DocumentModel | null, last: LastGood): DocumentModel {
  const moved = movedTo(last, text, file);
  if (findFrontMatter(text) === null) return { ...moved, problems: [unclosed(text)], held: true };
  const model = read ?? moved;
  const { facts, tables, verifications, option, title, dataFiles } = moved;
  return {
    ...model,
    title,
    option,
    facts,
    tables,
    verifications,
    dataFiles,
    problems: model.problems.map((problem) => (isUnreadable(problem) ? saidToBeHeld(problem) : problem)),
    held: true,
  };
}

/** Whether front matter that was there cannot be read: a syntax error in it, or its closing line is gone. */
export function isFrontMatterBroken(text: string, read: DocumentModel | null): boolean {
  if (read?.problems.some(isUnreadable)) return true;
  return text.startsWith('---', contentStart(text)) && findFrontMatter(text) === null;
}

function isUnreadable({ code }: Problem): boolean {
  return code === 'bad-front-matter';
}

function saidToBeHeld(problem: Problem): Problem {
  return { ...problem, message: `${problem.message} (until it can be read, the facts are held as they last were)` };
}

function unclosed(text: string): Problem {
  const start = contentStart(text);
  const message =
    'the front matter has no closing line ---; until it has, the facts and requirements are held as they last were';
  return { code: 'bad-front-matter', message, span: spanOf(start, start + 3) };
}

function movedTo({ text: before, model }: LastGood, after: string, file: string): DocumentModel {
  if (before === after) return model;
  const { start, end } = difference(before, after);
  const growth = after.length - before.length;
  const place = (offset: number) =>
    offset <= start ? offset : offset >= end - growth ? offset + growth : Math.min(offset, end);
  return mapSpans(model, file, (span) => spanOf(place(span.start), place(span.end)));
}
