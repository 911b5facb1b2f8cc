/**
 * What a figure measures: exponents of base dimensions, and beside them exponents of kinds.
 *
 * Base dimensions are the SI's seven, information, angle, level (dB) and one for each currency without a declared
 * rate. A kind says what is counted (frame, transfer, turn, or a product's own): quantities of one dimension add and
 * compare when their kinds are equal or one side has none; products carry kinds along, and equal ones cancel. Turns
 * that a product is left with are the exception, see {@link lacksAngle}.
 */

/** One base dimension or kind raised to a power. Exponents are whole or simple fractions (√Hz has 1/2). */
export type Exponents = ReadonlyMap<string, number>;

/** Interned: two dimensions are equal exactly when they are the same object. */
export interface Dimension {
  readonly base: Exponents;
  readonly kinds: Exponents;
  /** Canonical text of both maps; equal text, equal dimension. */
  readonly key: string;
}

const interned = new Map<string, Dimension>();

export const DIMENSIONLESS: Dimension = dimension({});

/** The one object for these exponents; zero exponents are dropped. */
export function dimension(base: Record<string, number>, kinds: Record<string, number> = {}): Dimension {
  return intern(new Map(Object.entries(base)), new Map(Object.entries(kinds)));
}

export function multiply(a: Dimension, b: Dimension): Dimension {
  if (a === DIMENSIONLESS) return b;
  if (b === DIMENSIONLESS) return a;
  return intern(combine(a.base, b.base, 1), combine(a.kinds, b.kinds, 1));
}

export function divide(a: Dimension, b: Dimension): Dimension {
  if (b === DIMENSIONLESS) return a;
  return intern(combine(a.base, b.base, -1), combine(a.kinds, b.kinds, -1));
}

export function power(a: Dimension, exponent: number): Dimension {
  return intern(raise(a.base, exponent), raise(a.kinds, exponent));
}

/** Whether quantities of these dimensions may be added and compared. */
export function isComparable(a: Dimension, b: Dimension): boolean {
  if (a === b) return true;
  if (!sameExponents(a.base, b.base)) return false;
  if (a.kinds.size > 0 && b.kinds.size > 0) return sameExponents(a.kinds, b.kinds);
  return !lacksAngle(a) && !lacksAngle(b);
}

/**
 * Whether turns are left in a product in which an angle in radians was due: a torque times turns per time is no power
 * before it is multiplied with 2π (P = M · ω, ω = 2π · n; ISO 80000-3:2019 3-17, ISO 80000-4:2019 4-27, from memory).
 */
export function lacksAngle({ base, kinds }: Dimension): boolean {
  return (kinds.get('turn') ?? 0) > 0 && [...base.keys()].some((name) => name !== 'time');
}

/** The dimension of a sum of two comparable ones: the kinds of whichever side has some. */
export function common(a: Dimension, b: Dimension): Dimension {
  return a.kinds.size === 0 ? b : a;
}

/** The same dimension with no kinds. */
export function withoutKinds(a: Dimension): Dimension {
  return a.kinds.size === 0 ? a : intern(a.base, new Map());
}

function sameExponents(a: Exponents, b: Exponents): boolean {
  if (a.size !== b.size) return false;
  for (const [name, exponent] of a) if (b.get(name) !== exponent) return false;
  return true;
}

function combine(a: Exponents, b: Exponents, sign: 1 | -1): Exponents {
  const result = new Map(a);
  for (const [name, exponent] of b) result.set(name, (result.get(name) ?? 0) + sign * exponent);
  return result;
}

function raise(a: Exponents, exponent: number): Exponents {
  return new Map([...a].map(([name, own]) => [name, own * exponent]));
}

function intern(base: Exponents, kinds: Exponents): Dimension {
  const key = `${canonical(base)}|${canonical(kinds)}`;
  const known = interned.get(key);
  if (known) return known;
  const created: Dimension = { base: nonZero(base), kinds: nonZero(kinds), key };
  interned.set(key, created);
  return created;
}

function canonical(exponents: Exponents): string {
  return [...nonZero(exponents)]
    .map(([name, exponent]) => `${name}^${exponent}`)
    .sort()
    .join(' ');
}

function nonZero(exponents: Exponents): Exponents {
  return new Map([...exponents].filter(([, exponent]) => exponent !== 0));
}
