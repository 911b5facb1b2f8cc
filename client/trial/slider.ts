/** A slider for a figure that is one number: how far it goes, in which steps, and what it writes. */

export interface Slider {
  readonly low: number;
  readonly high: number;
  readonly step: number;
  readonly value: number;
  readonly decimals: number;
  /** What stands behind the number and stays: ` W ± 5 %`. */
  readonly behind: string;
}

const ONE_NUMBER = /^([-−]?)(\d+)(?:\.(\d+))?((?:\s*[^\d±]*)(?:±.*)?)$/u;
/** Steps at least, from end to end. */
const STEPS = 40;

/** Null for ranges, words and dates. */
export function sliderOf(written: string): Slider | null {
  const match = ONE_NUMBER.exec(written.trim());
  if (match === null) return null;
  const [, sign, whole = '', fraction = '', behind = ''] = match;
  if (/\bto\b|\.\./.test(behind)) return null;
  const value = Number(`${sign === '' ? '' : '-'}${whole}.${fraction}`);
  const reach = Math.max(Math.abs(value), 1);
  const [low, high] = value < 0 ? [value - reach, value + reach] : [0, value + reach];
  const decimals = decimalsFor(high - low, fraction.length);
  return { low, high, step: 10 ** -decimals, value, decimals, behind };
}

export function writtenAt({ decimals, behind }: Slider, value: number): string {
  const shown = decimals === 0 ? String(Math.round(value)) : value.toFixed(decimals).replace(/\.?0+$/, '');
  return `${shown}${behind}`;
}

function decimalsFor(width: number, written: number): number {
  let decimals = written;
  // A count of things stays whole.
  while (written > 0 && width * 10 ** decimals < STEPS) decimals += 1;
  return Math.min(decimals, 9);
}
