/** The expression grammar: what binds to what, what is said of broken text, and that no text is too much. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { FUNCTION_NAMES } from '../../../grammar/expression';
import { createUnitTable } from '../../../server/quantity/unit-table';
import { descendants, type Expression } from '../../../server/syntax/expression/ast';
import { parseExpression } from '../../../server/syntax/expression/parser';
import { printExpression } from '../../../server/syntax/expression/print';
import { spanOf } from '../../../server/syntax/span';
import { processorTime } from '../../support/processor-time';
import { figures } from './expressions';

const units = createUnitTable();
const parse = (text: string) => parseExpression(text, units, spanOf);
const messages = (text: string) => parse(text).problems.map(({ message }) => message);

/** The tree with every bracket that it implies. */
function shape(node: Expression): string {
  switch (node.type) {
    case 'unary':
      return `(${node.operator} ${shape(node.operand)})`;
    case 'binary':
    case 'logical':
      return `(${shape(node.left)} ${node.operator} ${shape(node.right)})`;
    case 'comparison':
      return `(${shape(node.left)} ${node.relation} ${shape(node.right)})`;
    case 'power':
      return `(${shape(node.base)} ^ ${shape(node.exponent)})`;
    case 'else':
      return `(${shape(node.value)} else ${shape(node.otherwise)})`;
    default:
      return printExpression(node);
  }
}

describe('what binds to what', () => {
  test.each([
    ['a + b * c', '(a + (b * c))'],
    ['a - b - c', '((a - b) - c)'],
    ['a / b / c', '((a / b) / c)'],
    ['a * b / c', '((a * b) / c)'],
    ['a ^ 2 * b', '((a ^ 2) * b)'],
    ['-a ^ 2', '(- (a ^ 2))'],
    ['-2 ^ 2', '(- (2 ^ 2))'],
    ['a ^ -1', '(a ^ -1)'],
    ['- a * b', '((- a) * b)'],
    ['a - 2', '(a - 2)'],
    ['a -2', '(a - 2)'],
    ['5 V / 20 mA', '(5 V / 20 mA)'],
    ['5 V - 3 V', '(5 V - 3 V)'],
    ['a + b <= c * d', '((a + b) <= (c * d))'],
    ['a < b and c < d or e', '(((a < b) and (c < d)) or e)'],
    ['a or b and c', '(a or (b and c))'],
    ['not a and b', '((not a) and b)'],
    ['not a < b', '(not (a < b))'],
    ['a else b + c', '(a else (b + c))'],
    ['a else b else c', '(a else (b else c))'],
    ['a else 0 W <= 5 W', '((a else 0 W) <= 5 W)'],
    ['(a)', 'a'],
    ['a×b·c', '((a * b) * c)'],
    ['a ≤ b', '(a <= b)'],
    ['a ≠ b', '(a != b)'],
    ['rails.12V.load', 'rails.12V.load'],
    ['bit-rate - a', '(bit-rate - a)'],
    ['min(a, b, c)', 'min(a, b, c)'],
    ['sum(power over parts as p where p.role = "in")', 'sum(power over parts as p where p.role = "in")'],
    ['count(parts)', 'count(parts)'],
    ['x within 1 V to 2 V', 'x within 1 V to 2 V'],
    ['x is one of ("a", "b")', 'x is one of ("a", "b")'],
    ['speeds has "100"', 'speeds has "100"'],
    ['average(x, 65 % standby, 35 % record)', 'average(x, 65 % * standby, 35 % * record)'],
    [
      'all(any(kind = "magnetics" over route(id, "soc")) over parts)',
      'all(any(kind = "magnetics" over route(id, "soc")) over parts)',
    ],
    ['true and false', '(yes and no)'],
    ['5 V ± 5 %', '5 V ± 5 %'],
    ['5 V ± 5 % + 1 V', '(5 V ± 5 % + 1 V)'],
  ])('%s', (text, expected) => {
    const { expression, problems } = parse(text);
    expect(problems).toEqual([]);
    expect(shape(expression)).toBe(expected);
  });

  test('the canonical text is spelled one way', () => {
    const same = ['a<=60W', 'a  <=  60 W', '(a) ≤ (60 W)', 'a <=\n60\u00a0W'].map((text) =>
      printExpression(parse(text).expression),
    );
    expect(new Set(same)).toEqual(new Set(['a <= 60 W']));
  });
});

describe('what is said of broken text', () => {
  test.each([
    ['', 'an expression is missing: the text ends'],
    ['a +', 'a value after “+” is missing: the text ends'],
    ['a + )', 'a value after “+” is missing: “)” stands there'],
    ['(a', 'a closing bracket “)” is missing: the text ends'],
    ['a b', '“b” is not expected here: an operator, or the end'],
    ['a < b < c', 'a second comparison: write “a < b and b < c”, or “x within A to B”'],
    ['mim(a)', `there is no function “mim”: there are ${FUNCTION_NAMES.join(', ')}`],
    ['sqrt(a, b)', '“sqrt” takes 1 value, not 2'],
    ['if(a, b)', '“if” takes 3 values, not 2'],
    ['sum(a)', '“sum” needs a table: sum(x over parts)'],
    ['x within 1 V', '“to” and the upper end are missing: within A to B'],
    ['"a', 'the closing quote is missing'],
    ['a = 2026-02-30', '2026-02-30 is no date: that month has 28 days'],
    ['a ++', 'a value after “+” is missing: “+” stands there'],
    ['min()', '“min” needs something between its brackets'],
    ['sum(a over)', 'a table such as parts is missing: “)” stands there'],
  ])('%s', (text, message) => {
    expect(messages(text)).toEqual([message]);
  });

  test('one mistake, one message', () => {
    for (const text of ['((((a', 'a + + + + b', '<= <= <=', '))))', 'a..b', '5 V V V'])
      expect(messages(text)).toHaveLength(1);
  });
});

