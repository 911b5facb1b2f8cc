/** The patterns of `include` and `exclude`. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { globFilter, globMistake } from '../../server/model/configuration-glob';
import { processorTime } from '../support/processor-time';

describe('a pattern names paths', () => {
  test.each([
    ['**/*.md', 'a.md', true],
    ['**/*.md', 'a/b/c.md', true],
    ['**/*.md', 'a/b/c.mdx', false],
    ['**/*.md', 'amd', false],
    ['**/a.md', 'xa.md', false],
    ['**/a.md', 'b/xa.md', false],
    ['*.md', 'a.md', true],
    ['*.md', 'a/b.md', false],
    ['?.md', 'a.md', true],
    ['?.md', '/.md', false],
    ['?.md', '☂.md', true],
    ['?.md', '😀.md', true],
    ['a/**/b.md', 'a/b.md', true],
    ['a/**/b.md', 'a/x/y/b.md', true],
    ['a/**/b.md', 'a/xb.md', false],
    ['drafts/**', 'drafts/a.md', true],
    ['drafts/**', 'drafts/a/b.md', true],
    ['drafts/**', 'my/drafts/a.md', false],
    ['drafts', 'drafts/a/b.md', true],
    ['drafts/', 'drafts/a.md', true],
    ['drafts', 'drafts.md', false],
    ['**/drafts', 'my/drafts/a.md', true],
    ['./a.md', 'a.md', true],
    ['{design,requirements}/*.md', 'design/a.md', true],
    ['{design,requirements}/*.md', 'other/a.md', false],
    ['a{,b{c,d}}.md', 'a.md', true],
    ['a{,b{c,d}}.md', 'abd.md', true],
    ['a{,b{c,d}}.md', 'ab.md', false],
    ['**', 'a/b', true],
    ['a**b', 'axx/yyb', true],
    ['A.md', 'a.md', false],
    ['a.c', 'abc', false],
    ['(a|b)+', '(a|b)+', true],
  ])('%s on %s: %s', (pattern, path, expected) => {
    expect(globMistake(pattern)).toBeNull();
    expect(globFilter([pattern])(path)).toBe(expected);
  });

  test('any of several patterns', () => {
    const filter = globFilter(['a.md', 'b/**']);
    expect(['a.md', 'b/c.md', 'c.md'].filter(filter)).toEqual(['a.md', 'b/c.md']);
  });
});

test.each([
  '../a',
  'a/../b',
  '/a',
  'C:/a',
  'a\\b',
  'a[bc]',
  '!a',
  '',
  './',
  '{a',
  'a}',
  '{a,{b}',
  '{a,b}'.repeat(9),
  'a'.repeat(1001),
])('the pattern %s is refused and matches nothing', (pattern) => {
  expect(globMistake(pattern)).not.toBeNull();
  expect(globFilter([pattern])('a')).toBe(false);
});

test('agrees with a plain regular expression wherever that is quick', () => {
  const piece = fc.constantFrom('a', 'b', '/', '*', '?', '**/', '.');
  const pattern = fc.array(piece, { maxLength: 6 }).map((pieces) => `a${pieces.join('')}`);
  const path = fc.array(fc.constantFrom('a', 'b', '/', '.'), { maxLength: 8 }).map((pieces) => `a${pieces.join('')}`);
  fc.assert(
    fc.property(pattern, path, (glob, text) => {
      fc.pre(globMistake(glob) === null);
      expect(globFilter([glob])(text)).toBe(asExpression(glob).test(text));
    }),
    { numRuns: 2000 },
  );
});

test('a pattern of many stars takes no longer than a short one', () => {
  const started = processorTime();
  expect(globFilter([`${'*a'.repeat(100)}b`, `${'**/'.repeat(200)}x`])(`${'a'.repeat(2000)}/${'a/'.repeat(500)}`)).toBe(
    false,
  );
  expect(processorTime() - started).toBeLessThan(2000);
});

function asExpression(glob: string): RegExp {
  const source = glob.replace(/\/+$/, '').replace(/(?<=^|\/)\*\*\/|\*+|\?|\./g, (part) => {
    if (part === '**/') return '(?:[^]*/)?';
    if (part.startsWith('**')) return '[^]*';
    return part === '*' ? '[^/]*' : part === '?' ? '[^/]' : '\\.';
  });
  return new RegExp(`^${source}(?:/[^]*)?$`);
}
