/** The units of the language, as definitions that read like physics; `server/quantity/unit-table.ts` works them out. */

/**
 * Which prefixes a unit's symbols and names take. *si*: all decimal ones. *large*: kilo and above. *binary*: large and
 * the IEC binary ones. *none*: none.
 */
export type PrefixClass = 'none' | 'si' | 'large' | 'binary';

/**
 * [symbols, definition, prefixes, names]. Symbols and names are separated by commas; the first symbol (or, without
 * one, the first name) is what the unit is called in other tables. A definition is an exact number and a product of
 * units defined above it: `0.3048 m`, `1 kg·m/s^2`; `[length]` is a base dimension and `{frame}` a kind.
 */
export type UnitRow = readonly [symbols: string, definition: string, prefixes: PrefixClass, names: string];

export interface UnitGroup {
  readonly source: string;
  readonly units: readonly UnitRow[];
}

export const UNIT_GROUPS: readonly UnitGroup[] = [
  {
    source: 'BIPM SI Brochure, 9th ed., table 2: base units',
    units: [
      ['m', '1 [length]', 'si', 'metre, metres, meter, meters'],
      ['g', '0.001 [mass]', 'si', 'gram, grams'],
      ['s, sec, secs', '1 [time]', 'si', 'second, seconds'],
      ['A', '1 [current]', 'si', 'ampere, amperes, amp, amps'],
      ['K', '1 [temperature]', 'si', 'kelvin, kelvins'],
      ['mol', '1 [amount]', 'si', 'mole, moles'],
      ['cd', '1 [luminous intensity]', 'si', 'candela, candelas'],
    ],
  },
  {
    source: 'IEC 80000-13:2008, items 13-9.b and 13-9.c; b and the spelled symbols: common practice, no source',
    units: [
      ['bit, bits, b', '1 [information]', 'binary', 'bit, bits'],
      ['B, byte, bytes', '8 bit', 'binary', 'byte, bytes'],
      ['', '8 bit', 'large', 'octet, octets'],
      ['bps', '1 bit/s', 'large', ''],
      ['Bps', '1 B/s', 'large', ''],
    ],
  },
  {
    // The degree is the base of angle, so that whole degrees, minutes and turns stay exact. A radian is 180°/π, which is
    // no rational number: 40 significant digits stand for it (computed; π to 45 digits).
    source: 'BIPM SI Brochure, 9th ed., tables 4 and 8: angles',
    units: [
      ['°, deg, º', '1 [angle]', 'none', 'degree, degrees'],
      ['arcmin', '1/60 °', 'none', 'arcminute, arcminutes, arc minute, arc minutes'],
      ['arcsec', '1/3600 °', 'none', 'arcsecond, arcseconds, arc second, arc seconds'],
      ['rad', '57.29577951308232087679815481410517033241 °', 'si', 'radian, radians'],
      ['sr', '1 rad^2', 'si', 'steradian, steradians'],
    ],
  },
  {
    source: 'BIPM SI Brochure, 9th ed., table 4: units with special names',
    units: [
      ['Hz', '1 s^-1', 'si', 'hertz'],
      ['N', '1 kg·m/s^2', 'si', 'newton, newtons'],
      ['Pa', '1 N/m^2', 'si', 'pascal, pascals'],
      ['J', '1 N·m', 'si', 'joule, joules'],
      ['W', '1 J/s', 'si', 'watt, watts'],
      ['C', '1 A·s', 'si', 'coulomb, coulombs'],
      ['V', '1 W/A', 'si', 'volt, volts'],
      ['F', '1 C/V', 'si', 'farad, farads'],
      ['Ω, ohm, Ohm', '1 V/A', 'si', 'ohm, ohms'],
      ['S', '1 A/V', 'si', 'siemens'],
      ['Wb', '1 V·s', 'si', 'weber, webers'],
      ['T', '1 Wb/m^2', 'si', 'tesla, teslas'],
      ['H', '1 Wb/A', 'si', 'henry, henries, henrys'],
      ['lm', '1 cd·sr', 'si', 'lumen, lumens'],
      ['lx', '1 lm/m^2', 'si', 'lux'],
      ['Bq', '1 s^-1', 'si', 'becquerel, becquerels'],
      ['Gy', '1 J/kg', 'si', 'gray, grays'],
      ['Sv', '1 J/kg', 'si', 'sievert, sieverts'],
      ['kat', '1 mol/s', 'si', 'katal, katals'],
      ['°C, ℃, ºC, degC', '1 K', 'none', 'degree Celsius, degrees Celsius, Celsius, deg C, degrees C, ° C'],
    ],
  },
  {
    source:
      'BIPM SI Brochure, 9th ed., table 8: units used with the SI; week, year = 365.25 d: definition of this language',
    units: [
      ['min, mins', '60 s', 'none', 'minute, minutes'],
      ['h, hr, hrs', '3600 s', 'none', 'hour, hours'],
      ['d', '86400 s', 'none', 'day, days'],
      ['wk', '7 d', 'none', 'week, weeks'],
      ['yr, yrs', '365.25 d', 'none', 'year, years'],
      ['L, l', '0.001 m^3', 'si', 'litre, litres, liter, liters'],
      ['t', '1000 kg', 'large', 'tonne, tonnes'],
      ['ha', '10000 m^2', 'none', 'hectare, hectares'],
      ['eV', '1.602176634e-19 J', 'si', 'electronvolt, electronvolts'],
      ['dB', '1 [level]', 'none', 'decibel, decibels'],
    ],
  },
  {
    source: 'The trade of electronics: common practice, no source; var: IEC 80000-6:2022, item 6-60',
    units: [
      ['Ah', '1 A·h', 'si', ''],
      ['Wh', '1 W·h', 'si', ''],
      ['VA', '1 V·A·{apparent power}', 'si', ''],
      ['var', '1 V·A·{reactive power}', 'si', 'var, vars'],
      ['Nm', '1 N·m', 'si', ''],
      ['√Hz, rtHz', '1 s^-0.5', 'none', ''],
      ['nit', '1 cd/m^2', 'none', 'nit, nits'],
      ['FIT', '1e-9 h^-1', 'none', ''],
      ['%', '0.01', 'none', 'percent'],
      ['‰', '0.001', 'none', ''],
      ['ppm', '1e-6', 'none', ''],
      ['ppb', '1e-9', 'none', ''],
      ['%RH', '0.01 {relative humidity}', 'none', ''],
    ],
  },
  {
    // What is counted is a kind: it keeps 10 frames from meeting a limit of 10 packets. Hz counts nothing.
    source: 'Kinds: definitions of this language; Bd = symbol/s: IEC 60050-702:1992, 702-05-23 (from memory)',
    units: [
      ['', '1 {frame}', 'none', 'frame, frames'],
      ['', '1 {packet}', 'none', 'packet, packets'],
      ['', '1 {transfer}', 'large', 'transfer, transfers'],
      ['', '1 {symbol}', 'large', 'symbol, symbols'],
      ['rev', '1 {turn}', 'none', 'turn, turns, revolution, revolutions'],
      ['Sa', '1 {sample}', 'large', 'sample, samples'],
      ['px', '1 {pixel}', 'large', 'pixel, pixels'],
      ['fps', '1 {frame}/s', 'large', ''],
      ['pps', '1 {packet}/s', 'large', ''],
      ['Bd, baud', '1 {symbol}/s', 'large', 'baud, bauds'],
      ['rpm', '1 {turn}/min', 'large', ''],
      ['rps', '1 {turn}/s', 'none', ''],
      ['SPS, sps', '1 {sample}/s', 'large', ''],
      ['IOPS', '1 {input or output}/s', 'large', ''],
      ['OPS', '1 {operation}/s', 'large', ''],
      ['FLOPS', '1 {floating-point operation}/s', 'large', ''],
    ],
  },
  {
    // A mark says how an alternating quantity is stated: conversion ignores it, differing marks do not compare.
    source: 'Marks on volt and ampere: common practice, no source',
    units: [
      ['VDC, Vdc', '1 V·{DC}', 'si', ''],
      ['VAC, Vac', '1 V·{AC}', 'si', ''],
      ['Vpp, Vp-p', '1 V·{peak-to-peak}', 'si', ''],
      ['Vrms, VRMS', '1 V·{RMS}', 'si', ''],
      ['Vpk', '1 V·{peak}', 'si', ''],
      ['Ap-p', '1 A·{peak-to-peak}', 'si', ''],
      ['Arms, ARMS', '1 A·{RMS}', 'si', ''],
      ['Apk', '1 A·{peak}', 'si', ''],
    ],
  },
  {
    // The kind keeps two levels apart whose zeros differ; dB itself has none and goes with each.
    source: 'Levels: dBm and dBW, ITU-R V.574; dBi, dBc, dBA, dBFS, dBV: common practice, no source',
    units: [
      ['dBm', '1 dB·{power level}', 'none', ''],
      ['dBW', '1 dB·{power level}', 'none', ''],
      ['dBA, dB(A)', '1 dB·{A-weighted sound level}', 'none', ''],
      ['dBFS', '1 dB·{level of full scale}', 'none', ''],
      ['dBV', '1 dB·{voltage level}', 'none', ''],
      ['dBi', '1 dB·{over isotropic}', 'none', ''],
      ['dBc', '1 dB·{over carrier}', 'none', ''],
    ],
  },
  {
    source: 'NIST SP 811 (2008), appendix B.8: length, area, volume, speed (international foot, never the survey foot)',
    units: [
      ['in', '0.0254 m', 'none', 'inch, inches'],
      ['mil, mils', '0.001 in', 'none', 'thou'],
      ['ft', '0.3048 m', 'none', 'foot, feet'],
      ['yd', '0.9144 m', 'none', 'yard, yards'],
      ['mi', '1609.344 m', 'none', 'mile, miles'],
      ['nmi', '1852 m', 'none', 'nautical mile, nautical miles'],
      ['Å', '1e-10 m', 'none', 'ångström, ångströms, angstrom, angstroms'],
      ['', '1e-6 m', 'none', 'micron, microns'],
      ['', '4046.8564224 m^2', 'none', 'acre, acres'],
      ['gal_US', '3.785411784 L', 'none', ''],
      ['gal_UK', '4.54609 L', 'none', ''],
      ['mph', '1 mi/h', 'none', ''],
      ['kn', '1 nmi/h', 'none', 'knot, knots'],
      ['cfm, CFM', '1 ft^3/min', 'none', ''],
      ['gn', '9.80665 m/s^2', 'none', ''],
    ],
  },
  {
    source: 'NIST SP 811 (2008), appendix B.8: mass, force, pressure',
    units: [
      ['lb, lbs', '0.45359237 kg', 'none', ''],
      ['oz', '0.028349523125 kg', 'none', 'ounce, ounces'],
      ['ton_US', '2000 lb', 'none', 'short ton, short tons'],
      ['ton_UK', '2240 lb', 'none', 'long ton, long tons'],
      ['lbf', '1 lb·gn', 'none', 'pound-force, pounds-force'],
      ['ozf', '1 oz·gn', 'none', 'ounce-force'],
      ['kgf', '1 kg·gn', 'none', 'kilogram-force'],
      ['psi', '1 lbf/in^2', 'none', ''],
      ['ksi', '1000 psi', 'none', ''],
      ['bar', '100000 Pa', 'si', 'bar, bars'],
      ['atm', '101325 Pa', 'none', 'atmosphere, atmospheres'],
      ['Torr, torr', '1/760 atm', 'si', ''],
      ['mmHg', '133.322387415 Pa', 'none', ''],
      ['inHg', '3386.388640341 Pa', 'none', ''],
      ['inH2O', '249.08891 Pa', 'none', ''],
    ],
  },
  {
    source: 'NIST SP 811 (2008), appendix B.8: energy, power, magnetic field, temperature',
    units: [
      ['cal_th', '4.184 J', 'none', ''],
      ['cal_IT', '4.1868 J', 'none', ''],
      ['kcal_th', '4184 J', 'none', ''],
      ['kcal_IT', '4186.8 J', 'none', ''],
      ['Btu_IT', '1055.05585262 J', 'none', ''],
      ['Btu_th', '23722880951/22500000 J', 'none', ''],
      ['hp_550', '550 ft·lbf/s', 'none', ''],
      ['hp_metric', '75 kgf·m/s', 'none', ''],
      ['hp_electric', '746 W', 'none', ''],
      ['Gs', '0.0001 T', 'none', 'gauss'],
      ['Oe', '79.57747154594766788444188168625718101723 A/m', 'none', 'oersted, oersteds'],
      ['°F, ℉, ºF, degF', '5/9 K', 'none', 'degree Fahrenheit, degrees Fahrenheit, deg F, degrees F, ° F'],
    ],
  },
];

