/** Cuts prose into tokens in one pass; every character but spaces belongs to exactly one. */
import { NUMBER_WORDS } from '../../../grammar/sentence-words';
import type { Prose } from '../markdown/block';
import { scanFigure, spelledNumber } from './number-token';
import type { MarkToken, NameToken, Token, WordToken } from './token';

const SPACE = /[^\S\n]+/y;
const FIGURE = /\d|\.\d|[¼½¾⅐-⅞]/uy;
/** `U.S`, `e.g`, `i.e`: single letters with full stops between. */
const INITIALS = /\p{L}(?:\.\p{L})+(?![\p{L}\d])/uy;
/** Letters, then letters, digits, and hyphens or apostrophes with more behind them. */
const WORD = /[\p{L}_][\p{L}\p{M}\p{N}_]*(?:['’‐‑-][\p{L}\p{N}_]+)*/uy;
/** `H.264`, `No.5`: a capital, then a full stop and digits. */
const DOTTED_DIGITS = /\.\d[\p{L}\d.]*(?<!\.)/uy;
/** What most words are, and nothing else begins like: letters alone, apart from what follows. */
const PLAIN_WORD = /[A-Za-z]+(?=[ ,;:()\n]|$)/y;
const HASH_NUMBER = /[#№]\d[\p{L}\d]*/uy;
const COMPOUND_MARK = /\+\/[-−–]|\+[-−]|<=|>=|=<|=>|!=|\.{2,3}/y;
const CODE = '\uFFFC';
const HYPHENS = /[‐‑]/g;
const APOSTROPHE = /’/g;

export function tokenize(prose: Prose): readonly Token[] {
  const { text } = prose;
  const codes = new Map(prose.codes.map((code, index) => [code.at, index]));
  const tokens: Token[] = [];
  let offset = 0;
  while (offset < text.length) {
    const spaces = match(SPACE, text, offset);
    if (spaces !== null) {
      offset += spaces.length;
      continue;
    }
    const token = tokenAt(text, offset, codes);
    tokens.push(token);
    offset = token.end;
  }
  return tokens;
}

function tokenAt(text: string, start: number, codes: ReadonlyMap<number, number>): Token {
  const plain = match(PLAIN_WORD, text, start);
  if (plain !== null) return wordOrNumber(plain, start);
  const code = text[start] === CODE ? codes.get(start) : undefined;
  if (code !== undefined) return { type: 'code', code, start, end: start + 1 };
  if (match(FIGURE, text, start) !== null) return scanFigure(text, start);
  const hashed = match(HASH_NUMBER, text, start);
  if (hashed !== null) return nameOf(text, start, start + hashed.length);
  return wordAt(text, start) ?? markAt(text, start);
}

function wordAt(text: string, start: number): Token | null {
  const initials = match(INITIALS, text, start);
  if (initials !== null) return wordOf(initials, start);
  const word = match(WORD, text, start);
  if (word === null) return null;
  const end = start + word.length;
  const dotted = /^\p{Lu}/u.test(word) && word.length <= 3 ? match(DOTTED_DIGITS, text, end) : null;
  if (dotted !== null) return nameOf(text, start, end + dotted.length);
  if (/\p{N}/u.test(word)) return nameOf(text, start, end);
  return wordOrNumber(word, start);
}

function wordOrNumber(word: string, start: number): Token {
  const number = NUMBER_WORDS.get(lookOf(word).key);
  return number === undefined ? wordOf(word, start) : spelledNumber(number, start, start + word.length);
}

function wordOf(word: string, start: number): WordToken {
  const { key, capitals } = lookOf(word);
  return { type: 'word', key, capitals, start, end: start + word.length };
}

type Look = Pick<WordToken, 'key' | 'capitals'>;

/** The same few words stand in every sentence. */
const looks = new Map<string, Look>();
const MOST_LOOKS = 10_000;

function lookOf(word: string): Look {
  const known = looks.get(word);
  if (known !== undefined) return known;
  const key = word.toLowerCase().replace(HYPHENS, '-').replace(APOSTROPHE, "'");
  const look = { key, capitals: word.replace(/[^\p{Lu}]/gu, '').length };
  if (looks.size >= MOST_LOOKS) looks.clear();
  looks.set(word, look);
  return look;
}

function nameOf(text: string, start: number, end: number): NameToken {
  return { type: 'name', key: text.slice(start, end).toLowerCase(), start, end };
}

function markAt(text: string, start: number): MarkToken {
  const compound = match(COMPOUND_MARK, text, start);
  const key = compound ?? String.fromCodePoint(text.codePointAt(start) ?? 0);
  return { type: 'mark', key: key.replace(/[−–]$/, '-').replace('+-', '+/-'), start, end: start + key.length };
}

function match(pattern: RegExp, text: string, offset: number): string | null {
  pattern.lastIndex = offset;
  return pattern.exec(text)?.[0] ?? null;
}
