/** Text → expression tree. Recursive descent over a cursor: whatever the text, a whole tree comes back, with problems beside it. */
import {
  AGGREGATES,
  COMPARISONS,
  FUNCTION_NAMES,
  FUNCTIONS,
  MAXIMUM_DEPTH,
  MAXIMUM_NODES,
} from '../../../grammar/expression';
import { foldText } from '../../quantity/fold';
import type { UnitTable } from '../../quantity/unit-table';
import { scanLiteral } from '../quantity-literal';
import type { Problem, Span } from '../span';
import type { Expression } from './ast';
import { Cursor } from './cursor';

export interface ParsedExpression {
  readonly expression: Expression;
  readonly problems: readonly Problem[];
}

/**
 * Reads one expression. Never throws; where something is missing the tree has a `missing` node and a problem
 * (code `bad-value`, or `too-large` past the depth and size limits of the language).
 *
 * @param text the expression without a leading `=`
 * @param documentSpan turns offsets in `text` into places in the document
 */
export function parseExpression(
  text: string,
  units: UnitTable,
  documentSpan: (start: number, end: number) => Span,
): ParsedExpression {
  const parser = new Parser(new Cursor(foldText(text), documentSpan), units);
  const expression = parser.whole();
  return { expression, problems: parser.problems };
}

class Parser {
  readonly problems: Problem[] = [];
  private depth = 0;
  private nodes = 0;
  private stopped = false;

  constructor(
    private readonly cursor: Cursor,
    private readonly units: UnitTable,
  ) {}

  whole(): Expression {
    const expression = this.expression('an expression');
    if (!this.cursor.atEnd && !this.stopped) {
      this.report(`“${this.cursor.nextText()}” is not expected here: an operator, or the end`, this.cursor.nextSpan());
    }
    return expression;
  }

  private expression(expected: string): Expression {
    if (this.depth >= MAXIMUM_DEPTH) return this.stop(`the expression nests deeper than ${MAXIMUM_DEPTH} levels`);
    this.depth += 1;
    const result = this.or(expected);
    this.depth -= 1;
    return result;
  }

  private or(expected: string): Expression {
    return this.chain(
      expected,
      (wanted) => this.and(wanted),
      () => (this.cursor.takeWords('or') ? 'or' : null),
      (operator, left, right, span) => ({ type: 'logical', operator, left, right, span }),
    );
  }

  private and(expected: string): Expression {
    return this.chain(
      expected,
      (wanted) => this.not(wanted),
      () => (this.cursor.takeWords('and') ? 'and' : null),
      (operator, left, right, span) => ({ type: 'logical', operator, left, right, span }),
    );
  }

  private not(expected: string): Expression {
    const start = this.cursor.at;
    if (!this.cursor.takeWords('not')) return this.comparison(expected);
    const operand = this.nested(() => this.not('a condition after “not”'));
    return { type: 'unary', operator: 'not', operand, span: this.cursor.spanFrom(start) };
  }

  private comparison(expected: string): Expression {
    const start = this.cursor.at;
    const left = this.else(expected);
    const compared = this.comparisonAfter(left, start);
    const sign = compared === left ? null : this.comparisonSign(false);
    if (sign !== null) {
      this.report(
        `a second comparison: write “a ${sign} b and b ${sign} c”, or “x within A to B”`,
        this.cursor.nextSpan(),
      );
    }
    return compared;
  }

  private comparisonAfter(left: Expression, start: number): Expression {
    const relation = this.comparisonSign(true);
    if (relation !== null) {
      const right = this.else(`a value after “${relation}”`);
      return { type: 'comparison', relation, left, right, span: this.cursor.spanFrom(start) };
    }
    for (const ends of ['within', 'spans'] as const) {
      if (this.cursor.takeWords(ends)) return this.endsAfter(left, ends, start);
    }
    if (this.cursor.takeWords('is', 'one', 'of')) {
      const set = this.else('a set such as ("a", "b") after “is one of”');
      return { type: 'one-of', value: left, set, span: this.cursor.spanFrom(start) };
    }
    if (this.cursor.takeWords('has')) {
      const item = this.else('a value after “has”');
      return { type: 'has', set: left, item, span: this.cursor.spanFrom(start) };
    }
    return left;
  }

  private comparisonSign(take: boolean): '>=' | '>' | '<=' | '<' | '=' | '!=' | null {
    for (const [sign, relation] of COMPARISONS) {
      if (!this.cursor.text.startsWith(sign, this.cursor.at)) continue;
      if (take) this.cursor.move(sign.length);
      return relation;
    }
    return null;
  }

  private endsAfter(value: Expression, relation: 'within' | 'spans', start: number): Expression {
    const low = this.sum(`a value after “${relation}”`);
    if (!this.cursor.takeWords('to'))
      this.report(`“to” and the upper end are missing: ${relation} A to B`, this.cursor.nextSpan());
    const high = this.sum('the upper end after “to”');
    return { type: 'ends', relation, value, low, high, span: this.cursor.spanFrom(start) };
  }

