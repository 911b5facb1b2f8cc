import { describe, expect, test } from 'vitest';
import { at, readFrontMatter, short } from './yaml-support';

/** The problems of a text, each with the source it covers and the source after its fix. */
function splits(
  yaml: string,
): readonly { readonly source: string; readonly advice: string; readonly fixed?: string }[] {
  const { text, problems } = readFrontMatter(yaml);
  return problems.map(({ code, message, span, fix }) => {
    expect(code).toBe('split-value');
    const source = text.slice(span.start, span.end);
    const advice = message.replace('the comma ends the value here; ', '');
    return fix ? { source, advice, fixed: fix.edits[0]?.text ?? '' } : { source, advice };
  });
}

describe('a comma that ends a value in braces', () => {
  test.each([
    ['{draw: = min(a, b)}', '= min(a, b)', "'= min(a, b)'"],
    ['{draw: = if(a, min(b, c), d), x: 1}', '= if(a, min(b, c), d)', "'= if(a, min(b, c), d)'"],
    [
      '{n: = count(parts where role = "a, b")}',
      '= count(parts where role = "a, b")',
      `'= count(parts where role = "a, b")'`,
    ],
    ["{note: the maker's (new, spare) part}", "the maker's (new, spare) part", "'the maker''s (new, spare) part'"],
    ['{x: = max(a, b: 2, c)}', '= max(a, b: 2, c)', "'= max(a, b: 2, c)'"],
    ['{x: = min(a,\n    b)}', '= min(a,\n    b)', "'= min(a,\n    b)'"],
  ])('%s: quote it', (yaml, source, fixed) => {
    expect(splits(yaml)).toEqual([{ source, advice: 'quote it', fixed }]);
  });

  test.each([
    ['{volume: 12,000}', '12,000', '12000'],
    ['{cost: 1,250,000 EUR, x: 1}', '1,250,000 EUR', '1250000 EUR'],
  ])('%s: a grouped number loses its commas, for in quotes it would be text', (yaml, source, fixed) => {
    expect(splits(yaml)).toEqual([{ source, advice: 'write the number without it', fixed }]);
  });

  test('a decimal comma has no fix', () => {
    expect(splits('{draw: 4,5 W}')).toEqual([{ source: '4,5 W', advice: expect.stringContaining('decimal point') }]);
  });

  test('a quantity with a remark has no fix, for in quotes it would be text', () => {
    const [split] = splits('{draw: 5 W (TBR, later)}');
    expect(split).toEqual({ source: '5 W (TBR, later)', advice: expect.not.stringContaining('quote') });
  });

  test('an open bracket that nothing closes takes nothing else with it', () => {
    const { root } = readFrontMatter('{a: = min(b, c: 2}');
    expect(splits('{a: = min(b, c: 2}')).toEqual([{ source: '= min(b', advice: 'quote it' }]);
    expect(short(at(root, 'c'))).toBe('2');
  });

  test.each(['{a: "x", "y"}', '{a: (b), 5}'])('a key that can only be the rest of a value: %s', (yaml) => {
    expect(splits(yaml)).toHaveLength(1);
  });

  test('without a value before it the key itself is named', () => {
    const { problems } = readFrontMatter('{5 W, a: 1}');
    expect(problems).toMatchObject([{ code: 'split-value', message: expect.stringContaining('5 W is no key') }]);
  });

  test('the pieces are no keys: none is left in the tree and none counts as given twice', () => {
    const { root, problems } = readFrontMatter('{a: = min(x, y), b: = min(x, y), c: 1,000, d: 2,000}');
    expect(problems).toHaveLength(4);
    expect(root?.type === 'map' && root.entries.map(({ key }) => key)).toEqual(['a', 'b', 'c', 'd']);
  });

  test('in a list in brackets an open bracket tells', () => {
    expect(splits('a: [= min(b, c), 2]')).toEqual([
      { source: '= min(b, c)', advice: 'quote it', fixed: "'= min(b, c)'" },
    ]);
  });

  test.each([
    '{draw: \'= min(a, b)\', note: "(a, b"}',
    '{at: {1: 72 EUR, 1000: 61 EUR}, of: volume}',
    '{12V: {standby: 20 mA}, 3V3: 1 A}',
    '{modes, others}',
    '{size: 3.5" drive, x: 1}',
    '{x: = (a + b) * 2, y: a)}',
    'a: = min(b, c)',
    'a: 12,000 EUR',
    'a: [4 GiB, 8 GiB, "x, y", 100]',
  ])('none in %s', (yaml) => {
    expect(splits(yaml)).toEqual([]);
  });
});
