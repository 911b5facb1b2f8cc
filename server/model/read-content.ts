/** Front-matter nodes → the content of a fact: a quantity with its spread, text, yes or no, a set, modes, a curve, an expression. */

import { formatValue } from '../quantity/format';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import { haveSameRates } from '../quantity/unit-arithmetic';
import type { UnitTable } from '../quantity/unit-table';
import type { QuantityValue, SimpleValue } from '../quantity/value';
import { parseExpression } from '../syntax/expression/parser';
import { readValue } from '../syntax/quantity-literal';
import { type Problem, type Span, spanOf } from '../syntax/span';
import type { YamlMap, YamlNode, YamlScalar } from '../syntax/yaml-node';
import type { Content, Curve } from './fact';

/** What reading a value needs to know of the product. */
export interface ReadingContext {
  readonly units: UnitTable;
  readonly modes: ReadonlySet<string>;
  /** Texts of CSV files by their path below the product's folder. */
  readonly data: ReadonlyMap<string, string>;
}

/** A value as written with what was said about it. */
export interface ReadContent {
  readonly content: Content;
  readonly provisional: boolean;
  readonly source: string | null;
  readonly choices: readonly SimpleValue[] | null;
  readonly problems: readonly Problem[];
}

/** Keys that make a mapping one value rather than a group of facts. */
const VALUE_MARKS = ['value', 'min', 'typ', 'max', 'at', 'choices'];

/** Whether the node is one value: a scalar, a list of scalars, a mapping of ends, or one value per mode. */
export function isValueNode(node: YamlNode, context: ReadingContext): boolean {
  if (node.type === 'scalar') return true;
  if (node.type === 'list') return !node.items.some((item) => item.type === 'map');
  return node.entries.some(({ key }) => VALUE_MARKS.includes(key) || context.modes.has(key));
}

/** Reads one value. `alwaysText`: the field is a text whatever it looks like. */
export function readContent(node: YamlNode, context: ReadingContext, alwaysText = false): ReadContent {
  const reader = new ContentReader(context);
  const content = reader.read(node, alwaysText);
  return {
    content,
    provisional: reader.provisional,
    source: reader.source,
    choices: reader.choices,
    problems: reader.problems,
  };
}

const BRACKETED_LIST = /^\(([^()]*,[^()]*)\)$/u;

class ContentReader {
  provisional = false;
  source: string | null = null;
  choices: readonly SimpleValue[] | null = null;
  readonly problems: Problem[] = [];

  constructor(private readonly context: ReadingContext) {}

  read(node: YamlNode, alwaysText: boolean): Content {
    if (node.type === 'scalar') return this.scalar(node, alwaysText);
    if (node.type === 'list') return this.set(node.items, node.span);
    const modeKeys = node.entries.filter(({ key }) => this.context.modes.has(key));
    if (modeKeys.length > 0) return this.modes(node, modeKeys.length);
    if (node.entries.some(({ key }) => key === 'at')) return this.curve(node);
    return this.mapping(node);
  }

  private scalar(node: YamlScalar, alwaysText: boolean): Content {
    const text = node.text.trim();
    if (text.startsWith('=')) return this.expression(node, text);
    if (node.style === 'quoted' || node.style === 'block') return textContent(node.text);
    if (text === '' || text === '~' || text === 'TBD') return { type: 'tbd' };
    if (alwaysText) return textContent(text);
    if (text === 'yes' || text === 'true') return { type: 'value', value: { type: 'boolean', boolean: true } };
    if (text === 'no' || text === 'false') return { type: 'value', value: { type: 'boolean', boolean: false } };
    return this.plain(node, text);
  }

  private plain(node: YamlScalar, text: string): Content {
    const within = BRACKETED_LIST.exec(text)?.[1];
    if (within !== undefined) return this.bracketedList(node, text, `[${within}]`);
    const read = readValue(text, this.context.units);
    if (read.type === 'text') return textContent(text);
    if (read.type === 'bad') {
      const fix =
        read.fix === null ? {} : { fix: { title: `Write ${read.fix}`, edits: [{ span: node.span, text: read.fix }] } };
      const isSaid = read.fix === null || read.message.includes(read.fix) || /\bwrite\b/.test(read.message);
      const instead = isSaid ? '' : `; write ${read.fix}`;
      return this.bad(`“${shortened(text)}” is no value: ${read.message}${instead}`, node.span, fix);
    }
    if (read.provisional) this.provisional = true;
    return { type: 'value', value: read.value };
  }

