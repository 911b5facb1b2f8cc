/**
 * The colouring of code spans, limits and front matter in Markdown, as TextMate grammars that an editor injects into its
 * own. A first impression by the line, before and without the language server, whose semantic tokens are exact.
 * TextMate language grammars: https://macromates.com/manual/en/language_grammars (from memory).
 */
import { AGGREGATES, COMPARISONS, FUNCTIONS, KEYWORDS } from './expression';
import { DOWNWARD, LIMIT_ROWS, UPWARD } from './limit-phrases';
import { BINARY_PREFIXES, DECIMAL_PREFIXES } from './prefixes';
import { WORD_ROWS } from './sentence-words';
import { UNIT_GROUPS } from './units';

/** One pattern of a grammar. */
export interface TextMateRule {
  readonly name?: string;
  readonly match?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly captures?: Readonly<Record<string, TextMateRule>>;
  readonly beginCaptures?: Readonly<Record<string, TextMateRule>>;
  readonly patterns?: readonly TextMateRule[];
}

export interface TextMateGrammar {
  readonly scopeName: string;
  readonly injectionSelector: string;
  readonly patterns: readonly TextMateRule[];
}

/** By the last part of their scope's name. */
export function injectionGrammars(): Readonly<Record<string, TextMateGrammar>> {
  return {
    'code-spans': grammar('code-spans', `${TEXT}, L:markup.heading.markdown`, [codeSpan()]),
    limits: grammar('limits', TEXT, [limit()]),
    'front-matter': grammar('front-matter', 'L:meta.embedded.block.frontmatter string.unquoted', [
      ...expressionRules(),
    ]),
  };
}

const TEXT = 'L:meta.paragraph.markdown, L:markup.table.markdown';
const WORD = '[\\p{L}\\p{N}_]';
const NAME = '[\\p{L}_][\\p{L}\\p{N}_-]*';
const NUMBER = '(?<![\\p{L}\\p{N}_.]|\\p{L}-)[-−]?\\d[\\d,]*(?:\\.\\d+)?(?:[eE][-+]?\\d+)?';

function grammar(name: string, injectionSelector: string, patterns: readonly TextMateRule[]): TextMateGrammar {
  return { scopeName: `text.plimsoll.${name}`, injectionSelector, patterns };
}

/** One that holds a dotted name or a comparison: `supply.draw`, not the name of a file or a program. */
function codeSpan(): TextMateRule {
  const path = `${NAME}(?:\\.${NAME})+`;
  const telling = `(?:[^\`]*(?:[<>≤≥≠=]|\\bwithin\\b|\\bspans\\b)[^\`]*|\\s*${path}(?:@${NAME})?\\s*)`;
  return {
    match: `(?<!\`)(\`)(?=${telling}\`(?!\`))([^\`]*)(\`)`,
    name: 'markup.inline.raw.string.markdown',
    captures: {
      1: { name: 'punctuation.definition.raw.markdown' },
      2: { name: 'meta.expression.plimsoll', patterns: expressionRules() },
      3: { name: 'punctuation.definition.raw.markdown' },
    },
  };
}

/** From an obligation word to the end of the sentence or the line. */
function limit(): TextMateRule {
  const modal = WORD_ROWS.flatMap(({ meaning, phrases }) => (meaning.kind === 'modal' ? phrases : []));
  return {
    begin: `(?<!${WORD})(${alternatives(modal)})(?!${WORD})`,
    end: '[.;](?=\\s|$)|$',
    beginCaptures: { 1: { name: 'keyword.control.obligation.plimsoll' } },
    patterns: [
      codeSpan(),
      {
        match: `(?i)(?<!${WORD})(?:(?:no|not)\\s+)?(?:${limitPhrases()})(?=\\s+[-−]?\\d)`,
        name: 'keyword.operator.limit.plimsoll',
      },
      quantity(),
    ],
  };
}

function limitPhrases(): string {
  const phrases = LIMIT_ROWS.flatMap((row) => row.phrases).filter((phrase) =>
    /^\p{L}/u.test(phrase.replace(/<|>/g, '')),
  );
  const shown = phrases.map((phrase) =>
    phrase
      .split(' ')
      .map((word) => ({ '<up>': group(UPWARD), '<down>': group(DOWNWARD), '<any>': '\\p{L}+' })[word] ?? escaped(word))
      .join('\\s+'),
  );
  return [...new Set(shown)].sort((a, b) => b.length - a.length).join('|');
}

/** A number, and the unit behind it where it is one that the language knows. */
function quantity(): TextMateRule {
  const unit = unitPattern();
  return {
    match: `(${NUMBER})(?:\\s?(${unit}(?:[·*/]${unit}(?:\\^-?\\d)?)*)(?!${WORD}))?`,
    captures: { 1: { name: 'constant.numeric.plimsoll' }, 2: { name: 'keyword.other.unit.plimsoll' } },
  };
}

function expressionRules(): readonly TextMateRule[] {
  const reserved = [...KEYWORDS];
  return [
    quantity(),
    { match: `(?<!${WORD}|[.-])(?:${alternatives(reserved)})(?!${WORD}|[-.])`, name: 'keyword.operator.word.plimsoll' },
    {
      match: `(?<!${WORD})(?:${alternatives([...FUNCTIONS.keys(), ...AGGREGATES.keys()])})(?=\\()`,
      name: 'support.function.plimsoll',
    },
    { match: `${alternatives(COMPARISONS.map(([sign]) => sign))}|[±+*/^]`, name: 'keyword.operator.plimsoll' },
    { match: `${NAME}(?:\\.${NAME})*`, name: 'variable.other.fact.plimsoll' },
  ];
}

function unitPattern(): string {
  const units = UNIT_GROUPS.flatMap(({ units: rows }) => rows);
  const words = units.flatMap(([own, , , names]) => [...own.split(','), ...names.split(',')]);
  const prefixes = [...DECIMAL_PREFIXES, ...BINARY_PREFIXES].flatMap(([symbols]) => symbols);
  const known = [...words.map((word) => word.trim()).filter((word) => word !== ''), '%'];
  return `${group(prefixes)}?${group(known)}`;
}

function group(words: readonly string[]): string {
  return `(?:${alternatives(words)})`;
}

/** The longest first, so that none hides a longer one. */
function alternatives(words: readonly string[]): string {
  return [...new Set(words)]
    .sort((a, b) => b.length - a.length || (a < b ? -1 : 1))
    .map(escaped)
    .join('|');
}

function escaped(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&');
}
