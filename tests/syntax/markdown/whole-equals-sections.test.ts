import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import { createSectionCache, parseMarkdown } from '../../../server/syntax/markdown/parse';
import { applyEdit, markdownText, textEdit } from './fragments';
import { wholeFileBlocks } from './whole-file';

const RUNS = Number(process.env.FUZZ_RUNS ?? 500);

test('sections parsed alone give the blocks of the whole file', () => {
  fc.assert(
    fc.property(markdownText, (text) => {
      const { sections, problems } = parseMarkdown(text);
      expect(problems).toEqual([]);
      expect(sections.flatMap((section) => section.blocks)).toEqual(wholeFileBlocks(text));
    }),
    { numRuns: RUNS },
  );
});

test('after edits with the cache kept, sections still give the blocks of the whole file', () => {
  fc.assert(
    fc.property(markdownText, fc.array(textEdit, { minLength: 1, maxLength: 4 }), (first, edits) => {
      const cache = createSectionCache();
      parseMarkdown(first, { cache });
      let text = first;
      for (const edit of edits) {
        text = applyEdit(text, edit);
        const blocks = parseMarkdown(text, { cache }).sections.flatMap((section) => section.blocks);
        expect(blocks).toEqual(wholeFileBlocks(text));
      }
    }),
    { numRuns: Math.ceil(RUNS * 0.3) },
  );
});
