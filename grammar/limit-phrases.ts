/** The words of limits as data: which phrases state which relation, and which can be read in more than one way. */

/** The comparison that a phrase states before any negation. */
export type Bound = '>=' | '<=' | '>' | '<' | '=';

/**
 * What a phrase means beside a quantity.
 * - relation: stands before the quantity; `either` also after it; `weak` words may as well name a circumstance.
 * - extreme: minimum and maximum; before the quantity, after it, or earlier in the clause ("the minimum width is").
 * - speed: the relation depends on whether the quantity is a duration or a rate.
 * - after: stands after the quantity.
 * - ask: can be read in several ways; `where` says on which side of the quantity it stands.
 * - date: a relation of dates only.
 * - within: `<=` before one quantity, nothing more before two ends.
 */
export type LimitMeaning =
  | { readonly kind: 'relation'; readonly relation: Bound; readonly weak: boolean; readonly either: boolean }
  | { readonly kind: 'extreme'; readonly relation: '>=' | '<=' }
  | { readonly kind: 'speed'; readonly faster: boolean; readonly where: 'before' | 'after' }
  | { readonly kind: 'after'; readonly relation: '>=' | '<=' }
  | { readonly kind: 'ask'; readonly readings: readonly Bound[]; readonly where: 'before' | 'after' | 'better' }
  | { readonly kind: 'date'; readonly relation: Bound }
  | { readonly kind: 'within' };

export interface LimitRow {
  readonly meaning: LimitMeaning;
  /** Words apart by one space; `<up>`, `<down>` stand for a comparative, `<any>` for any one word. */
  readonly phrases: readonly string[];
}

/** Comparatives that say "beyond the figure" (C↑). */
export const UPWARD: readonly string[] = words(
  'more greater higher larger bigger longer farther further wider taller deeper thicker coarser heavier later hotter warmer louder brighter stronger steeper',
);

/** Comparatives that say "short of the figure" (C↓). */
export const DOWNWARD: readonly string[] = words(
  'less fewer lower smaller shorter narrower thinner finer tighter lighter earlier sooner cooler colder quieter dimmer closer nearer cheaper',
);

export const LIMIT_ROWS: readonly LimitRow[] = [
  {
    meaning: before('>=', { either: true }),
    phrases: [
      'at least',
      'at the least',
      'at the very least',
      'at a minimum',
      'at the minimum',
      'at minimum',
      'as a minimum',
    ],
  },
  {
    meaning: before('>='),
    phrases: [
      'at or above',
      'at or over',
      '<up> than or equal to',
      '<up> or equal to',
      'equal to or <up> than',
      'equal or <up> than',
      '≥',
      '⩾',
      '>=',
      '=>',
    ],
  },
  {
    meaning: before('<=', { either: true }),
    phrases: [
      'at most',
      'at the most',
      'at the very most',
      'at a maximum',
      'at the maximum',
      'at maximum',
      'as a maximum',
    ],
  },
  {
    meaning: before('<='),
    phrases: [
      'at or below',
      'at or under',
      'limited to',
      '<down> than or equal to',
      '<down> or equal to',
      'equal to or <down> than',
      'equal or <down> than',
      '≤',
      '⩽',
      '<=',
      '=<',
    ],
  },
  { meaning: before('>'), phrases: ['<up> than', 'exceed', 'exceeds', 'exceeded', 'exceeding', 'in excess of', '>'] },
  { meaning: before('<'), phrases: ['<down> than', '<'] },
  { meaning: before('>', { weak: true }), phrases: ['above', 'over'] },
  { meaning: before('<', { weak: true }), phrases: ['below', 'under'] },
  { meaning: before('='), phrases: ['exactly', 'equal to', '='] },
  {
    meaning: { kind: 'extreme', relation: '>=' },
    phrases: ['minimum', 'min', 'a minimum of', 'minimum of', 'the minimum of', 'min of'],
  },
  {
    meaning: { kind: 'extreme', relation: '<=' },
    phrases: ['maximum', 'max', 'a maximum of', 'maximum of', 'the maximum of', 'max of'],
  },
  { meaning: { kind: 'after', relation: '>=' }, phrases: ['or <up>', 'or above', 'or over'] },
  { meaning: { kind: 'after', relation: '<=' }, phrases: ['or <down>', 'or below', 'or under'] },
  { meaning: { kind: 'speed', faster: true, where: 'before' }, phrases: ['faster than'] },
  { meaning: { kind: 'speed', faster: false, where: 'before' }, phrases: ['slower than'] },
  { meaning: { kind: 'speed', faster: true, where: 'after' }, phrases: ['or faster', 'or quicker'] },
  { meaning: { kind: 'speed', faster: false, where: 'after' }, phrases: ['or slower'] },
  { meaning: { kind: 'within' }, phrases: ['within', 'within the range', 'within the range of', 'within a range of'] },
  { meaning: { kind: 'date', relation: '<=' }, phrases: ['on or before', 'by'] },
  { meaning: { kind: 'date', relation: '>=' }, phrases: ['on or after', 'from'] },
  {
    meaning: ask('before', '>=', '<='),
    phrases: [
      'up to',
      'up to and including',
      'down to',
      'as <any> as',
      'better than',
      'worse than',
      'in the order of',
      'on the order of',
      'of the order of',
      'faster than or equal to',
      'slower than or equal to',
    ],
  },
  {
    meaning: ask('before', '>=', '<=', '='),
    phrases: [
      'about',
      'approximately',
      'approx',
      'around',
      'roughly',
      'circa',
      'ca',
      'nearly',
      'almost',
      'some',
      '~',
      '≈',
      '∼',
      '≅',
      '≠',
      '!=',
      'not equal to',
      'close to',
      'near',
    ],
  },
  {
    meaning: ask('after', '>=', '<='),
    phrases: ['or worse', 'or so', 'or thereabouts', 'more or less', 'give or take'],
  },
  { meaning: ask('better', '>=', '<='), phrases: ['or better'] },
];

/** Relations of single words that also open a condition ("after the door opens"); a date right behind decides. */
export const DATE_OPENERS: ReadonlyMap<string, Bound> = new Map([
  ['before', '<'],
  ['after', '>'],
]);

/** Modifiers that make a relation vague: "slightly more than", "well below". */
export const VAGUE_MODIFIERS: ReadonlySet<string> = new Set(
  words('slightly somewhat just well far much little considerably significantly marginally substantially barely'),
);

/** A minimum or maximum of these may bound the figure from either side ("a minimum detectable signal of 3 µV"). */
export const THRESHOLD_ADJECTIVES: ReadonlySet<string> = new Set(
  words('detectable measurable resolvable visible usable'),
);

/** Right behind a figure these make it a difference: "at least 5 W less", "3 dB better than". */
export const DIFFERENCE_WORDS: ReadonlySet<string> = new Set([
  ...UPWARD,
  ...DOWNWARD,
  ...words('faster slower better worse above below under beyond'),
]);

/** Scales on which a smaller figure is the better one, or codes that have no order. */
export const BACKWARD_SCALES: ReadonlySet<string> = new Set(words('awg swg gauge class'));

function before(relation: Bound, options: { weak?: boolean; either?: boolean } = {}): LimitMeaning {
  return { kind: 'relation', relation, weak: options.weak ?? false, either: options.either ?? false };
}

function ask(where: 'before' | 'after' | 'better', ...readings: Bound[]): LimitMeaning {
  return { kind: 'ask', readings, where };
}

function words(list: string): readonly string[] {
  return list.split(' ');
}
