/** Random designs and an evaluator of their expressions that shares nothing with the product: fraction.js does the sums. */
import fc from 'fast-check';
import Fraction from 'fraction.js';

/** A given figure: what it is typically, and how far it may lie from it. */
export interface Given {
  readonly name: string;
  readonly spread: 'exact' | 'tolerance' | 'range';
  readonly low: Fraction;
  readonly typical: Fraction;
  readonly high: Fraction;
  /** So many identical items; 1 outside of tables. */
  readonly items: number;
}

export type Node =
  | { readonly op: 'name'; readonly name: string }
  | { readonly op: 'number'; readonly value: number }
  | { readonly op: '+' | '-' | '*' | '/'; readonly a: Node; readonly b: Node }
  | { readonly op: '^'; readonly a: Node; readonly exponent: number }
  | { readonly op: 'min' | 'max'; readonly a: Node; readonly b: Node }
  | { readonly op: 'abs' | 'floor'; readonly a: Node }
  | { readonly op: 'if'; readonly left: Node; readonly right: Node; readonly met: Node; readonly otherwise: Node }
  /** Over all items of the table's rows. */
  | { readonly op: 'sum' | 'greatest' | 'least' }
  | { readonly op: 'count'; readonly above: number };

export interface Design {
  readonly facts: readonly Given[];
  readonly rows: readonly Given[];
  /** Each over the given figures and those before it; the last is the one asked for. */
  readonly derived: readonly Node[];
}

/** One value for every given figure, an item of a row each on its own: `r0`, `r0#1`. */
export type Point = ReadonlyMap<string, Fraction>;

/** The front matter below `facts:` and beside it. `root` is the last derived figure. */
export function designText({ facts, rows, derived }: Design): { readonly facts: string; readonly parts: string } {
  const given = facts.map((fact) => `${fact.name}: ${givenText(fact)}`);
  const lines = derived.map((node, index) => `${derivedName(index, derived.length)}: = ${expressionText(node)}`);
  const parts = rows.map((row) => `  - {id: ${row.name}, v: ${givenText(row)}, quantity: ${row.items}}`);
  return { facts: [...given, ...lines].join('\n'), parts: parts.join('\n') };
}

function derivedName(index: number, count: number): string {
  return index === count - 1 ? 'root' : `d${index}`;
}

function givenText({ spread, low, typical, high }: Given): string {
  if (spread === 'exact') return typical.toString(30);
  if (spread === 'range') return `${low.toString(30)} to ${high.toString(30)}`;
  return `${typical.toString(30)} +${high.sub(typical).toString(30)} / -${typical.sub(low).toString(30)}`;
}

export function expressionText(node: Node): string {
  switch (node.op) {
    case 'name':
      return node.name;
    case 'number':
      return node.value < 0 ? `(${node.value})` : String(node.value);
    case '^':
      return `(${expressionText(node.a)})^${node.exponent}`;
    case 'min':
    case 'max':
      return `${node.op}(${expressionText(node.a)}, ${expressionText(node.b)})`;
    case 'abs':
    case 'floor':
      return `${node.op}(${expressionText(node.a)})`;
    case 'if':
      return `if(${[`${expressionText(node.left)} > ${expressionText(node.right)}`, expressionText(node.met), expressionText(node.otherwise)].join(', ')})`;
    case 'sum':
      return 'sum(v over parts)';
    case 'greatest':
      return 'max(v over parts)';
    case 'least':
      return 'min(v over parts)';
    case 'count':
      return `count(parts where v > ${node.above})`;
    default:
      return `(${expressionText(node.a)} ${node.op} ${expressionText(node.b)})`;
  }
}

/** The value of the last derived figure; null where a divisor is 0. Those that it does not rest on are not asked. */
export function valueAt(design: Design, point: Point): Fraction | null {
  const { derived } = design;
  const items = itemsOf(design, point);
  const indexOf = new Map(derived.map((_, index) => [derivedName(index, derived.length), index]));
  const known = (name: string): Fraction | null => {
    const index = indexOf.get(name);
    return index === undefined ? (point.get(name) as Fraction) : evaluate(derived[index] as Node, known, items);
  };
  return known('root');
}

