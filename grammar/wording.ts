/**
 * Words that keep a requirement from being checked, as data: by kind, with why and with what would be checkable.
 *
 * The kinds are those of ISO/IEC/IEEE 29148:2018, 5.2.7 and of NASA/SP-2016-6105 Rev 2, appendix C. Words that these name
 * as examples are tested as such; the others of a kind are common practice, no source.
 */

/** When a word is no matter, though it stands there. */
export type WordingGuard =
  /** A figure or a name in the same clause says how much it is: "a small hole of at most 2 mm". */
  | 'figure'
  /** A limit or a name follows in the sentence: "shall not exceed 5 W". */
  | 'limit'
  /** A condition or a figure says how far it reaches: "shall always be lit while charging". */
  | 'bound';

export interface WordingRow {
  /** In lower case, words and marks apart by one space; `<modal>`, `<up>`, `<down>` and `<any>` stand for one word. */
  readonly phrases: readonly string[];
  /** Goes on after the words: “robust” …. */
  readonly why: string;
  /** What to write instead, as a request. */
  readonly checkable: string;
  readonly unless?: WordingGuard;
}

export interface WordingKind {
  readonly kind: string;
  readonly source: string;
  readonly rows: readonly WordingRow[];
}

const ISO = 'ISO/IEC/IEEE 29148:2018, 5.2.7';
const NASA = 'NASA/SP-2016-6105 Rev 2, appendix C';

