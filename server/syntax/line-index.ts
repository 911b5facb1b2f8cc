/** Offsets of a text as lines and characters. */

/** Both from 0; characters are UTF-16 code units. */
export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface LineIndex {
  /** At least one, the empty line after a last line end included. */
  readonly lineCount: number;
  positionAt(offset: number): Position;
  /** Where a line begins; past the last line, the end of the text. */
  startOf(line: number): number;
  /** Where a line ends, its line end left out. */
  endOf(line: number): number;
}

/** Lines end at LF, CRLF or a lone CR, as editors count them. */
export function createLineIndex(text: string): LineIndex {
  const starts = [0];
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    if (code === 0x0d && text.charCodeAt(index + 1) === 0x0a) continue;
    if (code === 0x0a || code === 0x0d) starts.push(index + 1);
  }
  const startOf = (line: number) => (line < 0 ? 0 : (starts[line] ?? text.length));
  return {
    lineCount: starts.length,
    startOf,
    endOf: (line) => {
      const start = startOf(line);
      let end = startOf(line + 1);
      while (end > start && isLineEnd(text.charCodeAt(end - 1))) end -= 1;
      return end;
    },
    positionAt: (offset) => {
      const line = lineOf(starts, Math.min(Math.max(offset, 0), text.length));
      return { line, character: Math.min(offset, text.length) - (starts[line] ?? 0) };
    },
  };
}

function isLineEnd(code: number): boolean {
  return code === 0x0a || code === 0x0d;
}

/** The last line that starts at or before the offset. */
function lineOf(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
