/** The one converter between offsets and positions, in every encoding, on every kind of text. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { applyChanges } from '../../server/lsp/buffers';
import { chosenEncoding, createPositions, type Encoding } from '../../server/lsp/positions';
import { spanOf } from '../../server/syntax/span';

const ENCODINGS: readonly Encoding[] = ['utf-8', 'utf-16', 'utf-32'];
/** Emoji, a lone half of one, line ends of three kinds, a byte order mark, letters of one to three bytes. */
const text = fc
  .array(fc.constantFrom('a', 'é', '€', '🐦', '\ud83d', '\udc26', '\r\n', '\n', '\r', '\ufeff', ' '), { maxLength: 30 })
  .map((parts) => parts.join(''));

describe.each(ENCODINGS)('%s', (encoding) => {
  test('every offset between characters comes back', () => {
    fc.assert(
      fc.property(text, (written) => {
        const positions = createPositions(written, encoding);
        for (let offset = 0; offset <= written.length; offset += 1) {
          if (isInside(written, offset)) continue;
          expect(positions.offsetAt(positions.positionAt(offset))).toBe(offset);
        }
      }),
    );
  });

  test('any position lies inside the text', () => {
    const number = fc.integer({ min: -3, max: 50 });
    fc.assert(
      fc.property(text, number, number, (written, line, character) => {
        const offset = createPositions(written, encoding).offsetAt({ line, character });
        expect(offset).toBeGreaterThanOrEqual(0);
        expect(offset).toBeLessThanOrEqual(written.length);
      }),
    );
  });

  test('a change by range is the change that was meant', () => {
    fc.assert(
      fc.property(text, text, fc.nat(), fc.nat(), (written, inserted, a, b) => {
        const [start = 0, end = 0] = [a % (written.length + 1), b % (written.length + 1)].sort((x, y) => x - y);
        if (isInside(written, start) || isInside(written, end)) return;
        const range = createPositions(written, encoding).rangeOf(spanOf(start, end));
        const changed = applyChanges(written, [{ range, text: inserted }], encoding);
        expect(changed.text).toBe(written.slice(0, start) + inserted + written.slice(end));
        expect(changed.touched).toEqual({ start, end: start + inserted.length });
      }),
    );
  });
});

test.each<[Encoding, number]>([
  ['utf-8', 9],
  ['utf-16', 4],
  ['utf-32', 3],
])('in %s the end of “🐦é€” is character %i', (encoding, character) => {
  const line = '🐦é€';
  expect(createPositions(line, encoding).positionAt(line.length)).toEqual({ line: 0, character });
});

// UTF-8 of a lone surrogate is that of U+FFFD, three bytes (Unicode Standard, 3.9, D92 and C10).
test('half a pair counts as the character that stands for it', () => {
  expect(createPositions('\ud83dx', 'utf-8').positionAt(2)).toEqual({ line: 0, character: 4 });
});

test.each([
  [undefined, 'utf-16'],
  [[], 'utf-16'],
  [['utf-16'], 'utf-16'],
  [['utf-8', 'utf-16'], 'utf-8'],
  [['utf-7', 'utf-32'], 'utf-32'],
] as const)('of %j, %s is chosen', (offered, chosen) => {
  expect(chosenEncoding(offered)).toBe(chosen);
});

/** Between the halves of a pair, or between CR and LF, no position points. */
function isInside(written: string, offset: number): boolean {
  const [before, after] = [written.charCodeAt(offset - 1), written.charCodeAt(offset)];
  const splitsPair = before >= 0xd800 && before < 0xdc00 && after >= 0xdc00 && after < 0xe000;
  return splitsPair || (before === 0x0d && after === 0x0a);
}