export const WORDING_KINDS: readonly WordingKind[] = [
  {
    kind: 'superlative',
    source: ISO,
    rows: [
      {
        phrases: [
          ...list('best|most|utmost|optimal|optimum|optimally|ideal|ideally|state of the art'),
          ...list('state-of-the-art|best in class|best-in-class|world class|world-class|cutting edge'),
          ...list('cutting-edge'),
        ],
        why: 'is a superlative with nothing to compare it with',
        checkable: 'give the figure that is good enough',
      },
      {
        phrases: pairs(
          'highest|lowest|largest|smallest|fastest|slowest|lightest|cheapest|greatest|longest|shortest|maximum|minimum',
          'possible|available|achievable',
        ),
        why: 'moves with what can be had and is never reached',
        checkable: 'give the figure that is good enough',
        unless: 'figure',
      },
    ],
  },
  {
    kind: 'subjective language',
    source: ISO,
    rows: [
      {
        phrases: [
          ...list('user friendly|user-friendly|easy to use|easy-to-use'),
          ...words(
            'easy easily simple intuitive intuitively convenient conveniently comfortable comfortably ergonomic',
          ),
        ],
        why: 'is a matter of taste',
        checkable: 'say who does what with it, in how many steps or how long',
      },
      {
        phrases: [...list('cost effective|cost-effective|low cost|low-cost|inexpensive|affordable|economical')],
        why: 'is a matter of opinion',
        checkable: 'give the cost that it may have',
        unless: 'figure',
      },
      {
        phrases: words(
          'good nice attractive pleasant elegant beautiful modern professional acceptable satisfactory seamless seamlessly',
        ),
        why: 'is a matter of taste',
        checkable: 'name the property that is meant and its limit',
      },
    ],
  },
  {
    kind: 'vague pronoun',
    source: ISO,
    rows: [
      {
        phrases: pairs('it|they|this|these|those', '<modal>'),
        why: 'does not say which thing is bound',
        checkable: 'name the thing',
      },
      {
        phrases: ['the former', 'the latter'],
        why: 'points at something that may move',
        checkable: 'name the thing',
      },
    ],
  },
  {
    kind: 'ambiguous adverb or adjective',
    source: ISO,
    rows: [
      {
        phrases: [
          'almost always',
          'most of the time',
          ...words('usually generally normally often frequently sometimes occasionally seldom regularly'),
        ],
        why: 'leaves open how often',
        checkable: 'give the share of the time or the number of cases',
        unless: 'figure',
      },
      {
        phrases: words(
          'significant significantly considerable considerably substantial substantially minimal minimally negligible excessive excessively',
        ),
        why: 'leaves open how much',
        checkable: 'give the figure',
        unless: 'figure',
      },
      {
        phrases: words(
          'sufficient sufficiently adequate adequately appropriate appropriately suitable suitably proper properly reasonable reasonably',
        ),
        why: 'leaves open what is enough',
        checkable: 'give the figure or the rule that it must satisfy',
        unless: 'figure',
      },
      {
        phrases: [
          ...list('as soon as possible|in a timely manner|real time'),
          ...words('fast quick quickly rapid rapidly slow slowly prompt promptly timely immediately instantly soon'),
        ],
        why: 'leaves open how fast',
        checkable: 'give the time within which',
        unless: 'figure',
      },
      {
        phrases: [
          ...list('a few|a number of|a lot of|lots of|most of'),
          ...words('several some many few numerous various multiple'),
        ],
        why: 'leaves open how many',
        checkable: 'give the number',
        unless: 'figure',
      },
      {
        phrases: ['approximately', 'roughly', 'nearly', 'almost', 'about as'],
        why: 'leaves open how near',
        checkable: 'give both ends or a tolerance',
        unless: 'figure',
      },
      {
        phrases: words('accurate accurately precise precisely smooth smoothly'),
        why: 'leaves open how closely',
        checkable: 'give the greatest error',
        unless: 'figure',
      },
    ],
  },
  {
    kind: 'unverifiable word',
    source: `${NASA}.4, from memory`,
    rows: [
      {
        phrases: [
          'ad hoc',
          ...words('flexible flexibly robust robustly reliable reliably efficient efficiently effectively safe safely'),
          ...words('securely clearly usable'),
        ],
        why: 'names no test that could fail',
        checkable: 'say what it must withstand or do, and give the limit',
      },
      {
        phrases: words(
          'maximize maximizes maximise maximises minimize minimizes minimise minimises optimize optimizes optimise optimises',
        ),
        why: 'has no point at which it is done',
        checkable: 'give the figure to be reached',
      },
      {
        phrases: [
          'light weight',
          ...words('portable lightweight light-weight small large big compact accommodate accommodates'),
        ],
        why: 'leaves open how much',
        checkable: 'give the size, the mass or the number',
        unless: 'figure',
      },
    ],
  },
  {
    kind: 'open-ended term',
    source: ISO,
    rows: [
      {
        phrases: ['provide support', 'provides support', 'provide support for', 'provides support for'],
        why: 'does not say what is done',
        checkable: 'say what it does and with what result',
      },
      {
        phrases: [
          ...list('but not limited to|including but not limited to|including , but not limited to|and so on'),
          ...list('and so forth|and the like|and others|among others|or similar|such as|for example'),
          ...list('for instance|e.g|etc|et cetera'),
        ],
        why: 'leaves the list open',
        checkable: 'list everything that is meant',
      },
      {
        phrases: ['as a minimum', 'at a minimum', 'at minimum', 'at the minimum'],
        why: 'is only the beginning of a list that has no end',
        checkable: 'list everything that is meant, or give the least number',
        unless: 'figure',
      },
    ],
  },
  {
    kind: 'comparative phrase',
    source: ISO,
    rows: [
      {
        phrases: ['better than', 'worse than', 'faster than', 'slower than', '<up> than', '<down> than', 'superior to'],
        why: 'compares with something that has no figure here',
        checkable: 'give the figure to be beaten',
        unless: 'figure',
      },
      {
        phrases: [
          ...list('higher quality|better quality|high quality|high-quality'),
          ...words('improve improves improved enhance enhances enhanced comparable competitive'),
        ],
        why: 'compares with something that is not named',
        checkable: 'name the property and its limit',
      },
    ],
  },
  {
    kind: 'loophole',
    source: ISO,
    rows: [
      {
        phrases: [
          ...pairs('if|where|when|whenever', 'possible|practicable|practical|feasible'),
          ...list('as <any> as possible|as <any> as practicable|as <any> as practical'),
          ...list('as <any> as reasonably practicable|to the extent possible|to the extent practicable'),
          ...list('to the extent practical|to the greatest extent|to the maximum extent|at the discretion of'),
          ...list('unless otherwise specified|unless otherwise stated|unless otherwise agreed|preferably'),
        ],
        why: 'is a way out',
        checkable: 'say in which cases it does not apply, or write should',
      },
      {
        phrases: pairs('as|if|where|when|whenever', 'appropriate|applicable|required|necessary|needed'),
        why: 'does not say when',
        checkable: 'say under which condition',
      },
      {
        phrases: [
          ...list('best effort|best efforts|every effort|attempt to|try to|strive to|aim to|endeavour to'),
          ...list('endeavor to'),
        ],
        why: 'promises an effort and no result',
        checkable: 'give the result',
        unless: 'figure',
      },
    ],
  },
  {
    kind: 'incomplete reference',
    source: ISO,
    rows: [
      {
        phrases: [
          ...pairs('applicable|relevant|appropriate', 'standard|standards|regulation|regulations|law|laws'),
          'industry standard',
          'industry standards',
          ...pairs('good|best|common|standard|usual', 'practice|practices'),
          ...pairs('latest|current|newest', 'standard|standards|edition|version|revision'),
        ],
        why: 'does not say which document',
        checkable: 'name it with its date and clause',
      },
      {
        phrases: [
          ...list('as specified|as described above|as mentioned above|as above|see above|see below|as agreed'),
          ...list('as defined elsewhere|above-mentioned|aforementioned'),
        ],
        why: 'points at no place that can be found',
        checkable: 'give the id, or the document and its clause',
        unless: 'figure',
      },
    ],
  },
  {
    kind: 'totality',
    source: ISO,
    rows: [
      {
        phrases: [
          ...pairs('under all|under any|in all|in any', 'circumstances|conditions|situations'),
          ...pairs('under any|under every|in any|in every', 'circumstance|condition|situation'),
          ...list('every situation|any situation|in all cases|in every case|all environments|any environment'),
          ...list('everything|everywhere|anywhere|forever'),
        ],
        why: 'can never be shown: there is always one more',
        checkable: 'list the cases or give the range',
      },
      {
        phrases: ['always', 'never', 'at all times', 'at any time', 'all the time'],
        why: 'has no end and can never be shown',
        checkable: 'say while or when, or give the limit',
        unless: 'bound',
      },
    ],
  },
  {
    kind: 'negative statement',
    source: `${NASA}.3`,
    rows: [
      {
        phrases: ['<modal> not', '<modal> never'],
        why: 'says what is not wanted, which no test can show',
        checkable: 'say what it does instead, or give a limit',
        unless: 'limit',
      },
    ],
  },
  {
    kind: 'operational statement',
    source: `${NASA}.2`,
    rows: [
      {
        phrases: pairs(
          'operator|operators|user|users|technician|technicians|installer|installers|customer|customers|crew|personnel',
          '<modal>',
        ),
        why: 'binds a person, not the product',
        checkable: 'say what the product does for them',
      },
    ],
  },
  {
    kind: 'ability instead of action',
    source: `${NASA}, from memory`,
    rows: [
      {
        phrases: [
          'be capable of',
          'be able to',
          ...pairs('have|provide', 'the capability to|the capability of|the ability to'),
        ],
        why: 'promises an ability, and not that it does so',
        checkable: 'say what it does: “shall …”',
      },
    ],
  },
  {
    kind: 'unsettled words',
    source: `${NASA}, from memory`,
    rows: [
      {
        phrases: ['and / or'],
        why: 'can be read as both or as either',
        checkable: 'write “and”, or “or”, or two requirements',
      },
      {
        phrases: ['tba', 'to be determined', 'to be defined', 'to be decided', 'to be announced'],
        why: 'leaves the requirement without its content',
        checkable: 'write it, or a figure marked (TBR), and say who owns it',
      },
    ],
  },
];

