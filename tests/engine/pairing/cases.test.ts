/** Sentences in the patterns of published requirements: each is read right, or asked about, never read wrong in silence. */
import { describe, expect, test } from 'vitest';
import { read } from '../../support/statement';
import { CONDITIONS } from './cases/conditions';
import { ENDS } from './cases/ends';
import { LEFTOVERS } from './cases/leftovers';
import { NAMES } from './cases/names';
import { NEGATIONS } from './cases/negations';
import { NUMBERS } from './cases/numbers';
import { RELATIONS } from './cases/relations';

for (const { source, cases } of [
  ...RELATIONS,
  ...NEGATIONS,
  ...ENDS,
  ...CONDITIONS,
  ...NUMBERS,
  ...NAMES,
  ...LEFTOVERS,
]) {
  describe(source, () => {
    test.each(cases)('%s', (sentence, types, expected) => {
      expect(read(sentence, types)).toEqual(expected);
    });
  });
}
