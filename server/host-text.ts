/** Bytes of files as text: UTF-8 and nothing else, and what is said of the rest. */
import { MAXIMUM_FILE_BYTES, type WriteCondition } from './host';
import { type Problem, spanOf } from './syntax/span';

/** Text of a file. With a problem the text is empty and the file is ignored. */
export interface DecodedText {
  readonly text: string;
  /** The file begins with U+FEFF. It is no part of `text`, as in an editor, and belongs back when the file is written. */
  readonly byteOrderMark: boolean;
  readonly problem: Problem | null;
}

/** UTF-8, and nothing else: anything that is not is a `bad-encoding` problem that names what it looks like. */
export function decodeText(bytes: Uint8Array): DecodedText {
  const wide = wideEncoding(bytes);
  if (wide !== null) return undecodable(`it looks like ${wide}`);
  try {
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return { text, byteOrderMark: startsWith(bytes, UTF_8_MARK), problem: null };
  } catch {
    return undecodable(`line ${lineOfFirstMistake(bytes)} has bytes that are not`);
  }
}

/** The bytes of a text as {@link decodeText} reads them back. */
export function encodeText(text: string, byteOrderMark: boolean): Uint8Array {
  return new TextEncoder().encode(byteOrderMark ? `\uFEFF${text}` : text);
}

/** A file that is too large to be read, as the problem it is. */
export function tooLarge(size: number): Problem {
  const megabytes = (size / 1_000_000).toFixed(1);
  const limit = MAXIMUM_FILE_BYTES / 1_000_000;
  return {
    code: 'too-large',
    message: `the file has ${megabytes} MB, more than the ${limit} MB that are read: it is ignored`,
    span: spanOf(0, 0),
  };
}

/** What a write puts into a file: bytes as they are, a text with the byte order mark that the file had before. */
export function bytesToWrite(content: string | Uint8Array, condition: WriteCondition): Uint8Array {
  if (typeof content !== 'string') return content;
  return encodeText(content, condition.type === 'unchanged' && startsWith(condition.bytes, UTF_8_MARK));
}

/** Byte order marks (Unicode Standard, chapter 23.8), the longer first where one begins like another. */
const UTF_8_MARK = [0xef, 0xbb, 0xbf];
const WIDE_MARKS: readonly (readonly [name: string, mark: readonly number[]])[] = [
  ['UTF-32 little-endian', [0xff, 0xfe, 0, 0]],
  ['UTF-32 big-endian', [0, 0, 0xfe, 0xff]],
  ['UTF-16 little-endian', [0xff, 0xfe]],
  ['UTF-16 big-endian', [0xfe, 0xff]],
];

/** How many bytes are looked at to tell UTF-16 without a mark. */
const SAMPLE_BYTES = 4096;

function wideEncoding(bytes: Uint8Array): string | null {
  const marked = WIDE_MARKS.find(([, mark]) => startsWith(bytes, mark));
  return marked ? marked[0] : unmarkedWideEncoding(bytes.subarray(0, SAMPLE_BYTES));
}

/** Mostly Latin text in UTF-16 has a zero in nearly every second byte, and none between. */
function unmarkedWideEncoding(sample: Uint8Array): string | null {
  let even = 0;
  let odd = 0;
  for (let index = 0; index < sample.length; index++) {
    if (sample[index] !== 0) continue;
    if (index % 2 === 0) even++;
    else odd++;
  }
  if (sample.length % 2 === 1) return null;
  const many = Math.max(1, sample.length / 4);
  if (odd > many && even === 0) return 'UTF-16 little-endian';
  return even > many && odd === 0 ? 'UTF-16 big-endian' : null;
}

function startsWith(bytes: Uint8Array, mark: readonly number[]): boolean {
  return mark.every((byte, index) => bytes[index] === byte);
}

function undecodable(why: string): DecodedText {
  const message = `not UTF-8 (${why}): the file is ignored`;
  return { text: '', byteOrderMark: false, problem: { code: 'bad-encoding', message, span: spanOf(0, 0) } };
}

/** Counted from 1. */
function lineOfFirstMistake(bytes: Uint8Array): number {
  let low = 0;
  let high = bytes.length;
  // The longest beginning that decodes; `stream` forgives a character cut off by the end.
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (decodes(bytes.subarray(0, middle))) low = middle;
    else high = middle - 1;
  }
  let line = 1;
  for (const byte of bytes.subarray(0, low)) if (byte === 0x0a) line++;
  return line;
}

function decodes(bytes: Uint8Array): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}
