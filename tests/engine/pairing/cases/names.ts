/** Several names and several phrases in one sentence, relative limits, brackets, each and both, conditions in code. */

import { DIMENSIONLESS } from '../../../../server/quantity/dimension';
import { comparisonOf } from '../../../support/statement';
import type { CaseGroup } from './case';

const two = { a: 'W', b: 'W' };
const quantityWith = (...comparisons: readonly string[]) =>
  ({
    type: 'quantity',
    dimension: DIMENSIONLESS,
    point: null,
    isRange: false,
    comparisons: comparisons.map(comparisonOf),
  }) as const;
const conditionOf = (...comparisons: readonly string[]) =>
  ({ type: 'condition', comparisons: comparisons.map(comparisonOf) }) as const;

export const NAMES: readonly CaseGroup[] = [
  {
    source: 'Two names in one sentence: CubeSat Design Specification (spring force and stroke); own words',
    cases: [
      [
        'The unit shall draw at most 60 W (`p`) and weigh at most 3 kg (`m`).',
        { p: 'W', m: 'kg' },
        ['p <= 60 W', 'm <= 3 kg'],
      ],
      [
        'The unit shall weigh at most 3 kg and draw at most 60 W (`p`, `m`).',
        { p: 'W', m: 'kg' },
        ['m <= 3 kg', 'p <= 60 W'],
      ],
      ['The lamp shall draw at most 60 W (`a`) and the fan at most 5 W (`b`).', two, ['a <= 60 W', 'b <= 5 W']],
      ['`a` shall be at most 60 W and `b` at most 5 W.', two, ['a <= 60 W', 'b <= 5 W']],
      ['`a` shall be at most 60 W, `b` at most 5 W.', two, ['a <= 60 W', 'b <= 5 W']],
      ['The lamp shall draw at most 60 W (`a`), the fan at most 5 W (`b`).', two, ['a <= 60 W', 'b <= 5 W']],
      ['The unit shall draw at most 60 W and at least 5 W (`a`, `b`).', two, ['a <= 60 W', 'b >= 5 W']],
      [
        'The memory shall hold 4 GiB or more (`mem`) and the flash at least 64 GB (`flash`).',
        { mem: 'B', flash: 'B' },
        ['mem >= 4 GiB', 'flash >= 64 GB'],
      ],
      ['The unit, with all cameras on, shall draw at most 60 W (`p`).', { p: 'W' }, ['p <= 60 W']],
      ['The draw (`p`), measured at the input, shall be at most 60 W.', { p: 'W' }, ['p <= 60 W']],
      ['The unit shall draw at most 60 W, measured at the input (`p`).', { p: 'W' }, ['p <= 60 W']],
      ['The draw (`p`) at a load of 75 % shall be at most 60 W.', { p: 'W' }, ['p <= 60 W']],
      ['The unit shall hold at least 7 days of footage from six cameras (`t`).', { t: 'd' }, ['t >= 7 days']],
    ],
  },
  {
    source: 'Each, both, all, every: 47 CFR (each … shall); own words',
    cases: [
      ['`a` and `b` shall each be at most 5 W.', two, ['a <= 5 W', 'b <= 5 W']],
      ['Both the lamp (`a`) and the fan (`b`) shall draw at most 5 W.', two, ['a <= 5 W', 'b <= 5 W']],
      ['All rails (`a`, `b`) shall be at most 5 W.', two, ['a <= 5 W', 'b <= 5 W']],
      ['Every rail shall be at most 5 W (`a`, `b`).', two, ['a <= 5 W', 'b <= 5 W']],
      ['Each port shall draw at most 5 W (`a`).', two, ['a <= 5 W']],
      ['`a` and `b` shall be at most 5 W.', two, ['b <= 5 W', 'which-limit']],
      ['All units shall draw at most 60 W (`a`) with the heater (`b`) on.', two, ['a <= 60 W', 'which-limit']],
    ],
  },
  {
    source: 'Relative limits: derating rules of the trade, common practice, no source',
    cases: [
      ['The load (`a`) shall be at most 80 % of `b`.', two, ['a <= 0.8 × b']],
      ['The load (`a`) shall be at most 80 % of the `b`.', two, ['a <= 0.8 × b']],
      ['The load (`a`) shall be at least twice `b`.', two, ['a >= 2 × b']],
      ['The load (`a`) shall be at least 3 times `b`.', two, ['a >= 3 × b']],
      ['The load (`a`) shall be no more than half `b`.', two, ['a <= 0.5 × b']],
      ['The load (`a`) shall be no more than half of `b`.', two, ['a <= 0.5 × b']],
      ['The load (`a`) shall be at least 20 % below `b`.', two, ['a >= 0.8 × b']],
      ['The load (`a`) shall be at most 20 % above `b`.', two, ['a <= 1.2 × b']],
      ['The load (`a`) shall be within 10 % of `b`.', two, ['which-limit']],
      ['The load (`a`) shall be less than `b`.', two, ['which-limit', 'which-limit']],
    ],
  },
  {
    source: 'Comparisons inside code spans (2 · rules 2 to 4): own words',
    cases: [
      ['There shall be at least 2 ports of at least 10 Gbit/s (`n`).', { n: quantityWith('>= 10 Gbit/s') }, ['n >= 2']],
      ['There shall be at least 2 ports of 10 Gbit/s (`n`).', { n: quantityWith('>= 10 Gbit/s') }, ['n >= 2']],
      [
        'There shall be at least 2 ports of at most 10 Gbit/s (`n`).',
        { n: quantityWith('>= 10 Gbit/s') },
        ['n >= 2', 'words-disagree'],
      ],
      ['There shall be at least 2 ports with at least 2 lanes (`n`).', { n: quantityWith('>= 2') }, ['n >= 2']],
      ['The draw shall be at most 60 W (`c`).', { c: conditionOf('<= 60 W') }, []],
      ['The draw shall be less than 60 W (`c`).', { c: conditionOf('<= 60 W') }, ['words-disagree']],
      ['The draw shall be at most 50 W (`c`).', { c: conditionOf('<= 60 W') }, ['words-disagree']],
      ['The draw shall be 60 W (`c`).', { c: conditionOf('<= 60 W') }, []],
      ['The draw shall be up to 60 W (`c`).', { c: conditionOf('<= 60 W') }, []],
      ['The rail shall be between 36 V and 57 V (`c`).', { c: conditionOf('>= 36 V', '<= 57 V') }, []],
      ['The efficiency shall be at least 80 % (`c`).', { c: conditionOf('>= 0.8') }, []],
    ],
  },
];
