/** What mends a broken line: joining it, and only where it is the very next one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseFiles } from '../support/analyse';

const HEAD = '---\nrequirements: Test\nids: [P]\nfacts: {draw: 45 W}\n---\n## P-1 Power\n';

function broken(text: string) {
  return analyseFiles({ 'a.md': text }).findings.filter(({ code }) => code === 'broken-line');
}

/** The text after the fix of its only broken line; null where there is no fix. */
function mended(text: string): string | null {
  const found = broken(text);
  expect(found).toHaveLength(1);
  const [edit] = found[0]?.fixes[0]?.edits ?? [];
  return edit === undefined ? null : text.slice(0, edit.span.start) + edit.text + text.slice(edit.span.end);
}

describe('the lines are joined', () => {
  test.each([
    ['The unit shall draw at most 60 W\n+ 5 % (`draw`).\n', 'The unit shall draw at most 60 W + 5 % (`draw`).\n'],
    ['The unit shall draw at most 60 W\r\n+ 5 % (`draw`).\r\n', 'The unit shall draw at most 60 W + 5 % (`draw`).\r\n'],
    ['The unit shall draw at\n  - 5 W (`draw`).\n', 'The unit shall draw at - 5 W (`draw`).\n'],
    ['The unit shall draw at most\n> 60 W (`draw`).\n', 'The unit shall draw at most > 60 W (`draw`).\n'],
    ['The unit shall draw at most\n1. 5 W (`draw`).\n', 'The unit shall draw at most 1. 5 W (`draw`).\n'],
  ])('%j', (before, after) => {
    const result = mended(HEAD + before);
    expect(result).toBe(HEAD + after);
    expect(broken(result ?? '')).toEqual([]);
  });

  test('not past an empty line, where a list may have been meant', () => {
    expect(mended(`${HEAD}The unit shall have rails.\n\n- 5 V\n- 3.3 V\n`)).toBeNull();
  });
});

test('a list behind a statement is a broken line exactly where it begins with a figure', () => {
  const items = fc.constantFrom(
    '5 W',
    '-20 °C',
    '± 5 %',
    '3.3 V',
    '1,000 lx',
    'five',
    'RJ45',
    '4k7',
    '2026-10-02',
    'x 5',
  );
  fc.assert(
    fc.property(items, fc.constantFrom('+', '-', '*'), fc.constantFrom('', ':'), (item, marker, colon) => {
      const text = `${HEAD}The unit shall draw at most 60 W (\`draw\`) with${colon}\n${marker} ${item} behind\n`;
      const isFigure = /^(?:[-±] ?)?[\d.,]+ /.test(item);
      expect(broken(text)).toHaveLength(isFigure && colon === '' ? 1 : 0);
    }),
    { numRuns: 60 },
  );
});