function itemsOf({ rows }: Design, point: Point): readonly Fraction[] {
  return rows.flatMap((row) => itemNames(row).map((name) => point.get(name) as Fraction));
}

export function itemNames({ name, items }: Given): readonly string[] {
  return Array.from({ length: items }, (_, index) => (index === 0 ? name : `${name}#${index}`));
}

function evaluate(node: Node, known: (name: string) => Fraction | null, items: readonly Fraction[]): Fraction | null {
  const of = (child: Node) => evaluate(child, known, items);
  switch (node.op) {
    case 'name':
      return known(node.name);
    case 'number':
      return new Fraction(node.value);
    case 'sum':
      return items.reduce((total, item) => total.add(item), new Fraction(0));
    case 'greatest':
      return items.reduce((a, b) => (a.compare(b) >= 0 ? a : b));
    case 'least':
      return items.reduce((a, b) => (a.compare(b) <= 0 ? a : b));
    case 'count':
      return new Fraction(items.filter((item) => item.compare(node.above) > 0).length);
    case 'if': {
      const [left, right] = [of(node.left), of(node.right)];
      if (left === null || right === null) return null;
      return of(left.compare(right) > 0 ? node.met : node.otherwise);
    }
    case '^': {
      const base = of(node.a);
      return base === null || (base.equals(0) && node.exponent < 0) ? null : base.pow(node.exponent);
    }
    case 'abs':
      return of(node.a)?.abs() ?? null;
    case 'floor':
      return of(node.a)?.floor() ?? null;
    default:
      return binary(node.op, of(node.a), of(node.b));
  }
}

function binary(op: '+' | '-' | '*' | '/' | 'min' | 'max', a: Fraction | null, b: Fraction | null): Fraction | null {
  if (a === null || b === null) return null;
  switch (op) {
    case '+':
      return a.add(b);
    case '-':
      return a.sub(b);
    case '*':
      return a.mul(b);
    case '/':
      return b.equals(0) ? null : a.div(b);
    case 'min':
      return a.compare(b) <= 0 ? a : b;
    case 'max':
      return a.compare(b) >= 0 ? a : b;
  }
}

/** Tenths between two whole numbers. */
function tenths(from: number, to: number): fc.Arbitrary<Fraction> {
  return fc.integer({ min: from * 10, max: to * 10 }).map((value) => new Fraction(value, 10));
}

export function givens(prefix: string, least: number, greatest: number, lowest: number): fc.Arbitrary<Given[]> {
  const one = fc.record({
    typical: tenths(lowest, 9),
    below: tenths(0, 2),
    above: tenths(0, 2),
    spread: fc.constantFrom('exact' as const, 'tolerance' as const, 'range' as const),
    items: prefix === 'r' ? fc.integer({ min: 1, max: 3 }) : fc.constant(1),
  });
  return fc.array(one, { minLength: least, maxLength: greatest }).map((list) =>
    list.map(({ typical, below, above, spread, items }, index) => ({
      name: `${prefix}${index}`,
      spread,
      low: spread === 'exact' ? typical : typical.sub(below),
      typical,
      high: spread === 'exact' ? typical : typical.add(above),
      items,
    })),
  );
}

/** A corner, or a place inside: `choice` gives 0 … 1 for each figure and item in turn. */
export function pointOf(
  { facts, rows }: Design,
  extent: 'full' | 'typical',
  choice: (index: number) => Fraction,
): Point {
  const point = new Map<string, Fraction>();
  for (const given of [...facts, ...rows]) {
    for (const name of itemNames(given)) {
      const share = choice(point.size);
      const inside = given.low.add(given.high.sub(given.low).mul(share));
      point.set(name, extent === 'typical' && given.spread !== 'range' ? given.typical : inside);
    }
  }
  return point;
}
