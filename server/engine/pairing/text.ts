/** Phrases, quantities and places as people write them, for messages and fixes. */
import { dateOfBase } from '../../quantity/calendar';
import { differenceUnit } from '../../quantity/conversion';
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import { UNITY, type Unit } from '../../quantity/unit';
import { documentSpan } from '../../syntax/markdown/document-span';
import { type Edit, type Fix, NOWHERE, type Span } from '../../syntax/span';
import { type Context, keyAt } from './context';
import type { Figure } from './figure';
import { firstBehind } from './near';
import type { PartRelation, Phrase } from './phrase';

export function spanAt(context: Context, start: number, end: number): Span {
  return documentSpan(context.reading.prose, start, end);
}

/** The words of a phrase in quotation marks; with the noun behind a plain number: “six ports”. */
export function quote(context: Context, phrase: Phrase): string {
  const noun = phrase.figure.lowUnit === null && phrase.figure.base === null ? context.tokens[phrase.next] : undefined;
  const isNoun = noun?.type === 'word' && noun.start - phrase.end <= 1 && isContent(context, phrase.next);
  return `“${shownText(context, phrase.start, isNoun ? noun.end : phrase.end)}”`;
}

function isContent(context: Context, index: number): boolean {
  return !context.termFrom.has(index) && !FUNCTION_WORDS.has(keyAt(context, index));
}

const FUNCTION_WORDS: ReadonlySet<string> = new Set(
  'and or but of to in at on with for from per by as is are be the a an'.split(' '),
);

/** Prose as a reader sees it, code spans with their backticks. */
export function shownText(context: Context, start: number, end: number): string {
  let next = firstBehind(context.reading.prose.codes, start - 1, ({ at }) => at);
  const shown = context.text
    .slice(start, end)
    .replace(/\uFFFC/g, () => `\`${context.reading.prose.codes[next++]?.code ?? ''}\``);
  return shown.replace(/\s+/g, ' ').trim();
}

/** `60 W`, `6`, `2027-03-31`: a literal of the expression grammar. */
export function literalText(value: Rational, unit: Unit | null): string {
  if (unit?.point === 'date') return dateOfBase(value) ?? '';
  const { offset, factor, symbol } = unit ?? UNITY;
  const number = rational.divide(rational.subtract(value, offset), factor);
  const digits = rational.toExactDecimal(number, MOST_DECIMALS) ?? String(rational.toDouble(number));
  return symbol === UNITY.symbol ? digits : `${digits} ${symbol}`;
}

const MOST_DECIMALS = 30;

export type Reading = PartRelation | 'within' | 'spans';

const WORDS: Readonly<Record<Reading, string>> = {
  '>=': 'at least',
  '<=': 'at most',
  '>': 'more than',
  '<': 'less than',
  '=': 'exactly',
  ends: 'from',
  within: 'within',
  spans: 'spanning',
};

/** “at least 6” */
export function readingText(context: Context, reading: Reading, figure: Figure): string {
  return `${WORDS[reading]} ${figureText(context, figure)}`;
}

/** `60 W`, `36 V to 57 V`, `0.8 * rating`. */
export function figureText(context: Context, { low, high, form, base, ...units }: Figure): string {
  const [lowUnit, highUnit] = [units.lowUnit, units.highUnit].map((unit) =>
    unit !== null && form === 'around-zero' ? differenceUnit(unit) : unit,
  ) as [Unit | null, Unit | null];
  const first = literalText(low, lowUnit);
  if (base !== null) return `${first} * ${inFactor(context.reading.prose.codes[base]?.code ?? '')}`;
  return form === 'plain' ? first : `${first} to ${literalText(high, highUnit)}`;
}

/** An expression as a factor: with brackets unless it is one name. */
function inFactor(code: string): string {
  return /^[\p{L}_][\p{L}\d_.-]*$/u.test(code) ? code : `(${code})`;
}

/** The condition that a reading makes of a name: `draw <= 60 W`, `input spans 9 V to 36 V`. */
export function conditionText(context: Context, code: string, reading: Reading, figure: Figure): string {
  const operator = reading === 'ends' ? 'within' : reading;
  const expression = / else /.test(code) ? `(${code})` : code;
  return `${expression} ${operator} ${figureText(context, figure)}`;
}

export function replaceCode(context: Context, code: number, text: string): Fix {
  const span = context.reading.prose.codes[code]?.span ?? NOWHERE;
  return { title: `Write \`${text}\``, edits: [{ span, text }] };
}

export function insertBefore(context: Context, offset: number, words: string, title: string): Fix {
  const edit: Edit = { span: spanAt(context, offset, offset), text: `${words} ` };
  return { title, edits: [edit] };
}
