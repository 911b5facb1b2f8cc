/** Published values of units, prefixes, conversions and tolerances. "From memory" where the source was not at hand. */

/** One of the first equals so many of the second, exactly. [from, number, to] */
export interface ConversionGroup {
  readonly source: string;
  readonly rows: readonly (readonly [from: string, number: string, to: string])[];
}

export const CONVERSIONS: readonly ConversionGroup[] = [
  {
    source:
      'NIST SP 811 (2008 ed.), appendix B.8; the exact factors behind its rounded print, computed from its definitions',
    rows: [
      ['lbf', '4.4482216152605', 'N'],
      ['lbf/ft2', '8896443230521/185806080000', 'Pa'],
      ['Torr', '20265/152', 'Pa'],
      ['inHg', '3386.388640341', 'Pa'],
      ['inH2O', '249.08891', 'Pa'],
      ['Btu_IT', '1055.05585262', 'J'],
      ['Btu_th', '23722880951/22500000', 'J'],
      ['cal_th', '4.184', 'J'],
      ['ft lbf', '1.3558179483314004', 'J'],
      ['in lbf', '0.1129848290276167', 'N m'],
      ['kgf/cm2', '98066.5', 'Pa'],
    ],
  },
  {
    source: 'NIST SP 811 (2008 ed.), appendix B.8, from memory',
    rows: [
      ['ft', '0.3048', 'm'],
      ['yd', '0.9144', 'm'],
      ['mi', '1609.344', 'm'],
      ['mil', '0.0000254', 'm'],
      ['oz', '0.028349523125', 'kg'],
      ['mmHg', '133.322387415', 'Pa'],
      ['hp_550', '745.69987158227022', 'W'],
      ['mi/h', '0.44704', 'm/s'],
      // SP 811 prints the acre of the survey foot, 4 046.873 m²; this one is of the international foot.
      ['acre', '4046.8564224', 'm2'],
      ['Gs', '0.0001', 'T'],
      ['A h', '3600', 'C'],
      ['Ah', '3600', 'C'],
      ['kWh', '3600000', 'J'],
      ['psi', '44482216152605/6451600000', 'Pa'],
      ['gn', '9.80665', 'm/s^2'],
    ],
  },
  {
    source: 'IEC 80000-13:2008, items 13-9.b, 13-9.c and clause 4',
    rows: [
      ['byte', '8', 'bit'],
      ['KiB', '1024', 'B'],
      ['MiB', '1048576', 'B'],
      ['TiB', '1099511627776', 'B'],
      ['GB', '0.931322574615478515625', 'GiB'],
      ['TB', '931.322574615478515625', 'GiB'],
    ],
  },
  {
    source: 'SI Brochure, 9th ed., tables 4 and 8, from memory',
    rows: [
      ['W s', '1', 'J'],
      ['N·m', '1', 'J'],
      ['V/A', '1', 'Ω'],
      ['C/V', '1', 'F'],
      ['V·s', '1', 'Wb'],
      ['min', '60', 's'],
      ['h', '3600', 's'],
      ['day', '86400', 's'],
      ['L', '0.001', 'm3'],
      ['tonne', '1000', 'kg'],
      ['arcmin', '1/60', '°'],
    ],
  },
  {
    source: 'Arithmetic of the trade’s rates; MT/s and baud as JEDEC and TIA-232 use them, from memory',
    rows: [
      ['Gbps', '1000', 'Mbit/s'],
      ['MB/s', '8', 'Mb/s'],
      ['MBd', '1000000', 'symbols/s'],
      ['GT/s', '1000', 'MT/s'],
      ['rpm', '1/60', 'turns/s'],
    ],
  },
];

/** [from, to]: a temperature and the same in °C; NIST SP 811 (2008 ed.), B.8: t/°C = (t/°F − 32)/1.8. */
export const TEMPERATURES: readonly (readonly [from: string, celsius: string])[] = [
  ['212 °F', '100'],
  ['-40 °F', '-40'],
  ['0 °F', '-160/9'],
  ['185 °F', '85'],
  ['-67 °F', '-55'],
  ['257 °F', '125'],
  ['300 K', '26.85'],
];

/** [text, low, high, unit, source] */
export const TOLERANCES: readonly (readonly [text: string, low: string, high: string, unit: string, source: string])[] =
  [
    ['5 V +0.1 V / -0.05 V', '4.95', '5.1', 'V', 'ISO 129-1 and ISO 14405-1 style of deviations, from memory'],
    ['25 +0.021/-0 mm', '25', '25.021', 'mm', 'ISO 286-2:2010, 25 H7, from memory'],
    ['25 °C ± 2 °C', '23', '27', '°C', 'SI Brochure, 9th ed., 2.3.1: a difference of 1 °C is 1 K'],
    ['25 MHz ± 50 ppm', '24998750', '25001250', 'Hz', 'IEEE 802.3 style of clock tolerance; arithmetic'],
    ['1 Gbit/s ± 100 ppm', '999900000', '1000100000', 'bit/s', 'RFC 5180, appendix A, note'],
  ];

/** Exact numerical values of constants; SI Brochure, 9th ed. (2019), 2.2, table 1. */
export const CONSTANTS: readonly string[] = ['299792458 m/s', '1.380649e-23 J/K', '6.02214076e23 mol^-1', '683 lm/W'];

/** Quantities that must not be added or compared; SI Brochure, 9th ed., 5.4, and ISO 80000-1:2009, clause 5, from memory. */
export const INCOMPARABLE: readonly (readonly [string, string])[] = [
  ['3 m', '2 s'],
  ['60 W', '5 A'],
  ['5 EUR', '5 USD'],
  ['5 frames', '5 packets'],
  ['5 B', '5 Hz'],
];

/** Equal quantities in two spellings. [a, b, source] */
export const EQUAL: readonly (readonly [string, string, string])[] = [
  ['8 bit', '1 B', 'IEC 80000-13:2008, item 13-9.c'],
  ['10 kΩ', '10 k\u2126', 'Unicode canonical decomposition of U+2126'],
  ['85 ℃', '85 °C', 'Unicode compatibility decomposition of U+2103'],
  ['1 MW', '1000000000 mW', 'SI Brochure, 9th ed., section 3'],
  ['1.44 MB', '1440000 B', 'IEC 80000-13: the megabyte is decimal'],
  ['50.8 m', '2000 in', 'CubeSat Design Specification, Rev. 14.1 (2022), a printed pair'],
  ['0.1 in', '2.54 mm', 'CubeSat Design Specification, Rev. 14.1 (2022), 2.2.14.1, prints 2.5 mm'],
  ['10 ppm', '0.864 s/day', 'arithmetic: a clock that is 10 ppm fast'],
];
