/** What a requirement is called in one line. */
import type { Requirement } from '../model/requirement';

/** Characters of a statement that stand for a title. */
const MOST_TITLE = 60;

/** Its title; a requirement of a table has its first words instead. */
export function shownTitle({ title, statement }: Requirement): string {
  if (title !== '' || statement === null) return title;
  const words = statement.text.replace(/\uFFFC/gu, '…').trim();
  return words.length > MOST_TITLE ? `${words.slice(0, MOST_TITLE - 1)}…` : words;
}
