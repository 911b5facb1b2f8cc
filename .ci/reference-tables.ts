/** Makes the tables of grammar/README.md from the language's own data, so that they cannot tell another story. */
import { AMBIGUOUS_UNITS } from '../grammar/ambiguous-units';
import { ATTRIBUTES } from '../grammar/attributes';
import { CURRENCY_CODES, CURRENCY_SIGNS } from '../grammar/currencies';
import { AGGREGATES, FUNCTIONS } from '../grammar/expression';
import { FINDINGS } from '../grammar/findings';
import { DOWNWARD, LIMIT_ROWS, type LimitMeaning, UPWARD } from '../grammar/limit-phrases';
import { BINARY_PREFIXES, DECIMAL_PREFIXES } from '../grammar/prefixes';
import { UNIT_GROUPS } from '../grammar/units';
import { WORDING_KINDS } from '../grammar/wording';
import { configurationJsonSchema } from '../server/model/configuration-schema';
import { extensionData } from './extension-data';

/** The document with every generated block made anew. Throws on a block that nothing makes, or that is not closed. */
export function withTables(document: string): string {
  return document.replace(BLOCK, (_, name: string) => {
    const make = TABLES.get(name);
    if (make === undefined) throw new Error(`grammar/README.md asks for “${name}”, and there is no such table`);
    return `<!-- generated: ${name} -->\n\n${make()}\n\n<!-- end -->`;
  });
}

/** The JSON Schemas that are committed, by path: for editors that no extension of ours reaches. */
export function schemaFiles(): Readonly<Record<string, string>> {
  const schemas = Object.entries(extensionData()).filter(([path]) => path.startsWith('schemas/'));
  return Object.fromEntries(schemas.map(([path, data]) => [`grammar/${path}`, `${JSON.stringify(data, null, 2)}\n`]));
}

/** The names of the blocks in a document, in order. */
export function blocksIn(document: string): readonly string[] {
  return [...document.matchAll(OPENING)].map(([, name = '']) => name);
}

const OPENING = /<!-- generated: ([\w-]+) -->/g;
const BLOCK = /<!-- generated: ([\w-]+) -->[\s\S]*?<!-- end -->/g;

/** Every table there is, by the name that a block gives. */
export const TABLES: ReadonlyMap<string, () => string> = new Map([
  ['comparatives', comparatives],
  ['limit-phrases', limitPhrases],
  ['attributes', attributes],
  ['functions', functions],
  ['aggregates', aggregates],
  ['units', units],
  ['prefixes', prefixes],
  ['currencies', currencies],
  ['ambiguous-units', ambiguousUnits],
  ['wording', wording],
  ['findings', findings],
  ['configuration', configuration],
]);

function comparatives(): string {
  return `**↑** is any of ${UPWARD.join(', ')}.\n**↓** is any of ${DOWNWARD.join(', ')}.`;
}

function limitPhrases(): string {
  const rows = new Map<string, string[]>();
  for (const { meaning, phrases } of LIMIT_ROWS) {
    const reading = readingOf(meaning);
    rows.set(reading, [...(rows.get(reading) ?? []), ...phrases.map((phrase) => withFigure(meaning, shown(phrase)))]);
  }
  return table(
    ['is read as', 'phrases'],
    [...rows].map(([reading, phrases]) => [reading, phrases.join(', ')]),
  );
}

function shown(phrase: string): string {
  return phrase.replaceAll('<up>', '↑').replaceAll('<down>', '↓').replaceAll('<any>', '…');
}

/** Where the quantity N stands; before it where nothing is said. */
function withFigure(meaning: LimitMeaning, phrase: string): string {
  const stands = 'where' in meaning ? meaning.where : meaning.kind;
  return stands === 'after' || stands === 'better' ? `N ${phrase}` : `${phrase} N`;
}

function readingOf(meaning: LimitMeaning): string {
  switch (meaning.kind) {
    case 'relation':
    case 'extreme':
    case 'after':
      return code(meaning.relation);
    case 'within':
      return '`<=`, or both ends where two follow';
    case 'date':
      return `${code(meaning.relation)} (dates)`;
    case 'speed':
      return meaning.faster ? 'a shorter time, or a higher rate' : 'a longer time, or a lower rate';
    case 'ask':
      return `asked: ${meaning.readings.map(code).join(' or ')}`;
    default:
      return 'asked';
  }
}