describe('any text', () => {
  const alphabet = fc.constantFrom(
    ...'ab1 .,()"<>=!+-*/^%±°Ω\n\u00a0',
    'sum(',
    ' over ',
    ' where ',
    ' and ',
    ' not ',
    ' else ',
    'if(',
    ' 5 V',
    '\\',
    '\ud800',
    '😀',
  );

  test('gives a tree, and places that lie inside the text', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.array(alphabet).map((parts) => parts.join('')),
        ),
        (text) => {
          const { expression, problems } = parse(text);
          for (const { span } of [...descendants(expression), ...problems]) {
            expect(span.start).toBeGreaterThanOrEqual(0);
            expect(span.start).toBeLessThanOrEqual(span.end);
            expect(span.end).toBeLessThanOrEqual(text.length);
          }
          expect(problems.length).toBeLessThanOrEqual(2);
          // What could not be read is always said.
          const isWhole = [...descendants(expression)].every(({ type }) => type !== 'missing');
          if (!isWhole) expect(problems.length).toBeGreaterThan(0);
        },
      ),
      { numRuns: 500 },
    );
  });

  test('a child lies inside its parent', () => {
    fc.assert(
      fc.property(figures, (text) => {
        for (const node of descendants(parse(text).expression)) {
          for (const child of [...descendants(node)].slice(1)) {
            expect([node.span.start <= child.span.start, child.span.end <= node.span.end]).toEqual([true, true]);
          }
        }
      }),
    );
  });

  test('of the grammar is read, printed, and read again as the same', () => {
    fc.assert(
      fc.property(figures, (text) => {
        const first = parse(text);
        expect(first.problems).toEqual([]);
        const printed = printExpression(first.expression);
        const second = parse(printed);
        expect(second.problems).toEqual([]);
        expect(printExpression(second.expression)).toBe(printed);
        expect(shape(second.expression)).toBe(shape(first.expression));
      }),
      { numRuns: 300 },
    );
  });

  test('cut short anywhere gives a tree and at most one problem', () => {
    fc.assert(
      fc.property(figures, fc.double({ min: 0, max: 1, noNaN: true }), (text, share) => {
        expect(messages(text.slice(0, Math.floor(text.length * share))).length).toBeLessThanOrEqual(1);
      }),
      { numRuns: 300 },
    );
  });
});

describe('limits', () => {
  const codes = (text: string) => parse(text).problems.map(({ code }) => code);

  test.each([
    ['brackets', '('.repeat(100_000)],
    ['whole brackets', `${'('.repeat(100_000)}a${')'.repeat(100_000)}`],
    ['minus signs', `${'-'.repeat(100_000)}a`],
    ['spaced minus signs', `${'- '.repeat(50_000)}a`],
    ['nots', `${'not '.repeat(50_000)}a`],
    ['functions', 'abs('.repeat(50_000)],
    ['powers', `a${' ^ 2'.repeat(50_000)}`],
    ['elses', `a${' else a'.repeat(50_000)}`],
    ['sums', `a${' + a'.repeat(100_000)}`],
    ['sets', '(a, '.repeat(50_000)],
    ['aggregates', 'sum('.repeat(50_000)],
  ])('%s past the limit are refused in linear time', (_, text) => {
    const start = processorTime();
    expect(codes(text)).toEqual(['too-large']);
    expect(processorTime() - start).toBeLessThan(500);
  });

  test.each([
    ['digits', '9'.repeat(200_000)],
    ['arguments', `min(${'a, '.repeat(50_000)}a)`],
    ['a long name', 'a'.repeat(200_000)],
    ['a long path', `a${'.a'.repeat(100_000)}`],
    ['quotes', '"'.repeat(100_000)],
    ['a long text', `"${'a'.repeat(200_000)}`],
    ['spaces', ' '.repeat(200_000)],
    ['hyphens', `a${'-'.repeat(100_000)}`],
    ['dots', '.'.repeat(100_000)],
    ['digits with dots', '1.'.repeat(100_000)],
    ['units', `1 ${'m·'.repeat(50_000)}`],
    ['durations', '1 h '.repeat(50_000)],
  ])('%s take linear time', (_, text) => {
    const start = processorTime();
    parse(text);
    expect(processorTime() - start).toBeLessThan(1_000);
  });

  test('64 levels are read', () => {
    expect(codes(`${'('.repeat(60)}a${')'.repeat(60)}`)).toEqual([]);
    expect(codes(`a${' + a'.repeat(1_990)}`)).toEqual([]);
  });
});
