/** SHA-256 (FIPS 180-4, 6.2) of bytes and texts, in plain arithmetic so that it is the same in every host. */

/** 64 hexadecimal digits. */
export function sha256(bytes: Uint8Array): string {
  const state = new Uint32Array(INITIAL);
  const whole = bytes.length - (bytes.length % BLOCK);
  const schedule = new Uint32Array(64);
  for (let at = 0; at < whole; at += BLOCK) addBlock(state, schedule, bytes, at);
  const rest = padded(bytes.subarray(whole), bytes.length);
  for (let at = 0; at < rest.length; at += BLOCK) addBlock(state, schedule, rest, at);
  return [...state].map((word) => word.toString(16).padStart(8, '0')).join('');
}

/** Of the text as UTF-8. */
export function sha256OfText(text: string): string {
  return sha256(new TextEncoder().encode(text));
}

/** Digits of a digest that people see: enough that nobody meets two alike by chance. */
export const SHOWN_DIGITS = 12;

/** Bytes that are taken in together. */
const BLOCK = 64;

const PRIMES = firstPrimes(64);
/** The first 32 bits of the fractional parts of roots of the first primes (FIPS 180-4, 4.2.2 and 5.3.3). */
const ROUND_CONSTANTS = Uint32Array.from(PRIMES, (prime) => fractionBits(prime, 3n));
const INITIAL = Uint32Array.from(PRIMES.slice(0, 8), (prime) => fractionBits(prime, 2n));

/** The last bytes, a one bit, zeros, and the length in bits (FIPS 180-4, 5.1.1). */
function padded(rest: Uint8Array, length: number): Uint8Array {
  const result = new Uint8Array(rest.length + 9 > BLOCK ? 2 * BLOCK : BLOCK);
  result.set(rest);
  result[rest.length] = 0x80;
  new DataView(result.buffer).setBigUint64(result.length - 8, BigInt(length) * 8n);
  return result;
}

function addBlock(state: Uint32Array, schedule: Uint32Array, bytes: Uint8Array, at: number): void {
  const view = new DataView(bytes.buffer, bytes.byteOffset + at, BLOCK);
  for (let index = 0; index < 16; index++) schedule[index] = view.getUint32(index * 4);
  for (let index = 16; index < 64; index++) schedule[index] = scheduled(schedule, index);
  let [a, b, c, d, e, f, g, h] = [...state] as [number, number, number, number, number, number, number, number];
  for (let index = 0; index < 64; index++) {
    const choose = (e & f) ^ (~e & g);
    const majority = (a & b) ^ (a & c) ^ (b & c);
    const added = (h + mixed(e, 6, 11, 25) + choose + word(ROUND_CONSTANTS, index) + word(schedule, index)) | 0;
    [h, g, f, e] = [g, f, e, (d + added) | 0];
    [d, c, b, a] = [c, b, a, (added + mixed(a, 2, 13, 22) + majority) | 0];
  }
  for (const [index, value] of [a, b, c, d, e, f, g, h].entries()) state[index] = word(state, index) + value;
}

function scheduled(schedule: Uint32Array, index: number): number {
  const near = word(schedule, index - 2);
  const far = word(schedule, index - 15);
  const first = turned(far, 7) ^ turned(far, 18) ^ (far >>> 3);
  const second = turned(near, 17) ^ turned(near, 19) ^ (near >>> 10);
  return word(schedule, index - 16) + first + word(schedule, index - 7) + second;
}

function mixed(value: number, first: number, second: number, third: number): number {
  return turned(value, first) ^ turned(value, second) ^ turned(value, third);
}

function turned(value: number, by: number): number {
  return (value >>> by) | (value << (32 - by));
}

function word(words: Uint32Array, index: number): number {
  return words[index] as number;
}

function firstPrimes(count: number): readonly number[] {
  const primes: number[] = [];
  for (let candidate = 2; primes.length < count; candidate++)
    if (primes.every((prime) => candidate % prime !== 0)) primes.push(candidate);
  return primes;
}

/** The root is taken in whole numbers, 32 bits past the point. */
function fractionBits(prime: number, degree: bigint): number {
  const scaled = BigInt(prime) << (32n * degree);
  let low = 0n;
  let high = BigInt(prime) << 32n;
  while (low < high) {
    const middle = (low + high + 1n) / 2n;
    if (middle ** degree <= scaled) low = middle;
    else high = middle - 1n;
  }
  return Number(low & 0xffffffffn);
}