function attributes(): string {
  return table(
    ['key', 'meaning', 'example'],
    ATTRIBUTES.map(({ key, meaning, values, example }) => [
      key,
      values === undefined ? meaning : `${meaning} One of: ${values.join(', ')}.`,
      verbatim(example),
    ]),
  );
}

function functions(): string {
  return table(
    ['function', 'meaning'],
    [...FUNCTIONS.values()].map(({ form, meaning }) => [code(form), meaning]),
  );
}

function aggregates(): string {
  return table(
    ['over a table', 'meaning'],
    [...AGGREGATES.values()].map(({ form, meaning }) => [code(form), meaning]),
  );
}

const PREFIX_CLASSES = { none: '', si: 'all decimal', large: 'k and larger', binary: 'k and larger, Ki …' } as const;

function units(): string {
  return UNIT_GROUPS.map(({ source, units: rows }) => {
    const cells = rows.map(([symbols, definition, prefix, names]) => {
      const [first = '', ...others] = [...listOf(symbols), ...listOf(names)];
      return [code(first), others.join(', '), code(definition), PREFIX_CLASSES[prefix]];
    });
    return `${source}\n\n${table(['unit', 'also written', 'is', 'prefixes'], cells)}`;
  }).join('\n\n');
}

function prefixes(): string {
  const decimal = DECIMAL_PREFIXES.map(([symbols, name, exponent]) => [symbols, name, `10^${exponent}`] as const);
  const binary = BINARY_PREFIXES.map(([symbols, name, exponent]) => [symbols, name, `1024^${exponent}`] as const);
  return table(
    ['prefix', 'name', 'factor'],
    [...decimal, ...binary].map(([symbols, name, factor]) => [symbols.map(code).join(', '), name, factor]),
  );
}

function currencies(): string {
  const signs = [...CURRENCY_SIGNS].map(([sign, currency]) => `${code(sign)} is ${currency}`);
  return `${CURRENCY_CODES.join(' ')}\n\n${signs.join(', ')}.`;
}

function ambiguousUnits(): string {
  return table(
    ['word', 'why it is asked about'],
    AMBIGUOUS_UNITS.map(([words, message]) => [listOf(words).map(code).join(', '), message]),
  );
}

function wording(): string {
  return WORDING_KINDS.map(({ kind, source, rows }) => {
    const cells = rows.map(({ phrases, why, checkable }) => [wordsOf(phrases), why, checkable]);
    return `**${kind}** (${source})\n\n${table(['words', 'why', 'instead'], cells)}`;
  }).join('\n\n');
}

function wordsOf(phrases: readonly string[]): string {
  return phrases
    .map((phrase) => shown(phrase).replaceAll('<modal>', 'shall').replaceAll(' / ', '/').replaceAll(' , ', ', '))
    .join(', ');
}

function findings(): string {
  const rows: readonly (readonly [string, (typeof FINDINGS)[keyof typeof FINDINGS]])[] = Object.entries(FINDINGS);
  return table(
    ['code', 'design', 'release', 'meaning'],
    rows.map(([name, { severity, meaning }]) => [code(name), severity.design, severity.release, meaning]),
  );
}

function configuration(): string {
  const { properties } = configurationJsonSchema() as {
    readonly properties: Readonly<Record<string, { readonly description?: string }>>;
  };
  return table(
    ['key', 'meaning'],
    Object.entries(properties).map(([key, { description = '' }]) => [code(key), description]),
  );
}

function table(header: readonly string[], rows: readonly (readonly string[])[]): string {
  const lines = [header, header.map(() => '---'), ...rows.map((row) => row.map(cell))];
  return lines.map((row) => `| ${row.join(' | ')} |`).join('\n');
}

/** A bar ends a cell, and a sign that begins markup would vanish. */
function cell(text: string): string {
  return text.replaceAll('|', '\\|').replace(/(?<!`)[<~*](?![^`]*`)/g, (sign) => `\\${sign}`);
}

function code(text: string): string {
  return `\`${text}\``;
}

/** Text that may hold backticks itself. */
function verbatim(text: string): string {
  return text.includes('`') ? `\`\` ${text} \`\`` : code(text);
}

function listOf(text: string): readonly string[] {
  return text
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
}
