/** The findings of a reading, each with a message that stands alone and fixes that edit the statement. */
import { angleHint } from '../../quantity/angle-hint';
import { coherentUnit } from '../../quantity/coherent-unit';
import * as dimensions from '../../quantity/dimension';
import { UNITY } from '../../quantity/unit';
import { type Fix, NOWHERE } from '../../syntax/span';
import type { PairingProblem } from '../pairing';
import { DECIMAL_COMMA } from './amount';
import type { Context } from './context';
import type { Name } from './fit';
import type { Phrase } from './phrase';
import { conditionText, insertBefore, quote, type Reading, readingText, replaceCode, shownText, spanAt } from './text';

/** The phrase can be read in several ways; `name` is the one that it would limit. */
export function whichReading(context: Context, phrase: Phrase, name: Name | null): PairingProblem {
  const { question } = phrase;
  if (phrase.figure.doubt === DECIMAL_COMMA) return decimalComma(context, phrase);
  const readings = question?.readings ?? [];
  const choices =
    readings.length === 0 ? '' : `: ${alternatives(readings.map((one) => readingText(context, one, phrase.figure)))}?`;
  return problem(context, 'which-limit', phrase, `${quote(context, phrase)} ${question?.why ?? ''}${choices}`, {
    fixes: name && phrase.figure.doubt === null ? conditionFixes(context, name, phrase, readings) : [],
  });
}

/** Two ends on a fact that is a range, or behind a verb that may or may not be what is promised. */
export function withinOrSpans(context: Context, phrase: Phrase, name: Name): PairingProblem {
  const message = `${quote(context, phrase)} may mean that \`${name.text}\` stays inside both ends or that it covers them: ${alternatives(
    [
      conditionText(context, name.text, 'within', phrase.figure),
      conditionText(context, name.text, 'spans', phrase.figure),
    ],
  )}?`;
  return problem(context, 'which-limit', phrase, message, {
    fixes: conditionFixes(context, name, phrase, ['within', 'spans']),
  });
}

/** A figure without a relation. */
export function bareFigure(context: Context, phrase: Phrase, name: Name | null, borrows: boolean): PairingProblem {
  if (phrase.question) return whichReading(context, phrase, name);
  const choices = alternatives(RELATIONS.map((one) => readingText(context, one, phrase.figure)));
  const why = borrows ? 'borrows its relation from the limit before it' : 'gives no relation';
  const fixes = RELATIONS.map((one) => {
    const words = readingText(context, one, phrase.figure);
    return insertBefore(
      context,
      phrase.figure.start,
      words
        .split(' ')
        .slice(0, one === '=' ? 1 : 2)
        .join(' '),
      `Write “${words}”`,
    );
  });
  return problem(context, 'which-limit', phrase, `${quote(context, phrase)} ${why}: ${choices}?`, { fixes });
}

const RELATIONS: readonly Reading[] = ['>=', '<=', '='];

/** Several phrases for one name, or several names and phrases in no clear order. */
export function severalFit(context: Context, names: readonly Name[], phrases: readonly Phrase[]): PairingProblem {
  const [first] = phrases;
  const listed = phrases.slice(0, MOST_LISTED).map((phrase) => quote(context, phrase));
  const shown = names.slice(0, MOST_LISTED).map(({ text }) => `\`${text}\``);
  const only = names.length === 1 ? names[0] : undefined;
  const fixes = only ? phrases.slice(0, MOST_LISTED).flatMap((phrase) => wholePhraseFixes(context, only, phrase)) : [];
  const message = `${listed.join(' and ')} both fit ${shown.join(' and ')}: put each figure right before the name it limits, or write a condition in the code span`;
  return problem(context, 'which-limit', first ?? null, message, { fixes });
}

const MOST_LISTED = 3;

function wholePhraseFixes(context: Context, name: Name, phrase: Phrase): readonly Fix[] {
  const part = phrase.parts.length === 1 ? phrase.parts[0] : undefined;
  return part && !phrase.question
    ? [replaceCode(context, name.code, conditionText(context, name.text, part.relation, part.figure))]
    : [];
}

/** A name that ends without a limit; `inCondition` is a phrase of a condition that would fit it. */
export function limitless(context: Context, name: Name, inCondition: Phrase | null): PairingProblem {
  const message = `\`${name.text}\` has no limit in its sentence: say at least, at most or exactly how much, or list it under “Not limits:” if it is only mentioned`;
  return codeProblem(context, name.code, message, inCondition ? wholePhraseFixes(context, name, inCondition) : []);
}

/** "shut down after 10 min (`timeout`)": read as a condition, so that nothing is promised of the name. */
export function onlyInCondition(context: Context, phrase: Phrase, name: Name): PairingProblem {
  const message = `${quote(context, phrase)} stands in a condition, so nothing is promised of \`${name.text}\`: say in the main clause at least, at most or exactly how much, or list it under “Not limits:”`;
  return problem(context, 'which-limit', phrase, message, {});
}

export function codeProblem(context: Context, code: number, message: string, fixes: readonly Fix[]): PairingProblem {
  const span = context.reading.prose.codes[code]?.outer ?? NOWHERE;
  return { code: 'which-limit', message, span, fixes, undecides: true };
}