  /** Sets have round brackets in expressions only. */
  private bracketedList(node: YamlScalar, text: string, list: string): Content {
    const fix = { title: `Write ${list}`, edits: [{ span: node.span, text: list }] };
    return this.bad(`“${shortened(text)}” is no value: a set is a list: write ${list}`, node.span, { fix });
  }

  private expression(node: YamlScalar, text: string): Content {
    const source = text.slice(1);
    const start = node.text.indexOf('=') + 1;
    const documentSpan = (from: number, to: number): Span =>
      node.textStart === null ? node.span : spanOf(node.textStart + start + from, node.textStart + start + to);
    const { expression, problems } = parseExpression(source, this.context.units, documentSpan);
    this.problems.push(...problems);
    return problems.length > 0 ? { type: 'bad' } : { type: 'expression', expression };
  }

  private set(items: readonly YamlNode[], span: Span): Content {
    const values: (QuantityValue | { type: 'text'; text: string })[] = [];
    for (const item of items) {
      const content = this.read(item, false);
      if (content.type === 'bad') return content;
      if (content.type !== 'value' || content.value.type === 'set' || content.value.type === 'boolean') {
        return this.bad('a set holds figures and texts only', item.span);
      }
      values.push(content.value);
    }
    if (values.length === 0) return this.bad('an empty list is no value; write what it may be, or TBD', span);
    return { type: 'value', value: { type: 'set', items: values } };
  }

  private modes(node: YamlMap, known: number): Content {
    if (known < node.entries.length) {
      const other = node.entries.find(({ key }) => !this.context.modes.has(key));
      const modes = [...this.context.modes].join(', ');
      return this.bad(
        `“${other?.key}” is no mode (modes are ${modes}), but other keys here are`,
        other?.keySpan ?? node.span,
      );
    }
    return { type: 'modes', modes: new Map(node.entries.map(({ key, value }) => [key, this.read(value, false)])) };
  }

  /** `{value: …, choices: […], source: …}` or `{min: …, typ: …, max: …}`. */
  private mapping(node: YamlMap): Content {
    const parts = new Map<string, YamlNode>();
    for (const { key, keySpan, value } of node.entries) {
      if (key === 'source') this.source = value.type === 'scalar' && value.text.trim() !== '' ? value.text : null;
      else if (key === 'choices') {
        this.choices = this.readChoices(value);
        // Which values it may take cannot be told, so that nothing of it is.
        if (this.choices === null) return { type: 'bad' };
      } else if (['value', 'min', 'typ', 'max'].includes(key)) parts.set(key, value);
      else if (key !== 'note') {
        return this.bad(`“${key}” is no part of a value (value, min, typ, max, choices, source, note)`, keySpan);
      }
    }
    const value = parts.get('value');
    if (value === undefined) return this.ends(parts, node.span);
    if (parts.size > 1) return this.bad('write either “value” or “min, typ, max”, not both', node.span);
    return this.read(value, false);
  }

  private readChoices(node: YamlNode): readonly SimpleValue[] | null {
    const content = node.type === 'list' ? this.set(node.items, node.span) : this.bad('“choices” is a list', node.span);
    return content.type === 'value' && content.value.type === 'set' ? content.value.items : null;
  }

  private ends(parts: ReadonlyMap<string, YamlNode>, span: Span): Content {
    if (parts.size === 0) return this.bad('this value has no figure: write “value”, or “min, typ, max”', span);
    const contents = new Map([...parts].map(([key, node]) => [key, this.read(node, false)]));
    if ([...contents.values()].some(({ type }) => type === 'bad')) return { type: 'bad' };
    if ([...contents.values()].some(({ type }) => type === 'tbd')) return { type: 'tbd' };
    if ([...contents.values()].some(({ type }) => type === 'expression')) return this.derivedEnds(contents, span);
    const figures = new Map<string, QuantityValue>();
    for (const [key, content] of contents) {
      if (content.type !== 'value' || content.value.type !== 'quantity' || content.value.spread !== 'exact') {
        return this.bad(`“${key}” is one plain figure`, parts.get(key)?.span ?? span);
      }
      figures.set(key, content.value);
    }
    return this.figureEnds(figures, span);
  }

  private derivedEnds(contents: ReadonlyMap<string, Content>, span: Span): Content {
    if (contents.has('typ')) return this.bad('beside “typ”, the ends are plain figures', span);
    const end = (key: string) => {
      const content = contents.get(key);
      if (content?.type === 'expression') return content.expression;
      if (content?.type !== 'value' || content.value.type !== 'quantity') return null;
      return { type: 'literal' as const, value: content.value, span };
    };
    return { type: 'ends', low: end('min'), high: end('max') };
  }

