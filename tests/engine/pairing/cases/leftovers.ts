/** What no name takes: promises that nothing checks, circumstances, shares, mismatches, yes/no names. */
import type { CaseGroup } from './case';

const draw = { draw: 'W' };

export const LEFTOVERS: readonly CaseGroup[] = [
  {
    source: 'Unchecked promises (2 · rule 9): own words',
    cases: [
      ['The unit shall draw at most 60 W.', {}, ['unchecked']],
      ['The unit shall draw at most 60 W (`draw`) and weigh at most 3 kg.', draw, ['draw <= 60 W', 'unchecked']],
      ['The unit shall have six ports and draw at most 60 W (`draw`).', draw, ['draw <= 60 W', 'unchecked']],
      ['The unit shall have a red lid.', {}, []],
      ['The unit shall draw at most 60 W (`draw`) for more than 10 s.', draw, ['draw <= 60 W', 'unchecked']],
      ['The unit shall draw at most 60 W (at least 5 W) (`draw`).', draw, ['which-limit']],
      ['The unit shall operate from 9 V to 36 V at less than 60 W.', {}, ['unchecked', 'unchecked']],
      ['The draw shall be at most 60 W (`draw`). Six ports are there.', draw, ['draw <= 60 W', 'unchecked']],
      ['The unit shall be mounted within 2 years.', {}, ['unchecked']],
    ],
  },
  {
    source: 'Circumstances: data sheet wording (at 75 % load, at loads above 20 W, from 20 Hz to 20 kHz); own words',
    cases: [
      ['The hold-up (`h`) shall be at least 10 ms at 75 % load.', { h: 's' }, ['h >= 10 ms']],
      ['The efficiency (`e`) shall be at least 90 % at loads above 20 W.', { e: 'ratio' }, ['e >= 90 %']],
      ['The draw (`draw`) shall be at most 60 W at loads above 20 W.', draw, ['draw <= 60 W']],
      ['The draw (`draw`) shall be at most 60 W at under 40 °C.', draw, ['draw <= 60 W']],
      ['The distortion (`d`) shall be below 0.1 % from 20 Hz to 20 kHz.', { d: 'ratio' }, ['d < 0.1 %']],
      ['The unit shall draw at most 60 W (`draw`) with a 48 V supply.', draw, ['draw <= 60 W']],
      ['The unit shall draw at most 60 W (`draw`) at an input of 48 V.', draw, ['draw <= 60 W']],
      ['The unit shall draw at most 60 W (`draw`) every 5 s.', draw, ['draw <= 60 W']],
      ['The unit shall draw at most 60 W (`draw`) over 5 h.', draw, ['draw <= 60 W']],
      ['The ripple (`r`) shall not exceed 50 mVpp (20 MHz bandwidth).', { r: 'V' }, ['r <= 50 mVpp']],
      [
        'The ripple (`r`) shall stay above 20 mV and the draw (`draw`) at most 60 W.',
        { ...draw, r: 'V' },
        ['r > 20 mV', 'draw <= 60 W'],
      ],
      [
        'The draw (`draw`) shall stay at most 60 W and the load shall be above 20 W.',
        draw,
        ['draw <= 60 W', 'several-obligations', 'unchecked'],
      ],
    ],
  },
  {
    source: 'Shares of items: response time patterns of PROMISE NFR (J. Cleland-Huang 2007, CC BY-SA 3.0), own words',
    cases: [
      ['At least 75 % of the commands shall finish within 5 s (`t`).', { t: 's' }, ['t <= 5 s', 'which-limit']],
      ['The commands shall finish within 5 s (`t`) for 97 % of all users.', { t: 's' }, ['t <= 5 s', 'which-limit']],
      ['At least 75 % of the rail shall be covered (`c`).', { c: 'ratio' }, ['c >= 75 %']],
      ['At least 75 % of the ports shall be covered (`n`).', { n: 'count' }, ['unit-mismatch']],
    ],
  },
  {
    source: 'Units that do not fit: own words',
    cases: [
      ['The draw (`draw`) shall be at most 5 A.', draw, ['unit-mismatch']],
      ['The rise (`r`) shall be at most 40 °C.', { r: 'K' }, ['unit-mismatch']],
      ['The case (`t`) shall be at most 300 K.', { t: '°C' }, ['unit-mismatch']],
      ['The rail (`v`) shall be at most 12 VDC.', { v: 'VAC' }, ['unit-mismatch']],
      ['The board shall have at most 6 frames (`n`).', { n: 'lane' }, ['unit-mismatch']],
    ],
  },
  {
    source: 'Questions (2 · Limit phrases, the rows that ask): own words',
    cases: [
      ['The unit shall draw up to 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw about 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw approx. 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw ~60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw as little as 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw 60 W or better (`draw`).', draw, ['which-limit']],
      ['The unit shall draw 60 W or worse (`draw`).', draw, ['which-limit']],
      ['The unit shall draw better than 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw slightly less than 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw exactly 60 W max. (`draw`).', draw, ['which-limit']],
      ['The maximum draw shall be at least 60 W (`draw`).', draw, ['which-limit']],
      ['The unit shall support a maximum of 8 hosts (`n`).', { n: 'count' }, ['which-limit']],
      ['The unit shall provide a maximum of 5 A (`i`).', { i: 'A' }, ['which-limit']],
      ['The unit shall operate in winds below 25 m/s (`w`).', { w: 'm/s' }, ['which-limit']],
      ['The unit shall withstand at most 25 m/s (`w`).', { w: 'm/s' }, ['which-limit']],
      ['The unit shall have a minimum detectable signal of 3 µV (`s`).', { s: 'V' }, ['which-limit']],
      ['The unit shall report once every 60 s (`t`).', { t: 's' }, ['which-limit']],
      ['The unit shall report every 60 s (`t`).', { t: 's' }, ['which-limit']],
      ['The unit shall run over 5 h (`t`).', { t: 's' }, ['which-limit']],
      ['The unit shall have over 20 ports (`n`).', { n: 'count' }, ['which-limit']],
      ['The unit shall be able to handle up to 8 hosts (`n`).', { n: 'count' }, ['which-limit']],
      ['The unit shall draw at most 60 W running and 5 W in standby (`draw`).', draw, ['draw <= 60 W', 'which-limit']],
      ['The unit shall draw at most 60 W at most 50 W (`draw`).', draw, ['which-limit']],
      ['The unit shall draw faster than 60 W (`draw`).', draw, ['which-limit']],
      ['The draw shall exceed 60 W by 5 % (`draw`).', draw, ['which-limit', 'unchecked']],
    ],
  },
  {
    source: 'Yes/no names, texts, sets, unknown names and ordinary code (2 · rules 8 and 9): own words',
    cases: [
      ['The lid shall be heated (`heater`).', { heater: 'boolean' }, []],
      ['The unit shall have no fan (`fan`).', { fan: 'boolean' }, ['which-limit']],
      ['The fan (`fan`) shall be off.', { fan: 'boolean' }, ['which-limit']],
      ['The fan (`fan`) shall never run.', { fan: 'boolean' }, ['which-limit']],
      [
        'The unit shall draw no more than 60 W (`draw`) with a heated lid (`heater`).',
        { ...draw, heater: 'boolean' },
        ['draw <= 60 W'],
      ],
      ['The case shall be sealed (`rating`).', { rating: 'text' }, ['which-limit']],
      ['The ports shall be fast (`speeds`).', { speeds: 'set' }, ['which-limit']],
      ['The unit shall draw at most 60 W (`drow`).', { drow: 'undecided' }, []],
      ['The unit shall run `boot` and draw at most 60 W (`draw`).', { ...draw, boot: 'ordinary' }, ['draw <= 60 W']],
    ],
  },
];
