/** Requirement sentences from public-domain documents and in own words, with a name for each limit that a reader finds. */
import type { TypeWord } from '../support/statement';

export interface PublishedSentence {
  readonly id: string;
  /** Where the sentence, or the pattern that it follows in own words, was found. */
  readonly source: string;
  /** The sentence; the names in code spans were added. */
  readonly text: string;
  readonly types: Readonly<Record<string, TypeWord>>;
  /** What is read: limits, then the codes of what is asked. Figures that say when a limit holds are in neither. */
  readonly expected: readonly string[];
}

export const PUBLISHED_SENTENCES: readonly PublishedSentence[] = [
  {
    id: 'LS-001',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'Rails shall have a minimum width of 8.5mm (`width`) measured from the edge of the rail to the first protrusion on each face.',
    types: { width: 'mm' },
    expected: ['width >= 8.5 mm'],
  },
  {
    id: 'LS-002',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'Rails should have a surface roughness less than 1.6 µm (`roughness`).',
    types: { roughness: 'mm' },
    expected: ['roughness < 1.6 µm'],
  },
  {
    id: 'LS-004',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'No components on the yellow shaded sides shall protrude farther than 6.5 mm (`protrusion`) normal to the surface from the plane of the rail.',
    types: { protrusion: 'mm' },
    expected: ['protrusion <= 6.5 mm'],
  },
  {
    id: 'LS-006',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'At least 75% of the rail should be in contact with the dispenser rails (`contact`).',
    types: { contact: 'ratio' },
    expected: ['contact >= 75 %'],
  },
  {
    id: 'LS-007',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: '25% of the rails may be recessed (`recessed`).',
    types: { recessed: 'ratio' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-009',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'RTC circuits shall be current limited to less than 10 mA (`current`).',
    types: { current: 'A' },
    expected: ['current < 10 mA'],
  },
  {
    id: 'LS-011',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'The CubeSat shall have, at a minimum, one deployment switch (`switches`), which is actuated while integrated in the dispenser.',
    types: { switches: 'count' },
    expected: ['switches >= 1'],
  },
  {
    id: 'LS-012',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'The CubeSat shall have at least three independent RF inhibits (`inhibits`) to prohibit inadvertent RF transmission.',
    types: { inhibits: 'count' },
    expected: ['inhibits >= 3'],
  },
  {
    id: 'LS-013',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'Any CubeSat component shall re-enter with energy less than 15 Joules (`energy`).',
    types: { energy: 'J' },
    expected: ['energy < 15 joules'],
  },
  {
    id: 'LS-016',
    source: 'CubeSat Design Specification Rev. 14.1, Cal Poly (2022), document classification ’Public Domain’',
    text: 'The general guideline is to select a separation spring with a max force less than 6.7 N (1.5 lbf) (`force`) but with a stroke length greater than 2.5 mm (0.1 inches) (`stroke`)',
    types: { force: 'N', stroke: 'mm' },
    expected: ['force < 6.7 N', 'stroke > 2.5 mm'],
  },
  {
    id: 'LS-022',
    source: 'NASA/SP-2016-6105 Rev 2, section 4.2 (thrust vector controller example)',
    text: 'The TVC shall have a frequency response of 20 Hz, ± 0.1 Hz (`response`).',
    types: { response: 'Hz' },
    expected: ['response within 19.9 Hz .. 20.1 Hz'],
  },
  {
    id: 'LS-023',
    source: 'NASA SE course notes quoting the handbook example',
    text: 'The TVC shall weigh less than 120 lbs (`mass`)',
    types: { mass: 'kg' },
    expected: ['mass < 120 lbs'],
  },
  {
    id: 'LS-024',
    source: 'NPOESS OMPS / CrIS Sensor Requirements Document, Integrated Program Office, 17 March 1997 (fas.org copy)',
    text: 'The mass of the sensor shall be measured to +/- 0.1 kg (`accuracy`).',
    types: { accuracy: 'kg' },
    expected: ['accuracy within -0.1 kg .. 0.1 kg'],
  },
  {
    id: 'LS-027',
    source: '47 CFR 15.229 (2024)',
    text: 'The field strength of any emissions within this band shall not exceed 1,000 microvolts/meter (`field`) at 3 meters.',
    types: { field: 'V/m' },
    expected: ['field <= 1000 microvolts/meter'],
  },
  {
    id: 'LS-029',
    source: '47 CFR 5.101',
    text: 'Equipment is presumed to operate over the temperature range −20 to + 50 degrees Celsius (`temperature`) with an input voltage variation of 85% to 115% of rated input voltage (`input`), unless justification is presented to demonstrate otherwise.',
    types: { temperature: 'range °C', input: 'range ratio' },
    expected: ['temperature spans -20 degrees Celsius .. 50 degrees Celsius', 'input spans 85 % .. 115 %'],
  },
  {
    id: 'LS-031',
    source: '47 CFR 87.133',
    text: 'Any aeronautical enroute service transmitter operating in U.S. controlled airspace with 8.33 kHz channel spacing must achieve 0.0005% frequency stability (`stability`) when operating in that mode.',
    types: { stability: 'ratio' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-033',
    source:
      'own words after the phrase pattern of PROMISE NFR project 1 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The console shall refresh the status page every 60 seconds (`period`).',
    types: { period: 's' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-034',
    source:
      'own words after the phrase pattern of PROMISE NFR project 2 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The log report shall be returned no later than 60 seconds (`response`) after the operator has entered the search terms.',
    types: { response: 's' },
    expected: ['response <= 60 seconds'],
  },
  {
    id: 'LS-036',
    source:
      'own words after the phrase pattern of PROMISE NFR project 2 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The unit shall be available for use 24 hours per day (`day`) 365 days per year (`year`).',
    types: { day: 'ratio', year: 'ratio' },
    expected: ['which-limit', 'which-limit'],
  },
  {
    id: 'LS-039',
    source:
      'own words after the phrase pattern of PROMISE NFR project 3 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The gateway shall achieve 95% up time (`availability`).',
    types: { availability: 'ratio' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-043',
    source:
      'own words after the phrase pattern of PROMISE NFR project 4 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The maximum wait time between two screens shall be no more than 5 seconds (`wait`).',
    types: { wait: 's' },
    expected: ['wait <= 5 seconds'],
  },
  {
    id: 'LS-044',
    source:
      'own words after the phrase pattern of PROMISE NFR project 5 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The search radius (`radius`) shall be between 1 and 30 miles',
    types: { radius: 'm' },
    expected: ['radius within 1 miles .. 30 miles'],
  },
  {
    id: 'LS-045',
    source:
      'own words after the phrase pattern of PROMISE NFR project 5 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The save shall occur within 5 seconds (`save`).',
    types: { save: 's' },
    expected: ['save <= 5 seconds'],
  },
  {
    id: 'LS-047',
    source:
      'own words after the phrase pattern of PROMISE NFR project 5 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The unit shall not fail more than 2% of the available online time (`failed`).',
    types: { failed: 'ratio' },
    expected: ['failed <= 2 %'],
  },
  {
    id: 'LS-048',
    source:
      'own words after the phrase pattern of PROMISE NFR project 5 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The bridge shall be able to handle 10 000 concurrent sessions (`sessions`) within 2 years of the initial launch.',
    types: { sessions: 'count' },
    expected: ['which-limit', 'unchecked'],
  },
  {
    id: 'LS-049',
    source:
      'own words after the phrase pattern of PROMISE NFR project 6 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: '90% of the commands shall complete within 5 seconds (`most`) and 98% within 8 seconds (`nearly`).',
    types: { most: 's', nearly: 's' },
    expected: ['most <= 5 seconds', 'nearly <= 8 seconds', 'which-limit', 'unchecked'],
  },
  {
    id: 'LS-050',
    source:
      'own words after the phrase pattern of PROMISE NFR project 6 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'Aside from loss of mains, the recorder shall achieve 99.99% up time (`availability`).',
    types: { availability: 'ratio' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-051',
    source:
      'own words after the phrase pattern of PROMISE NFR project 6 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The recorder shall be expected to operate for at least 5 years (`life`) at each site.',
    types: { life: 's' },
    expected: ['life >= 5 years'],
  },
  {
    id: 'LS-052',
    source:
      'own words after the phrase pattern of PROMISE NFR project 6 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'The node shall process 10 000 messages per hour (`throughput`).',
    types: { throughput: '1/h' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-057',
    source:
      'own words after the phrase pattern of PROMISE NFR project 9 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'No evaluation shall complete in a time period longer than 25 seconds (`time`) for 97% of all inputs.',
    types: { time: 's' },
    expected: ['time <= 25 seconds', 'which-limit'],
  },
  {
    id: 'LS-059',
    source:
      'own words after the phrase pattern of PROMISE NFR project 8 (J. Cleland-Huang 2007, CC BY-SA 3.0; repository carvalhosilva42/Promise-)',
    text: 'Prepaid vouchers of $5, $10 or $20 shall be accepted (`voucher`).',
    types: { voucher: 'USD' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-060',
    source: 'written here for this project; figure from the named public standard',
    text: 'The unit shall draw no more than 60 W (`supply.draw`).',
    types: { 'supply.draw': 'W' },
    expected: ['supply.draw <= 60 W'],
  },
  {
    id: 'LS-064',
    source: 'written here for this project; figure from the named public standard',
    text: 'The input voltage (`input`) shall be 9…36 V DC.',
    types: { input: 'V' },
    expected: ['input within 9 V DC .. 36 V DC'],
  },
  {
    id: 'LS-065',
    source: 'written here for this project; figure from the named public standard',
    text: 'The 5 V rail (`rail`) shall be 5.0 V ± 5 %.',
    types: { rail: 'V' },
    expected: ['rail within 4.75 V .. 5.25 V'],
  },
  {
    id: 'LS-067',
    source: 'written here for this project; figure from the named public standard',
    text: 'The 10 Gbit/s port shall meet a symbol rate of 10.3125 GBd ± 100 ppm (`rate`).',
    types: { rate: 'Bd' },
    expected: ['rate within 10.31146875 GBd .. 10.31353125 GBd'],
  },
  {
    id: 'LS-069',
    source: 'written here for this project; figure from the named public standard',
    text: 'The enclosure shall weigh at most 1.2 kg (`mass`), excluding the bracket.',
    types: { mass: 'kg' },
    expected: ['mass <= 1.2 kg'],
  },
  {
    id: 'LS-070',
    source: 'written here for this project; figure from the named public standard',
    text: 'The hold-up time (`hold-up`) shall be at least 10 ms at 75 % load.',
    types: { 'hold-up': 's' },
    expected: ['hold-up >= 10 ms'],
  },
  {
    id: 'LS-072',
    source: 'written here for this project; figure from the named public standard',
    text: 'Efficiency (`efficiency`) shall exceed 90 % at loads above 20 W.',
    types: { efficiency: 'ratio' },
    expected: ['efficiency > 90 %'],
  },
  {
    id: 'LS-073',
    source: 'written here for this project; figure from the named public standard',
    text: 'Ripple (`ripple`) shall not exceed 50 mVpp (20 MHz bandwidth).',
    types: { ripple: 'V' },
    expected: ['ripple <= 50 mVpp'],
  },
  {
    id: 'LS-075',
    source: 'written here for this project; figure from the named public standard',
    text: 'The controller shall have 4 GiB or more of memory (`memory`) and at least 64 GB of flash (`flash`).',
    types: { memory: 'B', flash: 'B' },
    expected: ['memory >= 4 GiB', 'flash >= 64 GB'],
  },
  {
    id: 'LS-076',
    source: 'written here for this project; figure from the named public standard',
    text: 'The USB Type-C port shall supply 15 W (5 V, 3 A) (`power`).',
    types: { power: 'W' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-077',
    source: 'written here for this project; figure from the named public standard',
    text: 'Each of the two Ethernet ports shall draw up to 25.5 W from PoE (`power`).',
    types: { power: 'W' },
    expected: ['which-limit'],
  },
  {
    id: 'LS-078',
    source: 'written here for this project; figure from the named public standard',
    text: 'Total harmonic distortion (`distortion`) shall be < 0.1 % from 20 Hz to 20 kHz.',
    types: { distortion: 'ratio' },
    expected: ['distortion < 0.1 %'],
  },
  {
    id: 'LS-080',
    source: 'written here for this project; figure from the named public standard',
    text: 'The bill of materials shall cost less than EUR 25 (`cost`) at 1 000 units.',
    types: { cost: 'EUR' },
    expected: ['cost < 25 EUR'],
  },
  {
    id: 'LS-087',
    source: 'written here for this project; figure from the named public standard',
    text: 'The fan shall run at 60 W max. (`power`)',
    types: { power: 'W' },
    expected: ['power <= 60 W'],
  },
  {
    id: 'LS-089',
    source: 'written here for this project; figure from the named public standard',
    text: 'Neither port shall source more than 0.5 A (`current`).',
    types: { current: 'A' },
    expected: ['current <= 0.5 A'],
  },
];
