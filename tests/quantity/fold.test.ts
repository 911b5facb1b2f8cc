/** Folding makes look-alikes equal and keeps every offset. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { foldText } from '../../server/quantity/fold';

test.each([
  ['5 μA', '5 µA'],
  ['10 k\u2126', '10 kΩ'],
  ['300 \u212a', '300 K'],
  ['\u22125 V', '-5 V'],
  ['5\u00a0V', '5 V'],
  ['1\u2009200', '1 200'],
  ['5\u202fV', '5 V'],
  ['5\u2000V', '5 V'],
  ['10 \u212b', '10 Å'],
])('%s reads as %s', (text, folded) => expect(foldText(text)).toBe(folded));

test('case, and what is no look-alike, stays', () => expect(foldText('kHz MHZ ℃ é 5–6')).toBe('kHz MHZ ℃ é 5–6'));

test('the length stays, whatever the text', () => {
  fc.assert(fc.property(fc.string({ unit: 'binary' }), (text) => foldText(text).length === text.length));
});

test('folding any one character of the basic plane twice changes nothing more', () => {
  const characters = Array.from({ length: 0x10000 }, (_, code) => String.fromCharCode(code));
  expect(characters.filter((character) => foldText(foldText(character)) !== foldText(character))).toEqual([]);
});

test('folding twice changes nothing more', () => {
  fc.assert(fc.property(fc.string({ unit: 'grapheme' }), (text) => foldText(foldText(text)) === foldText(text)));
});
