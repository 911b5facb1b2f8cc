/** Conditions: their figures are no limits, and they change no limit of the main clause. */
import type { CaseGroup } from './case';

const draw = { draw: 'W' };

export const CONDITIONS: readonly CaseGroup[] = [
  {
    source: 'EARS patterns (Mavin et al., RE 2009, from memory): when, while, if, where; own words',
    cases: [
      ['When the input exceeds 57 V, the unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['When the load exceeds 70 W, the unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['While the ambient is above 40 °C, the unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      [
        'If the link fails for more than 10 s, the unit shall restart within 5 s (`boot`).',
        { boot: 's' },
        ['boot <= 5 s'],
      ],
      ['Where the lid is heated, the unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      [
        'Where `lid.heated`, the unit shall draw no more than 60 W (`draw`).',
        { ...draw, 'lid.heated': 'boolean' },
        ['draw <= 60 W'],
      ],
      [
        'While `standby`, the unit shall draw no more than 6 W (`draw`).',
        { ...draw, standby: 'mode' },
        ['draw <= 6 W'],
      ],
      [
        'When `load` exceeds 70 W, the unit shall draw no more than 60 W (`draw`).',
        { ...draw, load: 'W' },
        ['draw <= 60 W'],
      ],
      [
        'If `lid.open`, the unit shall draw no more than 60 W (`draw`).',
        { ...draw, 'lid.open': 'boolean' },
        ['draw <= 60 W'],
      ],
      [
        'When the input exceeds 57 V and the load is above 70 W, the unit shall draw no more than 60 W (`draw`).',
        draw,
        ['draw <= 60 W'],
      ],
      [
        'When the input exceeds 57 V, the load is above 70 W, or the lid is open for over 5 s, the unit shall draw no more than 60 W (`draw`).',
        draw,
        ['draw <= 60 W'],
      ],
      ['When the load exceeds 70 W the unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['After 10 minutes of operation, the case shall be no hotter than 70 °C (`t`).', { t: '°C' }, ['t <= 70 °C']],
      ['In case of a fault above 3 A, the unit shall draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
      ['The unit shall, when idle for more than 5 min, draw no more than 60 W (`draw`).', draw, ['draw <= 60 W']],
    ],
  },
  {
    source:
      'Trailing conditions: 47 CFR 15 and 87 (when operating in that mode, unless …), NASA/SP-2016-6105; own words',
    cases: [
      ['The unit shall draw no more than 60 W (`draw`) when the ambient is below 40 °C.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) while the load is under 70 W.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) if the input is at least 36 V.', draw, ['draw <= 60 W']],
      [
        'The unit shall draw no more than 60 W (`draw`) unless the heater takes more than 20 W.',
        draw,
        ['draw <= 60 W'],
      ],
      ['The unit shall draw no more than 60 W (`draw`) until the store is at least 90 % full.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) once the store is at least 90 % full.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) after it has run for more than 5 min.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) before it has run for 5 min.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) as long as the input is above 36 V.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) provided that the input is above 36 V.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) provided the input is above 36 V.', draw, ['draw <= 60 W']],
      ['The unit shall draw no more than 60 W (`draw`) in case the input is above 36 V.', draw, ['draw <= 60 W']],
      [
        'The unit shall draw no more than 60 W (`draw`), except when it starts at more than 80 W.',
        draw,
        ['draw <= 60 W'],
      ],
      [
        'The unit shall draw no more than 60 W (`draw`) when the input is above 36 V and below 57 V.',
        draw,
        ['draw <= 60 W'],
      ],
      [
        'The unit shall draw no more than 60 W (`draw`) when the lid is open and the load is above 70 W.',
        draw,
        ['draw <= 60 W'],
      ],
      [
        'The unit shall draw no more than 60 W (`draw`) while `standby`.',
        { ...draw, standby: 'mode' },
        ['draw <= 60 W'],
      ],
      [
        'The unit shall draw no more than 60 W (`draw`) while `load` exceeds 70 W.',
        { ...draw, load: 'W' },
        ['draw <= 60 W'],
      ],
      ['The unit shall answer no later than 2 s (`wait`) after a request.', { wait: 's' }, ['wait <= 2 s']],
      [
        'The unit shall draw at most 6 W (`idle`) when idle and at most 60 W (`run`) when recording.',
        { idle: 'W', run: 'W' },
        ['idle <= 6 W', 'run <= 60 W'],
      ],
    ],
  },
  {
    source: 'Conditions that leave something to ask: own words',
    cases: [
      ['If the draw (`draw`) exceeds 60 W, the unit shall give an alarm.', draw, []],
      ['If the draw exceeds 60 W, the unit shall give an alarm (`draw`).', draw, ['which-limit']],
      ['When in standby no more than 5 W (`draw`) shall be drawn.', draw, []],
      [
        'In `standby`, the unit shall draw no more than 6 W (`draw`).',
        { ...draw, standby: 'mode' },
        ['draw <= 6 W', 'which-limit'],
      ],
      [
        'When `standby`, the unit shall draw no more than 6 W (`draw`).',
        { ...draw, standby: 'mode' },
        ['draw <= 6 W', 'which-limit'],
      ],
      [
        'The unit shall draw at most 6 W (`draw`) when idle and at most 60 W when recording.',
        draw,
        ['draw <= 6 W', 'unchecked'],
      ],
      ['The unit shall be provided with six ports (`ports`).', { ports: 'count' }, ['which-limit']],
    ],
  },
];
