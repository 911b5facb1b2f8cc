/** Texts of a product in Markdown that we write: whatever they hold, they are shown and mean nothing (CommonMark 0.31, 2.4). */
import { wellFormed } from '../well-formed';

/** One line; every character that Markdown or HTML may read as markup is escaped. */
export function escapedMarkdown(text: string): string {
  return oneLine(text).replace(/[\\`*_[\]<>#|~&]/g, '\\$&');
}

/** A code span that stands in a table: its fence is longer than any in it (6.1), its bars are escaped. */
export function markdownCode(code: string): string {
  const clean = oneLine(code).replaceAll('|', '\\|');
  const longest = Math.max(0, ...[...clean.matchAll(/`+/g)].map(([run]) => run.length));
  const fence = '`'.repeat(longest + 1);
  const space = clean.startsWith('`') || clean.endsWith('`') || clean === '' ? ' ' : '';
  return `${fence}${space}${clean}${space}${fence}`;
}

export function markdownLink(label: string, href: string | null): string {
  return href === null ? label : `[${label}](<${href}>)`;
}

/** A table; cells are Markdown already. */
export function markdownTable(columns: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(columns), line(columns.map(() => '---')), ...rows.map(line)].join('\n');
}

function oneLine(text: string): string {
  return wellFormed(text).replaceAll('\0', '\uFFFD').replace(/\s+/g, ' ').trim();
}