export function shareBesideLimit(context: Context, phrase: Phrase): PairingProblem {
  const message = `${quote(context, phrase)} is a share of items beside another limit, so that limit holds for some of them only: give the share a fact and a requirement of its own`;
  return problem(context, 'which-limit', phrase, message, {});
}

export function unitMismatch(context: Context, phrase: Phrase, name: Name): PairingProblem {
  const isDifference = phrase.figure.lowUnit?.point === 'temperature' && isComparable(phrase.figure, name);
  const { lowUnit } = phrase.figure;
  const missing = lowUnit === null ? null : angleHint(lowUnit.dimension, name.type.dimension);
  const advice = isDifference
    ? 'write K for a difference of temperatures'
    : (missing ?? 'correct the unit or name the fact that it limits');
  const message = `${quote(context, phrase)} does not fit \`${name.text}\`, which is ${measuredText(context, name)}: ${advice}`;
  return problem(context, 'unit-mismatch', phrase, message, {
    fixes: isDifference ? kelvinFixes(context, phrase) : [],
  });
}

function isComparable({ lowUnit }: Phrase['figure'], { type }: Name): boolean {
  return lowUnit !== null && dimensions.isComparable(lowUnit.dimension, type.dimension);
}

/** A difference has the same number in K; °F would need another number. */
function kelvinFixes(context: Context, { figure }: Phrase): readonly Fix[] {
  const at = context.text.slice(figure.start, figure.end).lastIndexOf('°C');
  if (at === -1 || figure.form !== 'plain') return [];
  const start = figure.start + at;
  return [{ title: 'Write K', edits: [{ span: spanAt(context, start, start + 2), text: 'K' }] }];
}

/** What a person corrects by: "measured in V". */
function measuredText(context: Context, { type }: Name): string {
  if (type.point === 'date') return 'a date';
  if (type.point === 'temperature') return 'a temperature (°C)';
  if (type.point === 'level') return 'a level (dBm)';
  const { symbol } = coherentUnit(type.dimension, context.units);
  return symbol === UNITY.symbol ? 'a plain number' : `measured in ${symbol}`;
}

/** A limit or figure that no criterion uses. */
export function unchecked(context: Context, phrase: Phrase): PairingProblem {
  const message = `${quote(context, phrase)} is checked by nothing: name the design fact behind it in a code span, or list the words under “Not limits:”`;
  return problem(context, 'unchecked', phrase, message, {});
}

/** The prose says one thing and a condition another. */
export function wordsDisagree(context: Context, phrase: Phrase, other: string): PairingProblem {
  return problem(
    context,
    'words-disagree',
    phrase,
    `${quote(context, phrase)} disagrees with ${other}: make both say the same`,
    {},
  );
}

/** A second unit in brackets that is not the same quantity. */
export function restatementDiffers(context: Context, phrase: Phrase, start: number, end: number): PairingProblem {
  const shown = shownText(context, start, end);
  return wordsDisagree(context, phrase, `“${shown}”, which is not the same quantity within the digits given`);
}

export function severalObligations(context: Context, start: number, end: number): PairingProblem {
  const word = shownText(context, start, end);
  const message = `A second obligation (“${word}”) in one requirement: make it a requirement of its own, so that each can be met and tested by itself`;
  return { code: 'several-obligations', message, span: spanAt(context, start, end), fixes: [], undecides: false };
}

/** A relation word before a name with digits: "at least IP65". */
export function relationOfName(context: Context, start: number, end: number): PairingProblem {
  const message = `“${shownText(context, start, end)}” compares with a name, which has no order by itself: write a condition in a code span, such as \`x is one of ("…")\``;
  return { code: 'which-limit', message, span: spanAt(context, start, end), fixes: [], undecides: true };
}

function decimalComma(context: Context, phrase: Phrase): PairingProblem {
  const { start, end } = phrase.figure;
  const written = context.text.slice(start, end);
  const right = written.replace(/(\d),(?=\d)/g, '$1.');
  const fix: Fix = { title: `Write ${right}`, edits: [{ span: spanAt(context, start, end), text: right }] };
  const message = `“${written}” has a decimal comma: write ${right}`;
  return { code: 'bad-value', message, span: spanAt(context, start, end), fixes: [fix], undecides: true };
}

function conditionFixes(context: Context, name: Name, phrase: Phrase, readings: readonly Reading[]): readonly Fix[] {
  return readings.map((reading) =>
    replaceCode(context, name.code, conditionText(context, name.text, reading, phrase.figure)),
  );
}

function problem(
  context: Context,
  code: PairingProblem['code'],
  phrase: Phrase | null,
  message: string,
  { fixes = [] }: { fixes?: readonly Fix[] },
): PairingProblem {
  const span = phrase ? spanAt(context, phrase.start, phrase.end) : NOWHERE;
  return { code, message, span, fixes, undecides: true };
}

function alternatives(list: readonly string[]): string {
  return list.length < 2 ? list.join('') : `${list.slice(0, -1).join(', ')} or ${list.at(-1)}`;
}
