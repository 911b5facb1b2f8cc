/** Expressions as trees; every node keeps its place in the document. */
import type { QuantityValue } from '../../quantity/value';
import type { Span } from '../span';

export type Expression =
  | Literal
  | TextLiteral
  | BooleanLiteral
  | SetLiteral
  | Name
  | Unary
  | Binary
  | Power
  | Comparison
  | Ends
  | OneOf
  | Has
  | Logical
  | Else
  | Call
  | Aggregate
  | Missing;

export interface Literal {
  readonly type: 'literal';
  readonly value: QuantityValue;
  readonly span: Span;
}

export interface TextLiteral {
  readonly type: 'text';
  readonly text: string;
  readonly span: Span;
}

export interface BooleanLiteral {
  readonly type: 'boolean';
  readonly value: boolean;
  readonly span: Span;
}

/** `("a", "b")`. */
export interface SetLiteral {
  readonly type: 'set';
  readonly items: readonly Expression[];
  readonly span: Span;
}

/** `memory.capacity`: path parts as written. */
export interface Name {
  readonly type: 'name';
  readonly parts: readonly string[];
  readonly span: Span;
}

export interface Unary {
  readonly type: 'unary';
  readonly operator: '-' | 'not';
  readonly operand: Expression;
  readonly span: Span;
}

export interface Binary {
  readonly type: 'binary';
  readonly operator: '+' | '-' | '*' | '/';
  readonly left: Expression;
  readonly right: Expression;
  readonly span: Span;
}

export interface Power {
  readonly type: 'power';
  readonly base: Expression;
  readonly exponent: Expression;
  readonly span: Span;
}

export interface Comparison {
  readonly type: 'comparison';
  readonly relation: '>=' | '>' | '<=' | '<' | '=' | '!=';
  readonly left: Expression;
  readonly right: Expression;
  readonly span: Span;
}

/** `x within A to B`, `x spans A to B`. */
export interface Ends {
  readonly type: 'ends';
  readonly relation: 'within' | 'spans';
  readonly value: Expression;
  readonly low: Expression;
  readonly high: Expression;
  readonly span: Span;
}

/** `x is one of (…)`. */
export interface OneOf {
  readonly type: 'one-of';
  readonly value: Expression;
  readonly set: Expression;
  readonly span: Span;
}

/** `s has x`. */
export interface Has {
  readonly type: 'has';
  readonly set: Expression;
  readonly item: Expression;
  readonly span: Span;
}

export interface Logical {
  readonly type: 'logical';
  readonly operator: 'and' | 'or';
  readonly left: Expression;
  readonly right: Expression;
  readonly span: Span;
}

/** `x else y`: y where x is not written. */
export interface Else {
  readonly type: 'else';
  readonly value: Expression;
  readonly otherwise: Expression;
  readonly span: Span;
}

export interface Call {
  readonly type: 'call';
  readonly name: string;
  readonly nameSpan: Span;
  readonly arguments: readonly Expression[];
  readonly span: Span;
}

/** `sum(x over T as r where c)`, `count(T where c)`. */
export interface Aggregate {
  readonly type: 'aggregate';
  readonly name: string;
  readonly nameSpan: Span;
  /** Null for `count`. */
  readonly element: Expression | null;
  /** A table's name, or a call of `route`. */
  readonly table: Expression;
  /** The row's own name after *as*; null when its fields are named bare. */
  readonly row: string | null;
  readonly condition: Expression | null;
  readonly span: Span;
}

/** Where something should stand and nothing that can be read does; a problem says what. */
export interface Missing {
  readonly type: 'missing';
  readonly span: Span;
}

/** The nodes directly below a node, in text order. */
export function children(node: Expression): readonly Expression[] {
  switch (node.type) {
    case 'literal':
    case 'text':
    case 'boolean':
    case 'name':
    case 'missing':
      return [];
    case 'set':
      return node.items;
    case 'unary':
      return [node.operand];
    case 'binary':
    case 'comparison':
    case 'logical':
      return [node.left, node.right];
    case 'power':
      return [node.base, node.exponent];
    case 'ends':
      return [node.value, node.low, node.high];
    case 'one-of':
      return [node.value, node.set];
    case 'has':
      return [node.set, node.item];
    case 'else':
      return [node.value, node.otherwise];
    case 'call':
      return node.arguments;
    case 'aggregate':
      return [node.element, node.table, node.condition].filter((part) => part !== null);
  }
}

/** The node and everything below it, parents first. */
export function* descendants(node: Expression): Generator<Expression> {
  yield node;
  for (const child of children(node)) yield* descendants(child);
}
