/** The words that shape a requirement's sentence, as data: obligations, negations, conditions, verbs, numbers, names. */

/** How strongly a statement binds (ISO/IEC/IEEE 29148:2018 5.2.4; *must* binds like *shall*, RFC 2119 clause 1). */
export type Obligation = 'shall' | 'should' | 'will' | 'may';

/**
 * - modal: an obligation word.
 * - negation: `governs` where it turns the comparison right behind it around; `blunt` where it takes a duty away
 *   ("need not exceed"); `sweeping` where it reaches the verb from anywhere ("in no case"); `other` where it only makes
 *   the sentence ambiguous.
 * - prevent: negates what stands behind its `from`; avoid: negates what stands behind it.
 * - opener: opens a condition; `trailing` ones also behind the main clause without a comma.
 * - relative: opens a clause that says more about a noun.
 * - distributor: the limit behind it holds for every name of its clause.
 * - multiple: makes the code span behind it the base of the limit.
 */
export type WordMeaning =
  | { readonly kind: 'modal'; readonly obligation: Obligation; readonly binding: boolean }
  | { readonly kind: 'negation'; readonly how: 'governs' | 'sweeping' | 'blunt' | 'other' }
  | { readonly kind: 'prevent' }
  | { readonly kind: 'avoid' }
  | { readonly kind: 'opener' }
  | { readonly kind: 'relative' }
  | { readonly kind: 'distributor' };

export interface WordRow {
  readonly meaning: WordMeaning;
  readonly phrases: readonly string[];
}

export const WORD_ROWS: readonly WordRow[] = [
  { meaning: { kind: 'modal', obligation: 'shall', binding: true }, phrases: ['shall', 'must'] },
  { meaning: { kind: 'modal', obligation: 'should', binding: false }, phrases: ['should'] },
  { meaning: { kind: 'modal', obligation: 'will', binding: false }, phrases: ['will'] },
  { meaning: { kind: 'modal', obligation: 'may', binding: false }, phrases: ['may'] },
  {
    meaning: { kind: 'negation', how: 'governs' },
    phrases: ['not', 'no', 'never', 'none', 'nothing', 'neither', 'nobody', 'without', 'cannot', "can't", 'can not'],
  },
  {
    meaning: { kind: 'negation', how: 'sweeping' },
    phrases: [
      'at no time',
      'at no point',
      'under no circumstance',
      'under no circumstances',
      'under no condition',
      'under no conditions',
      'in no case',
      'in no event',
      'in no circumstances',
      'on no account',
      'by no means',
      'no way',
    ],
  },
  {
    meaning: { kind: 'negation', how: 'blunt' },
    phrases: [
      'need not',
      'needs not',
      "needn't",
      'not only',
      'not necessarily',
      'not just',
      'not merely',
      'not always',
      'not solely',
      'not required to',
      'not be required to',
      'not have to',
      'not need to',
      'not be obliged to',
      'not all',
      'not every',
      'not each',
      'may not',
    ],
  },
  {
    meaning: { kind: 'negation', how: 'other' },
    phrases: [
      ...words('nor hardly rarely seldom scarcely except excluding lacking against'),
      ...words("don't doesn't isn't aren't won't shan't mustn't shouldn't wouldn't couldn't"),
      ...forms('prohibit'),
      ...forms('inhibit'),
      ...forms('preclude'),
      ...forms('forbid'),
      ...forms('disallow'),
      ...forms('reject'),
      ...forms('ignore'),
      ...forms('refuse'),
      ...forms('cease'),
      ...forms('lack'),
      ...forms('suppress'),
      ...forms('discard'),
      ...forms('exclude'),
      ...forms('attenuate'),
      ...forms('block'),
      'fail to',
      'fails to',
      'failing to',
      'rather than',
      'instead of',
      'other than',
      'anything but',
      'all but',
      'not allowed',
      'not permitted',
      'not acceptable',
      'forbidden',
      'banned',
      'unacceptable',
      'impossible',
      'immune to',
      'insensitive to',
      'free of',
      'free from',
      'unable to',
    ],
  },
  {
    meaning: { kind: 'prevent' },
    phrases: [
      ...forms('prevent'),
      ...forms('keep'),
      'kept',
      ...forms('protect'),
      'stop',
      'stops',
      'stopping',
      'stopped',
    ],
  },
  { meaning: { kind: 'avoid' }, phrases: forms('avoid') },
  {
    meaning: { kind: 'opener' },
    phrases: [
      'when',
      'whenever',
      'while',
      'whilst',
      'if',
      'where',
      'unless',
      'until',
      'till',
      'once',
      'after',
      'before',
      'as long as',
      'so long as',
      'as soon as',
      'provided',
      'provided that',
      'providing that',
      'in case',
      'in the case that',
      'except when',
      'except while',
      'except if',
      'except where',
      'only when',
      'only while',
      'only if',
    ],
  },
  { meaning: { kind: 'relative' }, phrases: ['which', 'that', 'whose'] },
  { meaning: { kind: 'distributor' }, phrases: ['each', 'both', 'all', 'every'] },
];