/** Units whose numbers are places on a scale: [symbol, scale, number in base units at the unit's zero]. */
export const POINT_UNITS: readonly (readonly [symbol: string, scale: 'temperature' | 'level', zero: string])[] = [
  ['°C', 'temperature', '273.15'],
  ['°F', 'temperature', '45967/180'],
  ['dBm', 'level', '0'],
  ['dBW', 'level', '30'],
  ['dBA', 'level', '0'],
  ['dBFS', 'level', '0'],
  ['dBV', 'level', '0'],
];

/**
 * Spellings of a rate whose letters alone would say something else: `MT/s` is megatransfers and not megatesla per
 * second, `MS/s` megasamples and not megasiemens (common practice, no source). [prefixes, word, unit before `/s`].
 */
export const RATE_WORDS: readonly (readonly [prefixes: string, word: string, counted: string])[] = [
  ['k, M, G, T', 'T', 'transfer'],
  [', k, M, G, T', 'S', 'sample'],
];

/** Units that are read as a product when only a space or a hyphen stands between them (`kW h`, `ft-lbf`). */
export const SPACED_PAIRS: readonly string[] = [
  'W h, A h, V A, W s, A s, V s, N m, kgf m, ft lbf, in lbf, lbf ft, lbf in, ozf in, in ozf, Pa s, lm s, lx s',
].flatMap((line) => line.split(', '));

/** A separate word after a volt, an ampere or a percentage that marks it: [unit, words, kind]. */
export const MARK_WORDS: readonly (readonly [units: string, words: string, kind: string])[] = [
  ['V, A', 'DC, dc', 'DC'],
  ['V, A', 'AC, ac', 'AC'],
  ['V, A', 'RMS, rms', 'RMS'],
  ['V, A', 'pp, p-p', 'peak-to-peak'],
  ['%', 'RH', 'relative humidity'],
];

/** After `in` these words show that it is the preposition: "in parallel", "one in five" (common practice, no source). */
export const AFTER_PREPOSITION_IN: ReadonlySet<string> = new Set(
  (
    'the a an each every any both either this that these those its their total parallel series standby use ' +
    'operation case addition order place front stock which our your all idle sleep service storage transit one two three four five six seven eight nine ten eleven twelve'
  ).split(' '),
);
