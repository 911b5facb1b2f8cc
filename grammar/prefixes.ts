/** Prefixes of units: decimal ones of the SI, binary ones for information. */

/** [symbols, name, power of the base]; the first symbol is the standard's. */
export type PrefixRow = readonly [symbols: readonly string[], name: string, exponent: number];

/**
 * Powers of ten: BIPM SI Brochure, 9th edition (version 3.01), table 7, with ronna, quetta, ronto and quecto (27th
 * CGPM, 2022, resolution 3). `u` for micro is how the trade types it (ISO 2955, withdrawn; common practice since).
 * The everyday ones come first, so that they are the first to be proposed for a misspelt unit.
 */
export const DECIMAL_PREFIXES: readonly PrefixRow[] = [
  [['k'], 'kilo', 3],
  [['M'], 'mega', 6],
  [['G'], 'giga', 9],
  [['m'], 'milli', -3],
  [['µ', 'u'], 'micro', -6],
  [['n'], 'nano', -9],
  [['T'], 'tera', 12],
  [['p'], 'pico', -12],
  [['c'], 'centi', -2],
  [['d'], 'deci', -1],
  [['h'], 'hecto', 2],
  [['da'], 'deca', 1],
  [['P'], 'peta', 15],
  [['f'], 'femto', -15],
  [['E'], 'exa', 18],
  [['a'], 'atto', -18],
  [['Z'], 'zetta', 21],
  [['z'], 'zepto', -21],
  [['Y'], 'yotta', 24],
  [['y'], 'yocto', -24],
  [['R'], 'ronna', 27],
  [['r'], 'ronto', -27],
  [['Q'], 'quetta', 30],
  [['q'], 'quecto', -30],
];

/** Powers of 1024: IEC 80000-13:2008, clause 4; robi and quebi: IEC 80000-13:2025 (from memory). */
export const BINARY_PREFIXES: readonly PrefixRow[] = [
  [['Ki'], 'kibi', 1],
  [['Mi'], 'mebi', 2],
  [['Gi'], 'gibi', 3],
  [['Ti'], 'tebi', 4],
  [['Pi'], 'pebi', 5],
  [['Ei'], 'exbi', 6],
  [['Zi'], 'zebi', 7],
  [['Yi'], 'yobi', 8],
  [['Ri'], 'robi', 9],
  [['Qi'], 'quebi', 10],
];
