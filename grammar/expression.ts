/** The words and signs of the expression language, as data: what is reserved, which functions there are, what each sign means. */

/** Words that are never names at the start of a path. `to` parts the ends of `within A to B`. */
export const KEYWORDS: ReadonlySet<string> = new Set([
  'and',
  'or',
  'not',
  'over',
  'where',
  'as',
  'else',
  'within',
  'spans',
  'to',
  'is',
  'one',
  'of',
  'has',
  'yes',
  'no',
  'true',
  'false',
]);

/** Comparison signs and their relation; longer signs stand first so that `<=` is not read as `<`. */
export const COMPARISONS: readonly (readonly [sign: string, relation: '>=' | '>' | '<=' | '<' | '=' | '!='])[] = [
  ['<=', '<='],
  ['>=', '>='],
  ['!=', '!='],
  ['≤', '<='],
  ['≥', '>='],
  ['≠', '!='],
  ['<', '<'],
  ['>', '>'],
  ['=', '='],
];

/** Functions of plain arguments: how many each takes (`most` null: any number). */
export const FUNCTIONS: ReadonlyMap<string, { readonly least: number; readonly most: number | null }> = new Map([
  ['min', { least: 1, most: null }],
  ['max', { least: 1, most: null }],
  ['abs', { least: 1, most: 1 }],
  ['sqrt', { least: 1, most: 1 }],
  ['floor', { least: 1, most: 1 }],
  ['ceil', { least: 1, most: 1 }],
  ['round', { least: 1, most: 1 }],
  ['log10', { least: 1, most: 1 }],
  ['ln', { least: 1, most: 1 }],
  ['exp', { least: 1, most: 1 }],
  ['rss', { least: 1, most: null }],
  ['if', { least: 3, most: 3 }],
  ['average', { least: 1, most: null }],
  ['route', { least: 2, most: 2 }],
]);

/** Functions over the rows of a table; `element`: whether an expression stands before *over*. */
export const AGGREGATES: ReadonlyMap<string, { readonly element: boolean }> = new Map([
  ['sum', { element: true }],
  ['min', { element: true }],
  ['max', { element: true }],
  ['mean', { element: true }],
  ['overlap', { element: true }],
  ['all', { element: true }],
  ['any', { element: true }],
  ['count', { element: false }],
]);

/** Exponents lie within this; larger ones are refused rather than computed. */
export const MAXIMUM_EXPONENT = 64;

/** How deep brackets and operators may nest. */
export const MAXIMUM_DEPTH = 64;

/** How many operands and operators one expression may have: a chain nests as deep as it is long. */
export const MAXIMUM_NODES = 2_000;
