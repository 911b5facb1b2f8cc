/** The known words nearest to a mistyped one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { editDistance, nearestWords } from '../../server/model/nearest';

// The usual textbook pairs for edit distance with swaps (optimal string alignment), from memory.
test.each([
  ['kitten', 'sitting', 3],
  ['ca', 'abc', 3],
  ['ab', 'ba', 1],
  ['', 'abc', 3],
  ['same', 'same', 0],
])('%s to %s takes %i edits, either way', (from, to, edits) => {
  expect(editDistance(from, to)).toBe(edits);
  expect(editDistance(to, from)).toBe(edits);
});

test('near words, the nearest first, then in the order given', () => {
  expect(nearestWords('headrom', ['header', 'headroom', 'bathroom', 'headroom'])).toEqual(['headroom']);
  expect(nearestWords('bate', ['rate', 'date', 'bat', 'other'])).toEqual(['rate', 'date', 'bat']);
  expect(nearestWords('Rate', ['gate', 'rate'])).toEqual(['rate', 'gate']);
  expect(nearestWords('x', ['capacity'])).toEqual([]);
});

test('what is given up past a number of edits takes more than that, and nothing else is given up', () => {
  const word = fc.string({ unit: fc.constantFrom('a', 'b', 'c'), maxLength: 9 });
  fc.assert(
    fc.property(word, word, fc.nat(6), (from, to, most) => {
      const [whole, cut] = [editDistance(from, to), editDistance(from, to, most)];
      expect(cut <= most ? cut : 'more').toBe(whole <= most ? whole : 'more');
    }),
    { numRuns: 2000 },
  );
});
