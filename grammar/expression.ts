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

/** A function as people write it. */
export interface FunctionDocumentation {
  readonly form: string;
  /** One line for completion and the language reference. */
  readonly meaning: string;
}

/** Functions of plain arguments: how many each takes (`most` null: any number). */
export const FUNCTIONS: ReadonlyMap<
  string,
  FunctionDocumentation & { readonly least: number; readonly most: number | null }
> = new Map([
  ['min', { form: 'min(a, b, …)', meaning: 'The least of them.', least: 1, most: null }],
  ['max', { form: 'max(a, b, …)', meaning: 'The greatest of them.', least: 1, most: null }],
  ['abs', { form: 'abs(a)', meaning: 'The value without its sign.', least: 1, most: 1 }],
  ['sqrt', { form: 'sqrt(a)', meaning: 'The square root; the unit’s root is taken too.', least: 1, most: 1 }],
  ['floor', { form: 'floor(a)', meaning: 'The next whole number below; a has no unit.', least: 1, most: 1 }],
  ['ceil', { form: 'ceil(a)', meaning: 'The next whole number above; a has no unit.', least: 1, most: 1 }],
  ['round', { form: 'round(a)', meaning: 'The nearest whole number; a has no unit.', least: 1, most: 1 }],
  ['log10', { form: 'log10(a)', meaning: 'The logarithm to base 10; a has no unit.', least: 1, most: 1 }],
  ['ln', { form: 'ln(a)', meaning: 'The natural logarithm; a has no unit.', least: 1, most: 1 }],
  ['exp', { form: 'exp(a)', meaning: 'The exponential function; a has no unit.', least: 1, most: 1 }],
  ['rss', { form: 'rss(a, b, …)', meaning: 'The root of the sum of the squares.', least: 1, most: null }],
  ['if', { form: 'if(c, a, b)', meaning: 'a where the condition c holds, else b.', least: 3, most: 3 }],
  [
    'average',
    {
      form: 'average(x, 65 % standby, 35 % record)',
      meaning: 'The mean of x over modes by their shares, which add up to 100 %.',
      least: 1,
      most: null,
    },
  ],
  [
    'route',
    {
      form: 'route(a, b)',
      meaning: 'The parts between two parts on the shortest chain of connections, as a table.',
      least: 2,
      most: 2,
    },
  ],
]);

/** Functions over the rows of a table; `element`: whether an expression stands before *over*. */
export const AGGREGATES: ReadonlyMap<string, FunctionDocumentation & { readonly element: boolean }> = new Map([
  ['sum', { form: 'sum(x over T where c)', meaning: 'The sum over all items of the rows.', element: true }],
  ['min', { form: 'min(x over T where c)', meaning: 'The least of the rows.', element: true }],
  ['max', { form: 'max(x over T where c)', meaning: 'The greatest of the rows.', element: true }],
  ['mean', { form: 'mean(x over T where c)', meaning: 'The mean over all items of the rows.', element: true }],
  ['overlap', { form: 'overlap(x over T where c)', meaning: 'The range that the rows’ ranges share.', element: true }],
  ['all', { form: 'all(c over T where d)', meaning: 'Whether c holds for every row.', element: true }],
  ['any', { form: 'any(c over T where d)', meaning: 'Whether c holds for some row.', element: true }],
  ['count', { form: 'count(T where c)', meaning: 'How many items the rows stand for.', element: false }],
]);

/** Everything that may stand before a bracket. */
export const FUNCTION_NAMES: readonly string[] = [...new Set([...AGGREGATES.keys(), ...FUNCTIONS.keys()])];

/** Exponents lie within this; larger ones are refused rather than computed. */
export const MAXIMUM_EXPONENT = 64;

/** How deep brackets and operators may nest. */
export const MAXIMUM_DEPTH = 64;

/** How many operands and operators one expression may have: a chain nests as deep as it is long. */
export const MAXIMUM_NODES = 2_000;
