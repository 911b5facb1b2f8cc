/** Words that published guides for requirements name as examples, each in a sentence that has it. */

export interface WordingGroup {
  readonly source: string;
  readonly says: string;
  readonly rows: readonly (readonly [words: string, sentence: string])[];
}

const ISO = 'ISO/IEC/IEEE 29148:2018, clause 5.2.7';

export const FLAGGED: readonly WordingGroup[] = [
  {
    source: ISO,
    says: 'superlatives',
    rows: [
      ['best', 'The recorder shall take the best picture.'],
      ['most', 'The recorder shall show the most detail.'],
    ],
  },
  {
    source: ISO,
    says: 'subjective language',
    rows: [
      ['user friendly', 'The console shall be user friendly.'],
      ['easy to use', 'The console shall be easy to use.'],
      ['cost effective', 'The housing shall be cost effective.'],
    ],
  },
  {
    source: ISO,
    says: 'ambiguous adverbs and adjectives',
    rows: [
      ['almost always', 'The recorder shall almost always have power.'],
      ['significant', 'The housing shall keep out significant dust.'],
      ['minimal', 'The recorder shall make minimal noise.'],
    ],
  },
  {
    source: ISO,
    says: 'open-ended, non-verifiable terms',
    rows: [
      ['provide support', 'The recorder shall provide support to visitors.'],
      ['but not limited to', 'The log shall hold errors, but not limited to them.'],
      ['as a minimum', 'The log shall hold errors as a minimum.'],
    ],
  },
  {
    source: ISO,
    says: 'comparative phrases',
    rows: [
      ['better than', 'The picture shall be better than the old one.'],
      ['higher quality', 'The picture shall be of higher quality.'],
    ],
  },
  {
    source: ISO,
    says: 'terms that imply totality',
    rows: [
      ['under all conditions', 'The recorder shall run under all conditions.'],
      ['always', 'The console shall always answer.'],
      ['shall never', 'The recorder shall never stop.'],
      ['in every situation', 'The recorder shall run in every situation.'],
    ],
  },
  {
    source: 'NASA/SP-2016-6105 Rev 2, appendix C.3',
    says: 'stated positively',
    rows: [['shall not', 'The unit shall not overheat.']],
  },
  {
    source: 'NASA/SP-2016-6105 Rev 2, appendix C.2',
    says: '“the operator shall” is almost always operational',
    rows: [['operator shall', 'The operator shall reset the unit.']],
  },
  {
    source: 'NASA/SP-2016-6105 Rev 2, appendix C.4, from memory',
    says: 'unverifiable terms',
    rows: [
      ['flexible', 'The mount shall be flexible.'],
      ['easy', 'The mount shall be easy to lift.'],
      ['sufficient', 'The recorder shall have sufficient memory.'],
      ['safe', 'The lid shall be safe.'],
      ['ad hoc', 'The recorder shall form ad hoc networks.'],
      ['adequate', 'The lid shall give adequate shade.'],
      ['accommodate', 'The housing shall accommodate the drive.'],
      ['user-friendly', 'The console shall be user-friendly.'],
      ['usable', 'The console shall be usable.'],
      ['when required', 'The fan shall turn when required.'],
      ['if required', 'The fan shall turn if required.'],
      ['appropriate', 'The console shall give appropriate messages.'],
      ['fast', 'The recorder shall have a fast start.'],
      ['portable', 'The recorder shall be portable.'],
      ['light-weight', 'The recorder shall be light-weight.'],
      ['small', 'The recorder shall have a small footprint.'],
      ['large', 'The lid shall have a large handle.'],
      ['maximize', 'The recorder shall maximize range.'],
      ['minimize', 'The recorder shall minimize noise.'],
      ['robust', 'The lid shall be robust.'],
      ['quickly', 'The recorder shall start quickly.'],
      ['easily', 'The lid shall open easily.'],
      ['clearly', 'The console shall show errors clearly.'],
    ],
  },
  {
    source: 'NASA/SP-2016-6105 Rev 2, appendix C, from memory',
    says: 'what is not settled',
    rows: [
      // TBD itself is an open point of its own (tests/spec/open-points.md).
      ['and/or', 'The log shall hold errors and/or hints.'],
      ['etc', 'The log shall hold errors, hints, etc.'],
      ['be capable of', 'The recorder shall be capable of recording.'],
    ],
  },
];

/** What the same guides allow, or ask for. */
export const QUIET: readonly WordingGroup[] = [
  {
    source: 'NASA/SP-2016-6105 Rev 2, appendix C.3',
    says: '“shall not exceed” states a numeric limit',
    rows: [['shall not', 'The unit shall not exceed 60 W (`draw`).']],
  },
];
