/** The greatest common divisor of large numbers: the powers of two and five that decimals bring first, then Lehmer's method. */

const SAFE = BigInt(Number.MAX_SAFE_INTEGER);
/** 5, 5^2, 5^4, 5^8 …, as far as they were needed. */
const REPEATED_SQUARES = [5n];

/** Of two numbers that are not negative. */
export function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  if (a === 0n || b === 0n) return a + b;
  // Doubles divide several times faster than big integers, and most figures of a design fit.
  if (a <= SAFE && b <= SAFE) return BigInt(ofDoubles(Number(a), Number(b)));
  const twos = minimum(lowestBit(a), lowestBit(b));
  const [left, right] = [a / lowestBit(a), b / lowestBit(b)];
  const [leftFives, rightFives] = [powerOfFive(left), powerOfFive(right)];
  const fives = minimum(leftFives, rightFives);
  return twos * fives * byLehmer(left / leftFives, right / rightFives);
}

/** Bits up to the first one, of a number that is not negative. */
export function bitLength(value: bigint): number {
  if (value <= SAFE) {
    const high = Math.floor(Number(value) / 2 ** 32);
    return high > 0 ? 64 - Math.clz32(high) : 32 - Math.clz32(Number(value) >>> 0);
  }
  const digits = value.toString(16);
  return digits.length * 4 - Math.clz32(Number(`0x${digits[0]}`)) + 28;
}

function minimum(a: bigint, b: bigint): bigint {
  return a < b ? a : b;
}

/** The greatest power of two that divides the number. */
function lowestBit(value: bigint): bigint {
  return value & -value;
}

/** The greatest power of five that divides the number. */
function powerOfFive(value: bigint): bigint {
  if (value % 5n !== 0n) return 1n;
  // What a decimal is divided by is nothing else.
  const likely = Math.ceil((bitLength(value) - 1) / Math.log2(5));
  return 5n ** BigInt(likely) === value ? value : dividedOut(value);
}

function dividedOut(value: bigint): bigint {
  let [rest, power, step] = [value, 1n, 0];
  for (; rest % squareOf(step) === 0n; step += 1) [rest, power] = [rest / squareOf(step), power * squareOf(step)];
  for (step -= 1; step >= 0; step -= 1)
    if (rest % squareOf(step) === 0n) [rest, power] = [rest / squareOf(step), power * squareOf(step)];
  return power;
}

/** 5^(2^step) */
function squareOf(step: number): bigint {
  const last = REPEATED_SQUARES[step - 1] ?? 1n;
  const known = REPEATED_SQUARES[step] ?? last * last;
  REPEATED_SQUARES[step] = known;
  return known;
}

function ofDoubles(a: number, b: number): number {
  let left = a;
  let right = b;
  while (right !== 0) [left, right] = [right, left % right];
  return left;
}

/** Cofactors stay below this, so that all products of leading digits are exact in doubles. */
const LARGEST_COFACTOR = 2 ** 24;
const LEADING_BITS = 50;

/** Several steps of Euclid's at once, found on the leading bits (Knuth, The Art of Computer Programming, vol. 2, 4.5.2 L, from memory). */
function byLehmer(a: bigint, b: bigint): bigint {
  let [left, right] = a > b ? [a, b] : [b, a];
  while (right > SAFE) {
    const shift = BigInt(Math.max(0, bitLength(left) - LEADING_BITS));
    const [p, q, r, s] = cofactors(Number(left >> shift), Number(right >> shift));
    if (q === 0) [left, right] = [right, left % right];
    else [left, right] = [BigInt(p) * left + BigInt(q) * right, BigInt(r) * left + BigInt(s) * right];
  }
  if (right === 0n) return left;
  return BigInt(ofDoubles(Number(right), Number(left % right)));
}

/** The steps of Euclid's that are the same whatever bits follow, as one matrix; q is 0 where there is none. */
function cofactors(left: number, right: number): readonly [p: number, q: number, r: number, s: number] {
  let [x, y] = [left, right];
  let [p, q, r, s] = [1, 0, 0, 1];
  while (y + r !== 0 && y + s !== 0) {
    const quotient = Math.floor((x + p) / (y + r));
    if (quotient !== Math.floor((x + q) / (y + s))) break;
    const [nextR, nextS] = [p - quotient * r, q - quotient * s];
    if (Math.abs(nextR) > LARGEST_COFACTOR || Math.abs(nextS) > LARGEST_COFACTOR) break;
    [p, q, r, s] = [r, s, nextR, nextS];
    [x, y] = [y, x - quotient * y];
  }
  return [p, q, r, s];
}
