/** Bytes to text: UTF-8 and nothing else. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { decodeText, encodeText, tooLarge } from '../../server/host-text';

const utf16le = (text: string) => new Uint8Array(Buffer.from(text, 'utf16le'));
const utf16be = (text: string) => new Uint8Array(Buffer.from(text, 'utf16le').swap16());

describe('text that is UTF-8', () => {
  test.each(['', 'plain', '5 Ω ± 2 %', 'a\r\nb', '😀 é 漢', 'a\u0000b'])('%j', (text) => {
    expect(decodeText(encodeText(text, false))).toEqual({ text, byteOrderMark: false, problem: null });
  });

  test('a byte order mark is no part of the text, and comes back', () => {
    const bytes = Uint8Array.of(0xef, 0xbb, 0xbf, 0x61);
    expect(decodeText(bytes)).toEqual({ text: 'a', byteOrderMark: true, problem: null });
    expect(encodeText('a', true)).toEqual(bytes);
  });

  test('only the first of two marks is dropped', () => {
    expect(decodeText(encodeText('\uFEFFa', true)).text).toBe('\uFEFFa');
  });

  test('any text comes back, whole characters', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), fc.boolean(), (text, mark) => {
        fc.pre(mark || !text.startsWith('\uFEFF'));
        const decoded = decodeText(encodeText(text, mark));
        // Text that is mostly NUL is taken for UTF-16, which is what it nearly always is.
        fc.pre(decoded.problem === null);
        expect(decoded).toEqual({ text, byteOrderMark: mark, problem: null });
      }),
    );
  });
});

describe('anything else is ignored, and says what it looks like', () => {
  test.each([
    ['UTF-16 little-endian', Uint8Array.of(0xff, 0xfe, 0x61, 0)],
    ['UTF-16 big-endian', Uint8Array.of(0xfe, 0xff, 0, 0x61)],
    ['UTF-32 little-endian', Uint8Array.of(0xff, 0xfe, 0, 0, 0x61, 0, 0, 0)],
    ['UTF-32 big-endian', Uint8Array.of(0, 0, 0xfe, 0xff, 0, 0, 0, 0x61)],
    ['UTF-16 little-endian', utf16le('# Power\n\n5 Ω shall be')],
    ['UTF-16 big-endian', utf16be('# Power\n\n5 Ω shall be')],
  ])('%s', (name, bytes) => {
    const message = `not UTF-8 (it looks like ${name}): the file is ignored`;
    expect(decodeText(bytes)).toMatchObject({ text: '', problem: { code: 'bad-encoding', message } });
  });

  test.each([
    ['an 8-bit degree sign', [0x0a, 0x0a, 0x35, 0xb0, 0x43], 3],
    ['a character cut off by the end', [0x61, 0xe2, 0x82], 1],
    ['an overlong slash (RFC 3629, section 10)', [0x0a, 0xc0, 0xaf], 2],
    ['a surrogate (RFC 3629, section 3)', [0xed, 0xa0, 0x80], 1],
    ['a byte after a U+FFFD that was written', [0xef, 0xbf, 0xbd, 0x0a, 0xff, 0x0a, 0xff], 2],
  ])('%s', (_, bytes, line) => {
    const message = `not UTF-8 (line ${line} has bytes that are not): the file is ignored`;
    expect(decodeText(Uint8Array.from(bytes)).problem?.message).toBe(message);
  });

  test('no bytes throw', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 64 }), (bytes) => {
        const { text, problem } = decodeText(bytes);
        expect(problem === null || text === '').toBe(true);
      }),
    );
  });
});

test('a file that is too large names the limit', () => {
  expect(tooLarge(2_340_000)).toMatchObject({
    code: 'too-large',
    message: 'the file has 2.3 MB, more than the 2 MB that are read: it is ignored',
  });
});
