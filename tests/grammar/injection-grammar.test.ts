/** The colouring of Markdown: patterns that compile, and what they take for code, a limit and a quantity. */
import { describe, expect, test } from 'vitest';
import { injectionGrammars, type TextMateRule } from '../../grammar/injection-grammar';

const grammars = injectionGrammars();
const rules = (patterns: readonly TextMateRule[] = []): readonly TextMateRule[] =>
  patterns.flatMap((rule) => [
    rule,
    ...rules(rule.patterns),
    ...Object.values({ ...rule.captures, ...rule.beginCaptures }).flatMap((own) => rules([own])),
  ]);
const all = Object.values(grammars).flatMap(({ patterns }) => rules(patterns));

/** The editor's engine reads `(?i)` at the front; JavaScript has a flag for it. */
const compiled = (pattern: string) =>
  new RegExp(pattern.replace(/^\(\?i\)/, ''), pattern.startsWith('(?i)') ? 'gimu' : 'gmu');
const found = (name: string, text: string) => {
  const rule = all.find((one) => one.name === name && one.match !== undefined);
  return [...text.matchAll(compiled(rule?.match ?? '(?!)'))].map(([whole]) => whole);
};

test('every pattern compiles', () => {
  for (const { match, begin, end } of all)
    for (const pattern of [match, begin, end]) if (pattern !== undefined) expect(() => compiled(pattern)).not.toThrow();
  expect(all.length).toBeGreaterThan(10);
});

describe('code spans', () => {
  test.each([
    ['a (`supply.draw`) and `x <= 3 W`', ['`supply.draw`', '`x <= 3 W`']],
    ['a `word` and `npm run build`', []],
    ['in ``supply.draw`` too', []],
  ])('%s', (text, expected) => {
    expect(found('markup.inline.raw.string.markdown', text)).toEqual(expected);
  });
});

describe('limits', () => {
  test.each([
    ['shall draw no more than 60 W', ['no more than']],
    ['shall last at least 3 days and be not longer than 40 mm', ['at least', 'not longer than']],
    ['shall run from the bank', []],
    ['shall flatten 3 W', []],
  ])('%s', (text, expected) => {
    expect(found('keyword.operator.limit.plimsoll', text)).toEqual(expected);
  });
});

test('a quantity is a number with its unit', () => {
  const rule = all.find(({ captures }) => captures?.[2]?.name === 'keyword.other.unit.plimsoll');
  const read = (text: string) => [...text.matchAll(compiled(rule?.match ?? '(?!)'))].map(([, ...parts]) => parts);
  expect(read('45 W ± 10 %')).toEqual([
    ['45', 'W'],
    ['10', '%'],
  ]);
  expect(read('12 Mbit/s, 6 ports, 1,000 m/s^2')).toEqual([
    ['12', 'Mbit/s'],
    ['6', undefined],
    ['1,000', 'm/s^2'],
  ]);
  expect(read('v2.5 TRN-020')).toEqual([]);
});
