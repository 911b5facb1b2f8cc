/** A reading position in the text of one expression, with the few moves a parser needs. */
import { KEYWORDS } from '../../../grammar/expression';
import type { Span } from '../span';

const NAME = /[\p{L}_](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?/uy;
/** After a dot a part of a path may begin with a digit: `rails.12V`. */
const PART = /[\p{L}\p{N}_](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?/uy;
const SPACE = /[ \t\r\n\u00a0\u2007\u2009\u202f]*/y;

export class Cursor {
  at = 0;

  /**
   * @param text the expression, already folded (see quantity/fold)
   * @param documentSpan turns offsets in `text` into places in the document
   */
  constructor(
    readonly text: string,
    private readonly documentSpan: (start: number, end: number) => Span,
  ) {
    this.skipSpace();
  }

  get atEnd(): boolean {
    return this.at >= this.text.length;
  }

  /** The place from `start` to the last character before the present position that is no space. */
  spanFrom(start: number): Span {
    const end = start + this.text.slice(start, this.at).trimEnd().length;
    return this.documentSpan(start, Math.max(start, end));
  }

  /** The place of the next word or sign; empty at the end of the text. */
  nextSpan(): Span {
    const word = this.peek(PART) ?? this.text.slice(this.at, this.at + 1);
    return this.documentSpan(this.at, this.at + word.length);
  }

  nextText(): string {
    return this.peek(PART) ?? this.text.slice(this.at, this.at + 1);
  }

  /** Takes the sign if it stands here. */
  take(sign: string): boolean {
    if (!this.text.startsWith(sign, this.at)) return false;
    this.move(sign.length);
    return true;
  }

  /** Takes the words if they stand here in this order, as whole words. */
  takeWords(...words: string[]): boolean {
    const start = this.at;
    for (const word of words) {
      if (this.peek(NAME) !== word) {
        this.at = start;
        return false;
      }
      this.move(word.length);
    }
    return true;
  }

  /** Takes `a.b.c`; null when no name stands here. A keyword is a name only after a dot. */
  takePath(): string[] | null {
    const first = this.peek(NAME);
    if (first === null || KEYWORDS.has(first)) return null;
    const parts = [first];
    this.at += first.length;
    while (this.text[this.at] === '.') {
      PART.lastIndex = this.at + 1;
      const part = PART.exec(this.text)?.[0];
      if (part === undefined) break;
      parts.push(part);
      this.at += 1 + part.length;
    }
    this.skipSpace();
    return parts;
  }

  /** Takes `"text"`, with `\"` and `\\` for a quote and a backslash inside; null when no quote stands here. */
  takeText(): { readonly text: string; readonly closed: boolean } | null {
    if (this.text[this.at] !== '"') return null;
    let content = '';
    let index = this.at + 1;
    while (index < this.text.length && this.text[index] !== '"') {
      if (this.text[index] === '\\' && index + 1 < this.text.length) index += 1;
      content += this.text[index];
      index += 1;
    }
    const closed = index < this.text.length;
    this.at = closed ? index + 1 : index;
    this.skipSpace();
    return { text: content, closed };
  }

  /** Moves over `length` characters and the space after them. */
  move(length: number): void {
    this.at += length;
    this.skipSpace();
  }

  private peek(pattern: RegExp): string | null {
    pattern.lastIndex = this.at;
    return pattern.exec(this.text)?.[0] ?? null;
  }

  private skipSpace(): void {
    SPACE.lastIndex = this.at;
    this.at += SPACE.exec(this.text)?.[0].length ?? 0;
  }
}
