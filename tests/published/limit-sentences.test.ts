/** The published requirement sentences: each limit is read as a careful reader reads it, or is asked about. */
import { describe, expect, test } from 'vitest';
import { pair, read } from '../support/statement';
import { PUBLISHED_SENTENCES } from './limit-sentences';

describe('published requirement sentences', () => {
  test.each(PUBLISHED_SENTENCES)('$id: $text', ({ text, types, expected }) => {
    expect(read(text, types)).toEqual(expected);
  });

  test('a sentence without a limit for its name leaves the requirement undecided', () => {
    for (const { text, types } of PUBLISHED_SENTENCES) {
      const { limits, problems } = pair(text, types);
      expect(limits.length > 0 || problems.some(({ undecides }) => undecides), text).toBe(true);
    }
  });
});
