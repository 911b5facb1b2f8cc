/** Tokens, sentences and segments of statements, and what obliges. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { joinProse } from '../../../server/syntax/sentence/join-prose';
import { obligationOf } from '../../../server/syntax/sentence/obligation';
import { readStatement } from '../../../server/syntax/sentence/read-statement';
import type { Token } from '../../../server/syntax/sentence/token';
import { tokenize } from '../../../server/syntax/sentence/tokenize';
import { proseOf } from '../../support/statement';

function show(text: string, tokens: readonly Token[]): readonly string[] {
  return tokens.map(({ type, start, end }) => `${type}:${text.slice(start, end)}`);
}

function tokensOf(text: string): readonly string[] {
  return show(text, tokenize(proseOf(text)));
}

function pieces(text: string, ranges: readonly { from: number; to: number }[]): readonly string[] {
  const tokens = tokenize(proseOf(text));
  return ranges.map(({ from, to }) => proseOf(text).text.slice(tokens[from]?.start, tokens[to - 1]?.end));
}

describe('tokens', () => {
  test.each([
    ['60 W', ['number:60', 'word:W']],
    ['8.5mm', ['number:8.5', 'word:mm']],
    ['1,200.5', ['number:1,200.5']],
    ['2 × 10^6', ['number:2 × 10^6']],
    ['+/- 5', ['mark:+/-', 'number:5']],
    ['9…36', ['number:9', 'mark:…', 'number:36']],
    ['2027-03-31', ['date:2027-03-31']],
    [
      'RJ45 and 4k7 and 3V3 and 88E15',
      ['name:RJ45', 'word:and', 'name:4k7', 'word:and', 'name:3V3', 'word:and', 'name:88E15'],
    ],
    ['10/100/1000', ['name:10/100/1000']],
    ['5.2.1', ['name:5.2.1']],
    ['2nd', ['name:2nd']],
    ['free-standing e.g. U.S', ['word:free-standing', 'word:e.g', 'mark:.', 'word:U.S']],
    ['two-wire', ['word:two-wire']],
    ['two wires', ['number:two', 'word:wires']],
  ])('%s', (text, expected) => {
    expect(tokensOf(text)).toEqual(expected);
  });

  test('doubts keep the whole figure together', () => {
    const doubtOf = (text: string) => tokenize(proseOf(text)).map((token) => ('doubt' in token ? token.doubt : null));
    expect(doubtOf('2 100')).toEqual(['grouping']);
    expect(doubtOf('200 000')).toEqual([null]);
    expect(doubtOf('1,5')).toEqual(['decimal-comma']);
    expect(doubtOf('2 1/4')).toEqual(['mixed-fraction']);
    expect(doubtOf('10/10')).toEqual(['slash']);
    expect(doubtOf('2027-02-30')).toEqual(['no-such-day']);
    expect(doubtOf('9'.repeat(500))).toEqual(['too-large']);
  });

  test('any text: in order, inside the text, never overlapping', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        let last = 0;
        for (const { start, end } of tokenize({ text, codes: [], runs: [] })) {
          expect(start).toBeGreaterThanOrEqual(last);
          expect(end).toBeGreaterThan(start);
          last = end;
        }
        expect(last).toBeLessThanOrEqual(text.length);
      }),
    );
  });
});

describe('sentences', () => {
  test.each([
    ['It shall hum. It shall glow.', ['It shall hum.', 'It shall glow.']],
    ['It shall draw max. 60 W now.', ['It shall draw max. 60 W now.']],
    ['It shall draw 60 W max. The fan hums.', ['It shall draw 60 W max.', 'The fan hums.']],
    ['A cable 30 in. long shall do.', ['A cable 30 in. long shall do.']],
    ['In U.S. airspace, e.g. at 5 km, it shall hum.', ['In U.S. airspace, e.g. at 5 km, it shall hum.']],
    ['See No. 5 for it. It hums.', ['See No. 5 for it.', 'It hums.']],
    ['The file boot.cfg shall load.', ['The file boot.cfg shall load.']],
    ['One\ntwo', ['One\n', 'two']],
  ])('%s', (text, expected) => {
    expect(pieces(text, readStatement(proseOf(text)).sentences)).toEqual(expected);
  });
});

describe('segments', () => {
  const segmentsOf = (text: string) => {
    const segments = readStatement(proseOf(text)).sentences.flatMap((sentence) => sentence.segments);
    return pieces(text, segments).map((piece, index) => `${segments[index]?.kind}:${piece}`);
  };

  test.each([
    ['When it rains, it shall hum.', ['condition:When it rains,', 'main:it shall hum.']],
    ['When it rains it shall hum.', ['condition:When it rains it', 'main:shall hum.']],
    ['It shall hum when it rains.', ['main:It shall hum', 'condition:when it rains.']],
    ['It shall, if wet, hum.', ['main:It shall,', 'condition:if wet,', 'main:hum.']],
    [
      'When A, B, or C is on, it shall hum.',
      ['condition:When A,', 'condition:B,', 'condition:or C is on,', 'main:it shall hum.'],
    ],
    ['It shall have, at a minimum, one lid.', ['main:It shall have, at a minimum, one lid.']],
    ['It shall be 20 Hz, ± 1 Hz.', ['main:It shall be 20 Hz, ± 1 Hz.']],
    ['It shall hum; it glows.', ['main:It shall hum;', 'main:it glows.']],
    ['It shall hum (when wet, at once).', ['main:It shall hum (when wet, at once).']],
    ['It shall start before 2027-03-31.', ['main:It shall start before 2027-03-31.']],
    ['It shall start before it rains.', ['main:It shall start', 'condition:before it rains.']],
    ['It shall be provided with lids.', ['main:It shall be provided with lids.']],
    ['It shall report once every 5 s.', ['main:It shall report once every 5 s.']],
    ['It shall hum once it rains.', ['main:It shall hum', 'condition:once it rains.']],
  ])('%s', (text, expected) => {
    expect(segmentsOf(text)).toEqual(expected);
  });
});

describe('obligation', () => {
  test.each([
    ['It shall hum.', 'shall'],
    ['It MUST hum.', 'shall'],
    ['It should hum and shall glow.', 'shall'],
    ['It should hum.', 'should'],
    ['It will hum.', 'will'],
    ['It may hum.', 'may'],
    ['In May 2027 it hums.', null],
    ['It hums.', null],
  ])('%s', (text, expected) => {
    expect(obligationOf(proseOf(text))).toBe(expected);
  });
});

describe('joined prose', () => {
  test('numbers code spans through and keeps their places', () => {
    const joined = joinProse([proseOf('has:'), proseOf('`a` and'), proseOf('`b`')]);
    expect(joined.text).toBe('has:\n\uFFFC and\n\uFFFC');
    expect(joined.codes.map(({ at, code }) => [at, code])).toEqual([
      [5, 'a'],
      [11, 'b'],
    ]);
  });
});
