/** The divisor against Euclid's own steps, for sizes from one digit to thousands. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bitLength, greatestCommonDivisor } from '../../server/quantity/greatest-common-divisor';

function euclid(a: bigint, b: bigint): bigint {
  return b === 0n ? a : euclid(b, a % b);
}

const ofBits = (bits: number) => fc.bigInt({ min: 0n, max: 2n ** BigInt(bits) });
const size = fc.oneof(ofBits(20), ofBits(60), ofBits(120), ofBits(1500));
const decimals = fc.tuple(fc.nat(300), fc.nat(300)).map(([twos, fives]) => 2n ** BigInt(twos) * 5n ** BigInt(fives));

test('is what Euclid finds', () => {
  fc.assert(
    fc.property(size, size, size, decimals, decimals, (a, b, common, first, second) => {
      const [left, right] = [a * common * first, b * common * second];
      expect(greatestCommonDivisor(left, right)).toBe(euclid(left, right));
    }),
  );
});

/** Quotients of one all the way, the most steps there can be (Lamé 1844, from memory). */
test('of neighbours in the Fibonacci sequence is 1', () => {
  let [a, b] = [1n, 1n];
  for (let index = 0; index < 3000; index += 1) [a, b] = [b, a + b];
  expect(greatestCommonDivisor(a, b)).toBe(1n);
  expect(greatestCommonDivisor(a * 720n, b * 720n)).toBe(720n);
});

test('zero has every divisor', () => {
  expect(greatestCommonDivisor(0n, 12n)).toBe(12n);
  expect(greatestCommonDivisor(10n ** 40n, 0n)).toBe(10n ** 40n);
});

test('bits are counted as the binary digits are', () => {
  fc.assert(
    fc.property(fc.oneof(ofBits(53), ofBits(54), ofBits(300)), (value) => {
      expect(bitLength(value)).toBe(value === 0n ? 0 : value.toString(2).length);
    }),
  );
});