/** Phrases of the trade that hold one of the words above and mean something else. */
export const QUIET_PHRASES: readonly string[] = [
  ...list('at most|at the most|at the very most|at best|most significant|most recent|most recently'),
  ...list('best before|power good|known good|real time clock|big endian|fast ethernet|ideal diode'),
  ...list('small signal|small form factor|soft start|a multiple of|multiple access|as many as'),
  ...list('how many|as few as'),
  ...pairs('safe', 'state|states|mode|operating area|extra low|extra-low'),
  ...pairs('fast|slow|quick', 'mode|charge|charging|decay|blow'),
  ...list('slow start|quick release|quick connect'),
  ...pairs('more|less|longer|shorter', 'than a|than an'),
  ...pairs('normally', 'open|closed|on|off'),
  ...pairs('later|earlier|sooner', 'than'),
  ...pairs('as|if|where|when|whenever', 'required by|required for|required in|required to'),
  ...pairs('as|if|where|when|whenever', 'necessary for|necessary to|needed for|needed by|needed to'),
  ...pairs('as|if|where|when|whenever', 'applicable to|applicable in|appropriate to|appropriate for'),
  ...pairs('as specified|as agreed', 'in|by|for|under|with'),
  ...pairs('<modal> not', 'only|necessarily|be required to|need to|have to'),
];

/** Every first with every second, both parted by bars. */
function pairs(firsts: string, seconds: string): readonly string[] {
  return firsts.split('|').flatMap((first) => seconds.split('|').map((second) => `${first} ${second}`));
}

function list(phrases: string): readonly string[] {
  return phrases.split('|');
}

function words(list: string): readonly string[] {
  return list.split(' ');
}
