import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { splitSections } from '../../../server/syntax/markdown/split';
import { markdownText } from './fragments';

/** The first line of each section. */
function firstLines(text: string): string[] {
  return splitSections(text, 0).map(({ span }) => /^.*/.exec(text.slice(span.start, span.end))?.[0] ?? '');
}

describe('a section begins at each ATX heading in the first column (CommonMark 0.31.2, 4.2)', () => {
  test.each([
    ['# A\ntext\n## B\n###### C\n', ['# A', '## B', '###### C']],
    ['before\n# A\n', ['before', '# A']],
    ['#\n#\tB\n# C #\n', ['#', '#\tB', '# C #']],
    ['a\r\n# B\r\n# C', ['a', '# B', '# C']],
    ['a\r# B\r# C', ['a', '# B', '# C']],
    ['# A\n#none\n####### none\n # indented\n\\# none\n', ['# A']],
    ['Title\n===\n# A\nOther\n---\n# B\n', ['Title', '# A', '# B']],
    ['| a |\n|---|\n| b |\n# A\n', ['| a |', '# A']],
    ['para\n# A\n> quote\n# B\n- item\n# C\n    code\n# D\n', ['para', '# A', '# B', '# C', '# D']],
    ['[a]: /u "title\n# A\n"\n', ['[a]: /u "title', '# A']],
    ['', []],
  ])('%j', (text, expected) => {
    expect(firstLines(text)).toEqual(expected);
  });
});

describe('not inside fenced code (CommonMark 0.31.2, 4.5)', () => {
  test.each([
    ['closed by the same character', '```\n# no\n```\n# A\n', ['```', '# A']],
    ['not by another character', '```\n~~~\n# no\n', ['```']],
    ['not by fewer', '````\n```\n# no\n````\n# A\n', ['````', '# A']],
    ['closed by more', '~~~\n# no\n~~~~~  \n# A\n', ['~~~', '# A']],
    ['not by a fence with an info string', '```\n```js\n# no\n', ['```']],
    ['not by a fence indented by four', '```\n    ```\n# no\n', ['```']],
    ['closed by a fence indented by three', '```\n   ```\n# A\n', ['```', '# A']],
    ['an unclosed one runs to the end', '```\n# no\n\n# no\n', ['```']],
    ['a backtick in the info string makes no fence', '``` a`b\n# A\n', ['``` a`b', '# A']],
    ['but it may stand in that of a tilde fence', '~~~ a`b\n# no\n', ['~~~ a`b']],
    ['an indented fence', '   ```\n# no\n   ```\n# A\n', ['   ```', '# A']],
    ['a fence indented by four is none', 'a\n\n    ```\n# A\n', ['a', '# A']],
  ])('%s', (_name, text, expected) => {
    expect(firstLines(text)).toEqual(expected);
  });
});

describe('a first-column line leaves every container (CommonMark 0.31.2, 5)', () => {
  test.each([
    ['a fence on the line of a list marker', '- ```\n  x\n# A\n', ['- ```', '# A']],
    ['after it is closed in the item', '- ```\n  x\n  ```\n# A\n', ['- ```', '# A']],
    ['closed in the item', '- a\n\n  ```\n  # no\n  ```\n\n# A\n', ['- a', '# A']],
    ['in an ordered item', '1. a\n\n   ```\n   # no\n   ```\n# A\n', ['1. a', '# A']],
    ['in a nested item', '- a\n  - b\n    ```\n    # no\n    ```\n# A\n', ['- a', '# A']],
    ['a fence in a quote', '> ```\n# A\n', ['> ```', '# A']],
    ['a fence in a footnote', '[^n]: ```\n    x\n# A\n', ['[^n]: ```', '# A']],
    ['HTML in an item', '- <!--\n# A\n', ['- <!--', '# A']],
    ['HTML in a quote', '> <pre>\n# A\n', ['> <pre>', '# A']],
    ['an indented fence after the list has ended', '- a\n\nb\n\n  ```\n# no\n  ```\n# A\n', ['- a', '# A']],
    ['a fence in the first column after an item', '- a\n```\n# no\n```\n# A\n', ['- a', '# A']],
  ])('%s', (_name, text, expected) => {
    expect(firstLines(text)).toEqual(expected);
  });
});

test('where only the containers could tell, it is not cut, which is always right', () => {
  expect(firstLines('- a\n\n  ```\n  # in an item\n# A\n')).toEqual(['- a']);
});

describe('not inside the seven kinds of HTML block (CommonMark 0.31.2, 4.6)', () => {
  test.each([
    ['1: pre', '<pre>\n# no\n\n# no\n</pre>\n# A\n', ['<pre>', '# A']],
    [
      '1: script, in capitals, ended by another of its kind',
      '<SCRIPT x>\n# no\n</style>\n# A\n',
      ['<SCRIPT x>', '# A'],
    ],
    ['2: a comment over blank lines', '<!--\n\n# no\n\n-->\n# A\n', ['<!--', '# A']],
    ['2: a comment on one line', '<!-- x -->\n# A\n', ['<!-- x -->', '# A']],
    ['2: an unclosed comment runs to the end', '<!--\n# no\n', ['<!--']],
    ['3: a processing instruction', '<?x\n# no\n?>\n# A\n', ['<?x', '# A']],
    ['4: a declaration', '<!DOCTYPE\n# no\n>\n# A\n', ['<!DOCTYPE', '# A']],
    ['5: a CDATA section', '<![CDATA[\n# no\n]]>\n# A\n', ['<![CDATA[', '# A']],
    ['6: to the next blank line', '<div>\n# no\n\n# A\n', ['<div>', '# A']],
    ['6: a closing tag as well', '</section>\n# no\n\n# A\n', ['</section>', '# A']],
    ['7: a complete tag after a blank line', 'a\n\n<x-y z="1">\n# no\n\n# A\n', ['a', '# A']],
    ['a block inside a paragraph', 'a\n<table>\n# no\n\n# A\n', ['a', '# A']],
  ])('%s', (_name, text, expected) => {
    expect(firstLines(text)).toEqual(expected);
  });

  test('7 cannot interrupt a paragraph: whether such a line is text need not be known to be right', () => {
    expect(firstLines('a\n<b>\n# A\n\n# B\n').at(-1)).toBe('# B');
  });
});

test('sections cover the text without gaps, in order', () => {
  fc.assert(
    fc.property(markdownText, (text) => {
      const pieces = splitSections(text, 0);
      expect(pieces.map(({ span }) => text.slice(span.start, span.end)).join('')).toBe(text);
    }),
    { numRuns: 200 },
  );
});
