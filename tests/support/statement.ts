/** Statements for tests: text with code spans, and what each name measures, in one call. */

import {
  type CodeType,
  type InnerComparison,
  type LimitEnd,
  type Pairing,
  pairStatement,
} from '../../server/engine/pairing';
import { DATE } from '../../server/quantity/calendar';
import { DIMENSIONLESS, dimension } from '../../server/quantity/dimension';
import * as rational from '../../server/quantity/rational';
import { UNITY } from '../../server/quantity/unit';
import { createUnitTable, type UnitTable } from '../../server/quantity/unit-table';
import type { CodeSpan, Prose, ProseRun } from '../../server/syntax/markdown/block';
import type { Relation } from '../../server/syntax/sentence/limit';
import { readStatement } from '../../server/syntax/sentence/read-statement';
import { type Fix, spanOf } from '../../server/syntax/span';

export const units: UnitTable = createUnitTable(
  new Map([
    ['lane', { type: 'kind' }],
    ['message', { type: 'kind' }],
  ]),
);

/** Prose of one paragraph: single backticks make code spans, line breaks stay as they are. */
export function proseOf(markdown: string): Prose {
  const codes: CodeSpan[] = [];
  const runs: ProseRun[] = [];
  let text = '';
  let offset = 0;
  for (const piece of markdown.split(/(`[^`]*`)/)) {
    const isCode = piece.length > 1 && piece.startsWith('`');
    const end = offset + piece.length;
    const documentSpan = spanOf(offset, end);
    if (isCode) {
      const span = spanOf(offset + 1, end - 1);
      codes.push({ at: text.length, code: piece.slice(1, -1), span, outer: documentSpan });
    }
    const shown = isCode ? '\uFFFC' : piece;
    if (shown !== '') runs.push({ start: text.length, length: shown.length, documentSpan, verbatim: !isCode });
    text += shown;
    offset = end;
  }
  return { text, codes, runs };
}

/**
 * The type of a code span by one word: a unit (`W`, `°C`), `count`, `ratio`, `date`, `range W`, `boolean`, `text`,
 * `set`, `mode`, `undecided`, `ordinary`; or a whole type.
 */
export type TypeWord = string | CodeType;

export function typeOf(word: TypeWord): CodeType {
  if (typeof word !== 'string') return word;
  if (word.startsWith('range ')) return { ...quantityOf(word.slice(6)), isRange: true };
  if (word === 'mode') return { type: 'mode', mode: 'standby' };
  if (word === 'condition') return { type: 'condition', comparisons: [] };
  if (['boolean', 'text', 'set', 'undecided', 'ordinary'].includes(word)) return { type: word } as CodeType;
  return quantityOf(word);
}

function quantityOf(word: string): Extract<CodeType, { type: 'quantity' }> {
  const base = { type: 'quantity', isRange: false, comparisons: [], point: null } as const;
  if (word === 'count') return { ...base, dimension: DIMENSIONLESS, isCount: true };
  if (word === 'ratio') return { ...base, dimension: DIMENSIONLESS, isCount: false };
  if (word === 'date') return { ...base, dimension: DATE.dimension, point: 'date' };
  if (word === '1/h') return { ...base, dimension: dimension({ time: -1 }) };
  const unit = units.scan(word, 0)?.unit;
  if (!unit) throw new Error(`a test names no unit: ${word}`);
  return { ...base, dimension: unit.dimension, point: unit.point };
}

/** A comparison inside a code span, from `>= 10 Gbit/s`. */
export function comparisonOf(text: string): InnerComparison {
  const [relation = '=', number = '0', ...unit] = text.split(' ');
  const scanned = unit.length === 0 ? null : units.scan(unit.join(' '), 0);
  const factor = scanned?.unit.factor ?? rational.ONE;
  const offset = scanned?.unit.offset ?? rational.ZERO;
  const value = rational.add(rational.multiply(rational.fromDecimal(number) ?? rational.ZERO, factor), offset);
  const known = scanned?.unit ?? UNITY;
  const quantity = { type: 'quantity', spread: 'exact', low: value, typical: value, high: value, unit: known } as const;
  return { relation: relation as Relation, value: { ...quantity, form: { type: 'plain' } } };
}

export interface PairOptions {
  readonly notLimits?: readonly string[];
  readonly checks?: readonly InnerComparison[];
}

/** Pairs a statement; `types` by the content of the code span. */
export function pair(markdown: string, types: Readonly<Record<string, TypeWord>>, options: PairOptions = {}): Pairing {
  const prose = proseOf(markdown);
  const list = prose.codes.map(({ code }) => typeOf(types[code] ?? 'undecided'));
  const { notLimits = [], checks = [] } = options;
  return pairStatement(readStatement(prose), list, units, { notLimits, modes: ['standby', 'record'], checks });
}

/** Limits as short text in the unit that was written: `draw <= 60 W`, `bus within 36 V .. 57 V`. */
export function limitsOf(markdown: string, pairing: Pairing): readonly string[] {
  const { codes } = proseOf(markdown);
  return pairing.limits.map(({ code, relation, low, high }) => {
    const name = codes[code]?.code ?? '';
    if (relation === 'within' || relation === 'spans')
      return `${name} ${relation} ${endText(low, codes)} .. ${endText(high, codes)}`;
    return `${name} ${relation} ${endText(low ?? high, codes)}`;
  });
}

function endText(end: LimitEnd | null, codes: readonly CodeSpan[]): string {
  if (!end) return '?';
  if (end.type === 'relative') return `${rational.toDouble(end.factor)} × ${codes[end.code]?.code ?? ''}`;
  const { value } = end;
  if (!value.low) return '?';
  if (value.unit.point === 'date') return new Date(rational.toDouble(value.low) * 1000).toISOString().slice(0, 10);
  const number = rational.divide(rational.subtract(value.low, value.unit.offset), value.unit.factor);
  const digits = rational.toExactDecimal(number, 12) ?? String(rational.toDouble(number));
  return value.unit.symbol === '1' ? digits : `${digits} ${value.unit.symbol}`;
}

/** What is read and what is asked, in one list: limits first, then the codes of the findings in text order. */
export function read(
  markdown: string,
  types: Readonly<Record<string, TypeWord>>,
  options: PairOptions = {},
): readonly string[] {
  const pairing = pair(markdown, types, options);
  return [...limitsOf(markdown, pairing), ...pairing.problems.map(({ code }) => code)];
}

/** The text after a fix. */
export function fixed(markdown: string, fix: Fix | undefined): string {
  const edits = [...(fix?.edits ?? [])].sort((a, b) => b.span.start - a.span.start);
  return edits.reduce(
    (text, { span, text: added }) => text.slice(0, span.start) + added + text.slice(span.end),
    markdown,
  );
}
