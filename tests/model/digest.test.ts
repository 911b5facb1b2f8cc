/** SHA-256 against published examples and an independent implementation. */
import { createHash } from 'node:crypto';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { sha256, sha256OfText } from '../../server/model/digest';

// FIPS 180-4 example values (NIST, SHA-256 examples; from memory).
test.each([
  ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
  [
    'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
    '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
  ],
])('of “%s”', (text, digest) => expect(sha256OfText(text)).toBe(digest));

test('equals the platform for any bytes', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
      expect(sha256(bytes)).toBe(createHash('sha256').update(bytes).digest('hex'));
    }),
  );
});
