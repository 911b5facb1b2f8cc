import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { contentStart, findFrontMatter } from '../../server/syntax/front-matter';

function parts(text: string): { readonly outer: string; readonly content: string } | null {
  const found = findFrontMatter(text);
  if (!found) return null;
  const { outer, content } = found;
  return { outer: text.slice(outer.start, outer.end), content: text.slice(content.start, content.end) };
}

describe('front matter', () => {
  test.each([
    ['---\na: b\n---\n# T\n', '---\na: b\n---\n', 'a: b\n'],
    ['---\r\na: b\r\n---\r\nx', '---\r\na: b\r\n---\r\n', 'a: b\r\n'],
    ['---  \t\na: b\n--- \nx', '---  \t\na: b\n--- \n', 'a: b\n'],
    ['---\na: b\n...\nx', '---\na: b\n...\n', 'a: b\n'],
    ['---\na: b\n---', '---\na: b\n---', 'a: b\n'],
    ['---\n---\n', '---\n---\n', ''],
    ['---\na: |\n  ---\n  x\n---\n', '---\na: |\n  ---\n  x\n---\n', 'a: |\n  ---\n  x\n'],
    ['---\na: b\n---\n---\n', '---\na: b\n---\n', 'a: b\n'],
  ])('%j', (text, outer, content) => {
    expect(parts(text)).toEqual({ outer, content });
  });

  test('begins after a byte order mark', () => {
    const text = '\uFEFF---\na: b\n---\n';
    expect(findFrontMatter(text)).toEqual({ outer: { start: 1, end: 14 }, content: { start: 5, end: 10 } });
    expect(contentStart(text)).toBe(1);
    expect(contentStart('a')).toBe(0);
  });

  test.each([
    ['not closed', '---\na: b\n'],
    ['closed by an indented line only', '---\na: b\n ---\n'],
    ['closed by a longer line only', '---\na: b\n----\n'],
    ['after an empty line', '\n---\na: b\n---\n'],
    ['after a space', ' ---\na: b\n---\n'],
    ['four dashes', '----\na: b\n---\n'],
    ['text behind the opening marker', '--- a\nb: c\n---\n'],
    ['two byte order marks', '\uFEFF\uFEFF---\na: b\n---\n'],
    ['nothing', ''],
    ['the marker alone', '---'],
  ])('none: %s', (_name, text) => {
    expect(findFrontMatter(text)).toBeNull();
  });

  test('whatever the text, content lies inside outer and both inside the text', () => {
    const text = fc
      .array(fc.constantFrom('---', '...', '\n', '\r\n', ' ', 'a: b', '\uFEFF'))
      .map((all) => all.join(''));
    fc.assert(
      fc.property(text, (document) => {
        const found = findFrontMatter(document);
        if (!found) return;
        expect(found.outer.start).toBeLessThan(found.content.start);
        expect(found.content.start).toBeLessThanOrEqual(found.content.end);
        expect(found.content.end).toBeLessThan(found.outer.end);
        expect(found.outer.end).toBeLessThanOrEqual(document.length);
      }),
    );
  });
});
