/**
 * Inline Markdown in which nothing can be read two ways (text, simple code spans, emphasis and links), read without the
 * parser to the very prose that the parser gives; a property test holds the two against each other.
 */
import { spanOf } from '../span';
import type { Prose } from './block';
import { MAXIMUM_DELIMITERS } from './delimiter-counter';
import { appendCode, appendText, createProseWriter, type ProseWriter, proseFrom } from './prose-writer';

/** A line of a paragraph, a heading or a cell, without white space around it. */
export interface PlainLine {
  /** Offset of its first character. */
  readonly start: number;
  readonly text: string;
}

/** The prose of lines that follow one another; null where the parser must decide. */
export function plainProse(lines: readonly PlainLine[]): Prose | null {
  const writer = createProseWriter();
  const from = lines[0]?.start ?? 0;
  let end = from;
  for (const [index, line] of lines.entries()) {
    if (index > 0) appendText(' ', spanOf(end, line.start), false, writer);
    if (!writeLine(line, writer)) return null;
    end = line.start + line.text.length;
  }
  // Text too short to hold that many delimiters cannot pass their limit.
  return end - from > MAXIMUM_DELIMITERS ? null : proseFrom(writer);
}

/** Characters that mean nothing wherever they stand: all but those that may begin or end an inline construct. */
const NEVER_SPECIAL = '[^\\\\&<[\\]*_`~|\\0\\t]';
/** These mean nothing where such a character follows: CommonMark 0.31.2, 2.5, 6.5 and 6.6; GFM 0.29, 6.5. */
const NOT_SPECIAL_HERE = '&(?= )|<(?=[ =])|(?<!~)~(?!~)|(?<=[A-Za-z0-9])_(?=[A-Za-z0-9])';
const TEXT = new RegExp(`(?:${NEVER_SPECIAL}+|${NOT_SPECIAL_HERE})+`, 'y');
/** One backtick on either side and no padding (CommonMark 0.31.2, 6.1). */
const CODE = /`([^` \0\t|](?:[^`\0\t|]*[^` \0\t|])?)`(?!`)/y;
/** Stars that can only open before a letter, and only close after one or before a space (CommonMark 0.31.2, 6.2). */
const EMPHASIS = new RegExp(
  `(?<=^|[ (])(\\*{1,2})((?=[\\p{L}\\p{N}])${NEVER_SPECIAL}*(?:[\\p{L}\\p{N}]\\1(?=$|[ .,;:)])|[.,:;?%]\\1(?=$| )))`,
  'uy',
);

/** Words in brackets with a bare address behind them (CommonMark 0.31.2, 6.3); no image and no footnote. */
const LINK = new RegExp(`(?<!!)\\[(?![\\^ ])(${NEVER_SPECIAL}+)(?<! )\\]\\([^\\s()<>\\\\&\`*|\\0]+\\)`, 'y');

function writeLine({ start, text }: PlainLine, writer: ProseWriter): boolean {
  for (let at = 0; at < text.length; ) {
    const length =
      writeText(text, at, start, writer) ||
      writeCode(text, at, start, writer) ||
      writeEmphasis(text, at, start, writer) ||
      writeLink(text, at, start, writer);
    if (length === 0) return false;
    at += length;
  }
  return true;
}

/** Each of the four gives how many characters it took, 0 where something else stands. */
function writeText(text: string, at: number, start: number, writer: ProseWriter): number {
  TEXT.lastIndex = at;
  if (!TEXT.test(text)) return 0;
  const end = TEXT.lastIndex;
  appendText(text.slice(at, end), spanOf(start + at, start + end), true, writer);
  return end - at;
}

function writeCode(text: string, at: number, start: number, writer: ProseWriter): number {
  CODE.lastIndex = at;
  const found = CODE.exec(text);
  if (found === null) return 0;
  const [whole, code = ''] = found;
  const from = start + at;
  appendCode(code, spanOf(from + 1, from + 1 + code.length), spanOf(from, from + whole.length), writer);
  return whole.length;
}

function writeEmphasis(text: string, at: number, start: number, writer: ProseWriter): number {
  EMPHASIS.lastIndex = at;
  const found = EMPHASIS.exec(text);
  if (found === null) return 0;
  const [whole, stars = ''] = found;
  const inner = whole.slice(stars.length, -stars.length);
  const from = start + at + stars.length;
  appendText(inner, spanOf(from, from + inner.length), true, writer);
  return whole.length;
}

function writeLink(text: string, at: number, start: number, writer: ProseWriter): number {
  LINK.lastIndex = at;
  const found = LINK.exec(text);
  if (found === null) return 0;
  const [whole, words = ''] = found;
  const from = start + at + 1;
  appendText(words, spanOf(from, from + words.length), true, writer);
  return whole.length;
}