/** A negation at the head of a sentence that reaches its verb: "No port shall draw more than 5 W". */
export const NEGATED_OPENINGS: ReadonlySet<string> = new Set(words('no none nothing neither nobody never'));

/** May stand between a negation and the comparison it turns around: "not to exceed", "never rise above". */
export const NEGATION_FILLERS: ReadonlySet<string> = new Set(
  words('to be ever being become go goes rise rises fall falls drop drops sink climb get at any time have a'),
);

/** Verbs of what a product can do; behind an obligation word they make two ends a span (2 · Two ends). */
export const CAPABILITY_VERBS: readonly string[] = [
  ...words('operate function work run accept withstand survive tolerate support endure cover tune measure handle'),
  ...words('operating functioning working running accepting withstanding surviving tolerating supporting enduring'),
  ...words('covering tuning measuring handling'),
  'be adjustable',
  'be stored',
  'be rated',
  'remain operational',
  'be operational',
  'be operated',
];

/** May stand between the obligation word and its verb without changing what is promised. */
export const VERB_PREFIXES: readonly string[] = [
  'be able to',
  'be capable of',
  'be designed to',
  'be expected to',
  'be presumed to',
  'be required to',
  'be made to',
  'be built to',
  'continue to',
  'have to',
];

/** Stand in for an obligation word where a text has none: "equipment is presumed to operate". */
export const WEAK_OBLIGATIONS: readonly string[] = [
  'is presumed to',
  'are presumed to',
  'is expected to',
  'are expected to',
  'is required to',
  'are required to',
  'is to',
  'are to',
];

/** With these a maximum may be a promise of capacity as well as a ceiling: "provide a maximum of 5 A". */
export const SUPPLY_VERBS: readonly string[] = [
  ...words('support provide deliver accept supply offer allow permit'),
  ...words('supporting providing delivering accepting supplying'),
];

/** What a product does at a threshold: "shut down above 40 °C" may say when it acts, or what it keeps to. */
export const TRIGGER_VERBS: ReadonlySet<string> = new Set(
  [
    ...[
      'alarm',
      'alert',
      'warn',
      'trip',
      'shut',
      'switch',
      'turn',
      'stop',
      'start',
      'disconnect',
      'connect',
      'restart',
    ],
    ...[
      'reset',
      'throttle',
      'open',
      'close',
      'activate',
      'deactivate',
      'disable',
      'enable',
      'fail',
      'react',
      'respond',
    ],
    ...['signal', 'report', 'log', 'record', 'detect', 'notify', 'indicate', 'power', 'trigger', 'engage', 'protect'],
  ].flatMap((verb) => forms(verb)),
);

/** With these as its main verb a sentence watches a figure: "log any voltage of more than 57 V". */
export const WATCHING_VERBS: ReadonlySet<string> = new Set(
  'log detect alarm alert warn trip shut disconnect react notify indicate trigger signal flag'.split(' '),
);

/** Behind *be* they say what is done about a figure of the subject: "voltages above 15 V shall be rejected". */
export const ACTED_ON: ReadonlySet<string> = new Set(
  words(
    'logged detected alarmed reported rejected ignored signalled signaled indicated blocked refused discarded suppressed filtered clamped prevented avoided prohibited forbidden excluded attenuated flagged treated considered recorded notified removed dropped banned impossible unacceptable inadmissible',
  ),
);

/** With *by* they make a figure a change, no value: "reduce the draw by at least 5 W". */
export const CHANGE_VERBS: ReadonlySet<string> = new Set(
  [
    'reduce',
    'increase',
    'lower',
    'raise',
    'decrease',
    'improve',
    'extend',
    'shorten',
    'cut',
    'boost',
    'widen',
    'lessen',
  ].flatMap((verb) => forms(verb)),
);

