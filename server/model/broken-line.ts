/** A hard-wrapped sentence whose next line begins like a list or a quote: `+ 5 %`, `- 20 °C`, `> 60 W`. */
import type { Block, ListItem, Prose } from '../syntax/markdown/block';
import { tokenize } from '../syntax/sentence/tokenize';
import { type Fix, type Problem, type Span, spanOf } from '../syntax/span';

/**
 * What is wrong with a block directly after a statement that does not end with a colon, when it begins with a quantity:
 * Markdown parts it from the sentence, so a limit would lose its end or its tolerance in silence. Null for all others.
 *
 * @param before where the statement, or the item of its list, stands
 * @param text the document's
 */
export function brokenLine(before: Span, block: Block, text: string): Problem | null {
  const length = block.type === 'list' ? listStart(block.items[0]) : quoteStart(block, text);
  if (length === null) return null;
  const [start, end] = [block.span.start, block.span.start + length];
  const shown = text.slice(start, end).replace(/\s+/g, ' ');
  return {
    code: 'broken-line',
    message: `“${shown}” begins a ${block.type === 'list' ? 'list' : 'quote'} here and is parted from its sentence: write it on the line before; if it is meant so, end the sentence with a colon`,
    span: spanOf(start, end),
    ...joinFix(before.end, start, text),
  };
}

/** Whether an item begins with a number in digits, with or without a sign. */
export function beginsWithQuantity(item: ListItem | undefined): boolean {
  return listStart(item) !== null;
}

/** From the item's marker to the end of its first number. */
function listStart(item: ListItem | undefined): number | null {
  const first = item?.blocks[0];
  if (item === undefined || first?.type !== 'paragraph') return null;
  const end = endOfNumber(first.prose);
  return end === null ? null : first.span.start - item.span.start + end;
}

const SIGNS = ['+', '-', '−', '–', '±', '+/-', '€', '£', '¥', '$'];

function endOfNumber(prose: Prose): number | null {
  const [first, second] = tokenize({ ...prose, text: prose.text.slice(0, LONGEST_START), codes: [] });
  const number = first?.type === 'mark' && SIGNS.includes(first.key) ? second : first;
  return number?.type === 'number' && !number.spelled ? number.end : null;
}

/** Characters looked at for the first number. */
const LONGEST_START = 60;
const QUOTE = /^>[ \t]*[-+−±]?\d[\d.,]*/;

/** `> 60 W`: a sign that begins a quote. */
function quoteStart({ type, span }: Block, text: string): number | null {
  if (type !== 'other') return null;
  return QUOTE.exec(text.slice(span.start, span.start + LONGEST_START))?.[0].length ?? null;
}

/** Only where it is the very next line: past an empty line it was meant to stand apart. */
function joinFix(before: number, start: number, text: string): { readonly fix?: Fix } {
  if (!/^\r?\n[ \t]*$/.test(text.slice(before, start))) return {};
  return { fix: { title: 'Join the lines', edits: [{ span: spanOf(before, start), text: ' ' }] } };
}