  private else(expected: string): Expression {
    const start = this.cursor.at;
    const value = this.sum(expected);
    if (!this.cursor.takeWords('else')) return value;
    const otherwise = this.nested(() => this.else('a value after “else”'));
    return { type: 'else', value, otherwise, span: this.cursor.spanFrom(start) };
  }

  private sum(expected: string): Expression {
    return this.chain(
      expected,
      (wanted) => this.product(wanted),
      () => (this.cursor.take('+') ? '+' : this.cursor.take('-') ? '-' : null),
      (operator, left, right, span) => ({ type: 'binary', operator, left, right, span }),
    );
  }

  private product(expected: string): Expression {
    return this.chain(
      expected,
      (wanted) => this.sign(wanted),
      () =>
        this.cursor.take('*') || this.cursor.take('×') || this.cursor.take('·')
          ? '*'
          : this.cursor.take('/')
            ? '/'
            : null,
      (operator, left, right, span) => ({ type: 'binary', operator, left, right, span }),
    );
  }

  /** A chain of left-associative operators of one rank. */
  private chain<Operator extends string>(
    expected: string,
    operand: (expected: string) => Expression,
    operator: () => Operator | null,
    join: (operator: Operator, left: Expression, right: Expression, span: Span) => Expression,
  ): Expression {
    const start = this.cursor.at;
    let left = operand(expected);
    for (;;) {
      const sign = this.stopped ? null : operator();
      if (sign === null) return left;
      const right = this.operandAfter(sign, operand);
      left = join(sign, left, right, this.cursor.spanFrom(start));
    }
  }

  private operandAfter(sign: string, operand: (expected: string) => Expression): Expression {
    this.nodes += 1;
    if (this.nodes > MAXIMUM_NODES) return this.stop(`the expression has more than ${MAXIMUM_NODES} operators`);
    return operand(`a value after “${sign}”`);
  }

  private sign(expected: string): Expression {
    const start = this.cursor.at;
    const literal = this.literal(true);
    if (literal !== null) return this.powerAfter(literal, start);
    if (!this.cursor.take('-')) return this.powerAfter(this.primary(expected), start);
    const operand = this.nested(() => this.sign('a value after “-”'));
    return { type: 'unary', operator: '-', operand, span: this.cursor.spanFrom(start) };
  }

  private powerAfter(base: Expression, start: number): Expression {
    if (!this.cursor.take('^')) return base;
    const exponent = this.nested(() => this.sign('an exponent after “^”'));
    const power: Expression = { type: 'power', base, exponent, span: this.cursor.spanFrom(start) };
    // `-2 ^ 2` is -(2 ^ 2), as everywhere in mathematics; the literal took the sign, so it is given back.
    return base.type === 'literal' && this.cursor.text[start] === '-' ? this.negatedPower(power, start) : power;
  }

  private negatedPower(power: Expression & { type: 'power' }, start: number): Expression {
    const end = this.cursor.at;
    this.cursor.at = start;
    this.cursor.take('-');
    const base = this.literal(false) ?? power.base;
    this.cursor.at = end;
    return { type: 'unary', operator: '-', operand: { ...power, base }, span: power.span };
  }

  private literal(signed: boolean): Expression | null {
    const start = this.cursor.at;
    const scanned = scanLiteral(this.cursor.text, start, this.units, { signed });
    if (scanned === null) return null;
    this.cursor.at = scanned.end;
    const span = this.cursor.spanFrom(start);
    this.cursor.move(0);
    for (const message of scanned.problems) this.report(message, span);
    return { type: 'literal', value: scanned.value, span };
  }

  private primary(expected: string): Expression {
    const start = this.cursor.at;
    if (this.cursor.take('(')) return this.bracket(start);
    const text = this.cursor.takeText();
    if (text !== null) {
      const span = this.cursor.spanFrom(start);
      if (!text.closed) this.report('the closing quote is missing', span);
      return { type: 'text', text: text.text, span };
    }
    if (this.cursor.takeWords('yes') || this.cursor.takeWords('true')) {
      return { type: 'boolean', value: true, span: this.cursor.spanFrom(start) };
    }
    if (this.cursor.takeWords('no') || this.cursor.takeWords('false')) {
      return { type: 'boolean', value: false, span: this.cursor.spanFrom(start) };
    }
    return this.nameOrCall(expected);
  }

  private bracket(start: number): Expression {
    const items = [this.expression('a value after “(”')];
    while (!this.stopped && this.cursor.take(',')) items.push(this.expression('a value after “,”'));
    this.close();
    const [first] = items;
    if (items.length === 1 && first !== undefined) return first;
    return { type: 'set', items, span: this.cursor.spanFrom(start) };
  }