/** A change from one figure to another, no range: "boost 5 V to 12 V". */
export const TRANSITION_VERBS: ReadonlySet<string> = new Set(
  [
    'convert',
    'boost',
    'step',
    'raise',
    'lower',
    'reduce',
    'increase',
    'decrease',
    'change',
    'switch',
    'rise',
    'fall',
    'drop',
    'ramp',
    'transition',
    'move',
    'go',
    'scale',
    'charge',
    'discharge',
    'translate',
    'shift',
  ].flatMap((verb) => forms(verb)),
);

/** Adverbs that may stand between obligation and verb besides words in -ly. */
export const ADVERBS: ReadonlySet<string> = new Set(
  words('not never always also still then each both all only ever at times thus therefore hence itself'),
);

/** Lead a figure that says under which circumstances, not what is promised (2 · rule 9). */
export const CIRCUMSTANCE_LEADS: ReadonlySet<string> = new Set(words('at @ per with on over for from in every after'));

/** May stand between a relation or a lead and its figure. */
export const DETERMINERS: ReadonlySet<string> = new Set(words('a an the its their this any each'));

/** Between "minimum" and its figure, right before the figure: "the minimum width shall be 8 mm". */
export const COPULAS: ReadonlySet<string> = new Set(['be', 'of', 'is', 'are', ':', 'being', 'equal', 'to']);

/** Words before a number that make it part of a name: "class 2", "clause 5.2". */
export const NAME_INTRODUCERS: ReadonlySet<string> = new Set(
  words(
    'class type clause clauses section sections table tables figure figures annex appendix part version revision rev grade category cat gen generation chapter paragraph page pages slot pin step option zone item row edition release series model number no nos channel port lane level tier phase stage standard rfc line unit profile layer group bank ports channels lanes pins slots steps lines',
  ),
);

/** Nouns behind "the" and a figure that make the figure part of a name: "the 5 V rail". */
export const NAMED_THINGS: ReadonlySet<string> = new Set(
  words(
    'rail rails port ports bus buses supply supplies input inputs output outputs line lines band bands link links channel channels domain domains plane planes net nets battery bank connector connectors lane lanes interface interfaces clock',
  ),
);

export const NUMBER_WORDS: ReadonlyMap<string, number> = new Map(
  words('zero one two three four five six seven eight nine ten eleven twelve').map((word, index) => [word, index]),
);

/** Number words that are never read alone: with a figure in brackets the figure counts, else they are asked about. */
export const LARGER_NUMBER_WORDS: ReadonlySet<string> = new Set(
  words(
    'thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety hundred hundreds thousand thousands million millions billion billions trillion dozen dozens',
  ),
);

/** Nouns that stand for more, or less, than one of what the number counts: "two pairs", "5 pct", "three quarters". */
export const GROUP_NOUNS: ReadonlySet<string> = new Set(
  words(
    'pct percentage permille permil cent basis pair pairs couple couples order orders gross set sets third thirds quarter quarters half halves tenth tenths hundredth hundredths fold decade decades point points',
  ),
);

/** Words in front of a figure that take a part of it or several times as much: "half of 100 W", "twice 5 W". */
export const PART_WORDS: ReadonlySet<string> = new Set(
  words(
    'half halves third thirds quarter quarters fifth fifths tenth tenths twice thrice double triple times fraction multiple multiples',
  ),
);

/** English words that are spelled like a unit with a prefix (attosecond, attometre, are …) and never mean it. */
export const NEVER_UNITS: ReadonlySet<string> = new Set(words('a an as at am are has is us so do no to or and per of'));

/** Their full stop ends no sentence (2 · Numbers). */
export const ABBREVIATIONS: ReadonlySet<string> = new Set(
  words(
    'max min typ approx e.g i.e no nos vs cf fig figs sec ca incl excl resp etc ref eq rev vol ch nom temp freq dr mr mrs st',
  ),
);

/** States of "no" beside a yes/no name (2 · rule 8). */
export const OFF_WORDS: ReadonlySet<string> = new Set(
  words('off disabled absent none open disconnected no not never without unpowered inactive'),
);

/** The verb as it stands with its endings: block, blocks, blocking, blocked. */
function forms(verb: string): readonly string[] {
  const stem = verb.endsWith('e') ? verb.slice(0, -1) : verb;
  return [verb, `${verb}s`, `${stem}ing`, `${stem}ed`];
}

function words(list: string): readonly string[] {
  return list.split(' ');
}
