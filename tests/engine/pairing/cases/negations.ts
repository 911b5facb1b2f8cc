/** Negations that turn a comparison around, and those that leave it open. */
import type { CaseGroup } from './case';

const draw = { draw: 'W' };

export const NEGATIONS: readonly CaseGroup[] = [
  {
    source:
      'Directly before the comparison: 47 CFR 15 and 87 (not more than, no less than), CubeSat Design Specification; own words',
    cases: [
      ['The unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall draw not more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall be never above 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall work without exceeding 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall stay cool without exceeding 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall draw a current not to exceed 5 A (`i`).', { i: 'A' }, ['i <= 5 A']],
      ['The store shall hold no less than 8 TB (`cap`).', { cap: 'B' }, ['cap >= 8 TB']],
      ['The store shall hold not less than 8 TB (`cap`).', { cap: 'B' }, ['cap >= 8 TB']],
      ['The board shall have no fewer than four ports (`ports`).', { ports: 'count' }, ['ports >= 4']],
      ['The gap shall be not smaller than 8 mm (`gap`).', { gap: 'mm' }, ['gap >= 8 mm']],
      ['The unit shall boot no later than 60 s (`boot`).', { boot: 's' }, ['boot <= 60 s']],
      ['No more than 60 W (`draw`) shall be drawn.', draw, ['draw <= 60 W']],
      ['The rail shall never rise above 5.5 V (`v`).', { v: 'V' }, ['v <= 5.5 V']],
      ['The rail shall be nothing less than 5 V (`v`).', { v: 'V' }, ['v >= 5 V']],
    ],
  },
  {
    source: 'With the obligation word: NASA/SP-2016-6105 Rev 2, App. C (shall not exceed); own words',
    cases: [
      ['The unit shall not draw more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall not exceed 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The draw (`draw`) must not exceed 60 W.', draw, ['draw <= 60 W']],
      ['The draw (`draw`) shall never exceed 60 W.', draw, ['draw <= 60 W']],
      ['The draw (`draw`) should not exceed 60 W.', draw, ['draw <= 60 W']],
      ['The draw (`draw`) cannot exceed 60 W.', draw, ['draw <= 60 W']],
      ['The unit SHALL NOT fall below 36 V (`bus`).', { bus: 'V' }, ['bus >= 36 V']],
      ['The unit shall not weigh more than a maximum of 3 kg (`mass`).', { mass: 'kg' }, ['mass <= 3 kg']],
      ['The unit shall not at any time draw more than 60 W (`draw`).', draw, ['draw <= 60 W']],
    ],
  },
  {
    source: 'Negated subjects: CubeSat Design Specification Rev. 14.1 (No components … shall), 47 CFR; own words',
    cases: [
      ['No port shall source more than 0.5 A (`i`).', { i: 'A' }, ['i <= 0.5 A']],
      ['None of the ports shall source more than 0.5 A (`i`).', { i: 'A' }, ['i <= 0.5 A']],
      ['Nothing on the board shall be hotter than 70 °C (`t`).', { t: '°C' }, ['t <= 70 °C']],
      ['Neither the fan nor the pump shall draw more than 5 W (`p`).', { p: 'W' }, ['p <= 5 W']],
      ['At no time shall the draw exceed 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['Under no circumstances shall the draw exceed 60 W (`draw`).', draw, ['draw <= 60 W']],
    ],
  },
  {
    source: 'Prevention: IEC 60204-1 style wording, from memory; own words',
    cases: [
      ['The clamp shall prevent the rail from exceeding 15 V (`v`).', { v: 'V' }, ['v <= 15 V']],
      ['The clamp shall keep the rail from falling below 5 V (`v`).', { v: 'V' }, ['v >= 5 V']],
      ['The clamp shall protect the load from voltages above 15 V (`v`).', { v: 'V' }, ['v <= 15 V']],
      ['The limiter shall stop the current from exceeding 2 A (`i`).', { i: 'A' }, ['i <= 2 A']],
      ['The unit shall avoid exceeding 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall keep the draw below 60 W (`draw`).', draw, ['draw < 60 W']],
    ],
  },
  {
    source: 'Open negations, asked about: own words',
    cases: [
      ['The unit shall, without charging, draw more than 60 W (`draw`).', draw, ['draw > 60 W']],
      ['The unit shall without charging draw more than 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall have no fan and draw less than 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall not draw no more than 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall not draw at least 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall not draw exactly 60 W (`draw`).', draw, ['which-limit']],
      ['The rail (`v`) shall not be between 5 V and 12 V.', { v: 'V' }, ['which-limit']],
      [
        'The unit shall not exceed 60 W (`draw`) and weigh more than 3 kg (`mass`).',
        { draw: 'W', mass: 'kg' },
        ['draw <= 60 W', 'which-limit'],
      ],
      [
        'The unit shall not exceed 60 W (`draw`) or weigh more than 3 kg (`mass`).',
        { draw: 'W', mass: 'kg' },
        ['draw <= 60 W', 'which-limit'],
      ],
      ['The unit shall not, under any load, draw more than 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall not prevent the rail from exceeding 15 V (`v`).', { v: 'V' }, ['which-limit']],
      ['The unit need not exceed 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall not be required to exceed 60 W (`draw`).', draw, ['which-limit']],
      ['The unit may not exceed 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall not only exceed 60 W (`draw`).', draw, ['which-limit']],
      ['Not every unit shall exceed 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall fail to exceed 60 W (`draw`).', draw, ['which-limit']],
      ['No port shall fail to source more than 0.5 A (`i`).', { i: 'A' }, ['which-limit']],
      ['No more than three ports shall draw more than 5 W (`p`).', { p: 'W' }, ['unchecked', 'which-limit']],
      [
        'No port shall draw more than 5 W (`p`) and weigh more than 1 kg (`m`).',
        { p: 'W', m: 'kg' },
        ['p <= 5 W', 'which-limit'],
      ],
      [
        'No port shall draw more than 5 W (`p`) and shall weigh more than 1 kg (`m`).',
        { p: 'W', m: 'kg' },
        ['p <= 5 W', 'several-obligations', 'which-limit'],
      ],
      [
        'The unit shall not exceed 60 W (`draw`), and the case shall weigh more than 1 kg (`m`).',
        { draw: 'W', m: 'kg' },
        ['draw <= 60 W', 'm > 1 kg', 'several-obligations'],
      ],
      ['The unit shall reject voltages above 15 V (`v`).', { v: 'V' }, ['which-limit']],
      ['The unit shall hardly exceed 60 W (`draw`).', draw, ['which-limit']],
    ],
  },
];