  private figureEnds(figures: ReadonlyMap<string, QuantityValue>, span: Span): Content {
    const [first] = figures.values();
    if (first === undefined) return { type: 'bad' };
    for (const figure of figures.values()) {
      if (!isAlike(figure, first)) {
        return this.bad(`the ends have different units: ${first.unit.symbol} and ${figure.unit.symbol}`, span);
      }
    }
    const low = figures.get('min')?.typical ?? null;
    const typical = figures.get('typ')?.typical ?? null;
    const high = figures.get('max')?.typical ?? null;
    if (!inOrder(low, typical, high)) return this.bad('the ends are in the wrong order: min ≤ typ ≤ max', span);
    return {
      type: 'value',
      value: {
        type: 'quantity',
        spread: typical === null ? 'range' : 'tolerance',
        low,
        typical,
        high,
        unit: first.unit,
        form: { type: 'mapping' },
      },
    };
  }

  private curve(node: YamlMap): Content {
    const entry = (key: string) => node.entries.find((candidate) => candidate.key === key)?.value;
    const at = entry('at');
    const of = entry('of');
    const between = entry('between');
    if (at?.type !== 'map' || of?.type !== 'scalar') {
      return this.bad('a curve is {at: {x: y, …}, of: name, between: steps or lines}', node.span);
    }
    const how = between?.type === 'scalar' ? between.text : '';
    if (how !== 'steps' && how !== 'lines')
      return this.bad('say how the curve runs: between: steps, or between: lines', node.span);
    const points = this.curvePoints(at);
    const { expression, problems } = parseExpression(of.text, this.context.units, () => of.span);
    this.problems.push(...problems);
    if (points === null || problems.length > 0) return { type: 'bad' };
    return { type: 'curve', of: expression, between: how, points };
  }

  private curvePoints(at: YamlMap): Curve['points'] | null {
    const points: { x: QuantityValue; y: QuantityValue }[] = [];
    for (const { key, keySpan, value } of at.entries) {
      const x = readValue(key, this.context.units);
      const y = this.read(value, false);
      if (x.type !== 'quantity' || x.value.spread !== 'exact') {
        this.bad(`“${shortened(key)}” is no figure of the curve`, keySpan);
        return null;
      }
      if (y.type !== 'value' || y.value.type !== 'quantity' || y.value.spread !== 'exact') {
        if (y.type !== 'bad')
          this.bad(
            'a curve has one plain figure at each place; multiply it by a factor that has a tolerance',
            value.span,
          );
        return null;
      }
      points.push({ x: x.value, y: y.value });
    }
    return this.inAscendingOrder(points, at.span);
  }

  private inAscendingOrder(points: Curve['points'], span: Span): Curve['points'] | null {
    const [first] = points;
    if (first === undefined) {
      this.bad('a curve needs at least one figure', span);
      return null;
    }
    if (points.some(({ x, y }) => !isAlike(x, first.x) || !isAlike(y, first.y) || x.unit.rates.size > 0)) {
      this.bad('the figures of a curve have one unit for x and one for y', span);
      return null;
    }
    const ascending = [...points].sort((a, b) => rational.compare(a.x.typical as Rational, b.x.typical as Rational));
    const twice = ascending.find(
      ({ x }, index) =>
        index > 0 && rational.equals(ascending[index - 1]?.x.typical as Rational, x.typical as Rational),
    );
    if (twice === undefined) return ascending;
    this.bad(`the curve has two figures at ${formatValue(twice.x)}; keep one`, span);
    return null;
  }

  private bad(message: string, span: Span, more: Partial<Problem> = {}): Content {
    this.problems.push({ code: 'bad-value', message, span, ...more });
    return { type: 'bad' };
  }
}

/** Figures of one unit but for prefixes; a currency whose rate moves is a unit of its own. */
function isAlike({ unit: a }: QuantityValue, { unit: b }: QuantityValue): boolean {
  return a.dimension === b.dimension && a.point === b.point && haveSameRates(a, b);
}

function textContent(text: string): Content {
  return { type: 'value', value: { type: 'text', text } };
}

function inOrder(...figures: readonly (Rational | null)[]): boolean {
  const given = figures.filter((figure) => figure !== null);
  return given.every((figure, index) => index === 0 || rational.compare(given[index - 1] as Rational, figure) <= 0);
}

function shortened(text: string): string {
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