  private nameOrCall(expected: string): Expression {
    const start = this.cursor.at;
    const parts = this.cursor.takePath();
    if (parts === null) return this.missing(expected);
    const span = this.cursor.spanFrom(start);
    const [name] = parts;
    if (parts.length !== 1 || name === undefined || !this.cursor.take('(')) return { type: 'name', parts, span };
    return this.call(name, span, start);
  }

  private call(name: string, nameSpan: Span, start: number): Expression {
    if (!FUNCTION_NAMES.includes(name))
      this.report(`there is no function “${name}”: there are ${FUNCTION_NAMES.join(', ')}`, nameSpan);
    if (name === 'count') return this.aggregate(name, nameSpan, null, start);
    const first = this.cursor.take(')') ? null : this.argument(name);
    if (first === null) {
      this.report(`“${name}” needs something between its brackets`, nameSpan);
      return { type: 'call', name, nameSpan, arguments: [], span: this.cursor.spanFrom(start) };
    }
    if (AGGREGATES.has(name) && this.cursor.takeWords('over')) return this.aggregate(name, nameSpan, first, start);
    const list = [first];
    while (!this.stopped && this.cursor.take(',')) list.push(this.argument(name));
    this.close();
    this.checkArguments(name, list.length, nameSpan);
    return { type: 'call', name, nameSpan, arguments: list, span: this.cursor.spanFrom(start) };
  }

  /** An argument; of `average`, a share and the mode it holds in: `65 % standby` is read as a product of the two. */
  private argument(name: string): Expression {
    const start = this.cursor.at;
    const value = this.expression(`a value in the brackets of “${name}”`);
    if (name !== 'average' || value.type !== 'literal') return value;
    const mode = this.cursor.at;
    const parts = this.cursor.takePath();
    if (parts === null) return value;
    const right: Expression = { type: 'name', parts, span: this.cursor.spanFrom(mode) };
    return { type: 'binary', operator: '*', left: value, right, span: this.cursor.spanFrom(start) };
  }

  private checkArguments(name: string, count: number, span: Span): void {
    const known = FUNCTIONS.get(name);
    if (known === undefined) {
      if (AGGREGATES.has(name)) this.report(`“${name}” needs a table: ${name}(x over parts)`, span);
    } else if (count < known.least || (known.most !== null && count > known.most)) {
      const wanted = known.least === known.most ? `${known.least}` : `at least ${known.least}`;
      this.report(`“${name}” takes ${wanted} value${wanted === '1' ? '' : 's'}, not ${count}`, span);
    }
  }

  private aggregate(name: string, nameSpan: Span, element: Expression | null, start: number): Expression {
    const table = this.tableName();
    const row = this.cursor.takeWords('as') ? this.rowName() : null;
    const condition = this.cursor.takeWords('where') ? this.expression('a condition after “where”') : null;
    this.close();
    return { type: 'aggregate', name, nameSpan, element, table, row, condition, span: this.cursor.spanFrom(start) };
  }

  private tableName(): Expression {
    const table = this.nameOrCall('a table such as parts');
    if (table.type !== 'call' || table.name === 'route') return table;
    this.report('a table stands here: its name, or route(a, b)', table.span);
    return table;
  }

  private rowName(): string | null {
    const span = this.cursor.nextSpan();
    const parts = this.cursor.takePath();
    if (parts?.length === 1 && parts[0] !== undefined) return parts[0];
    this.report('a name for the row stands after “as”', span);
    return null;
  }

  private close(): void {
    if (this.stopped || this.cursor.take(')')) return;
    const found = this.cursor.atEnd ? 'the text ends' : `“${this.cursor.nextText()}” stands there`;
    this.report(`a closing bracket “)” is missing: ${found}`, this.cursor.nextSpan());
  }

  private nested(read: () => Expression): Expression {
    if (this.depth >= MAXIMUM_DEPTH) return this.stop(`the expression nests deeper than ${MAXIMUM_DEPTH} levels`);
    this.depth += 1;
    const result = read();
    this.depth -= 1;
    return result;
  }

  private missing(expected: string): Expression {
    const span = this.cursor.nextSpan();
    const found = this.cursor.atEnd ? 'the text ends' : `“${this.cursor.nextText()}” stands there`;
    if (!this.stopped) this.report(`${expected} is missing: ${found}`, span);
    return { type: 'missing', span };
  }

  /** Past a limit nothing more is read, so that hostile text costs no more than its length. */
  private stop(message: string): Expression {
    const span = this.cursor.nextSpan();
    if (!this.stopped) this.problems.push({ code: 'too-large', message, span });
    this.stopped = true;
    this.cursor.at = this.cursor.text.length;
    return { type: 'missing', span };
  }

  /** One mistake, one message: what follows from it says nothing new. */
  private report(message: string, span: Span): void {
    if (this.problems.length === 0) this.problems.push({ code: 'bad-value', message, span });
  }
}
