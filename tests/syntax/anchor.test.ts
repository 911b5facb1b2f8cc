/** Spans that move together with what they stand in. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anchored, followed, spanBeside, spanNow, startKey, unanchored } from '../../server/syntax/anchor';
import { type Span, spanOf } from '../../server/syntax/span';

const FILE = 'a.md';

interface Item {
  readonly file: string;
  readonly name: string;
  readonly span: Span;
  readonly parts: readonly { readonly at: Span }[];
  readonly fields: ReadonlyMap<string, Span>;
  readonly elsewhere: { readonly file: string; readonly span: Span };
  readonly words: ReadonlySet<string>;
}

const item = (at: number, distance = 3, other = 7): Item => ({
  file: FILE,
  name: 'draw',
  span: spanOf(at, at + 5),
  parts: [{ at: spanOf(at + distance, at + distance) }],
  fields: new Map([['power', spanOf(at + 1, at + 2)]]),
  elsewhere: { file: 'rows.csv', span: spanOf(other, other + 1) },
  words: new Set(['a']),
});

test('an item that says the same further on stays the object that it was, and says where it stands now', () => {
  fc.assert(
    fc.property(fc.nat(1000), fc.array(fc.nat(1000), { minLength: 1, maxLength: 5 }), (start, moves) => {
      const known = anchored(item(start), FILE);
      let before = start;
      for (const at of moves) {
        expect(followed(known, item(at))).toBe(at - before);
        expect(unanchored(known)).toEqual(item(at));
        before = at;
      }
    }),
  );
});

test.each([
  ['another distance', item(10, 4)],
  ['another name', { ...item(10), name: 'load' }],
  ['a place in another file that has moved', item(10, 3, 8)],
  ['a field more', { ...item(10), more: 1 }],
  ['a field less', { ...item(10), fields: new Map() }],
  ['another word', { ...item(10), words: new Set(['b']) }],
  ['a number where a span was', { ...item(10), span: 10 }],
  ['nothing where a span was', { ...item(10), span: null }],
  ['a text that grew', { ...item(10), span: spanOf(10, 16) }],
  ['nothing', null],
])('%s is something else, and then nothing moves', (_, now) => {
  const known = anchored(item(4), FILE);
  expect(followed(known, now)).toBeNull();
  expect(unanchored(known)).toEqual(item(4));
});

test('what has no place stays where it is', () => {
  expect(followed(item(4), item(4))).toBe(0);
  expect(followed(item(4), item(5))).toBeNull();
  expect(anchored({ a: 1 }, FILE)).toEqual({ a: 1 });
});

test('a span beside another moves with it; one that was taken down stays', () => {
  const known = anchored(item(4), FILE);
  const beside = spanBeside(known.span, 6, 8);
  const taken = spanNow(beside);
  followed(known, item(14));
  expect([beside.start, beside.end]).toEqual([16, 18]);
  expect(taken).toEqual(spanOf(6, 8));
  expect(spanBeside(spanOf(1, 2), 3, 4)).toEqual(spanOf(3, 4));
});

test('a key of a start is the same however it moves, and another for whatever comes where it stood', () => {
  const known = anchored(item(4), FILE);
  const before = startKey(known.span);
  followed(known, item(14));
  expect(startKey(known.span)).toBe(before);
  expect(startKey(spanBeside(known.span, 14, 20))).toBe(before);
  expect(startKey(anchored(item(4), FILE).span)).not.toBe(before);
  expect(startKey(spanOf(4, 9))).not.toBe(before);
  expect(startKey(spanOf(4, 9))).toBe(startKey(spanOf(4, 10)));
});
