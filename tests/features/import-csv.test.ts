/** CSV → document: whatever stands in a cell is read back as the same words, and nothing of it does anything. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { importedCsv } from '../../server/features/import-csv';
import { oneLine } from '../../server/features/import-markdown';
import { attributesOf, type Requirement } from '../../server/model/requirement';
import { analyseFiles } from '../support/analyse';
import { processorTime } from '../support/processor-time';

/** RFC 4180, 2.5 to 2.7. */
function csv(rows: readonly (readonly string[])[], delimiter = ','): string {
  return rows.map((row) => row.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(delimiter)).join('\r\n');
}

function imported(text: string) {
  const result = importedCsv(text, 'List');
  if ('mistake' in result) throw new Error(result.mistake);
  return result;
}

function requirementsIn(text: string): readonly Requirement[] {
  return analyseFiles({ 'list.md': text }).analysis.product.requirements;
}

const HOSTILE = [
  '=HYPERLINK("http://example.org")',
  "@SUM(1+1)*cmd|'/C calc'!A0",
  '# heading',
  '- item',
  '+ item',
  '1. item',
  '> quote',
  '---',
  '***',
  '| a | b |',
  '```',
  '~~~',
  '[label]: https://example.org',
  '<!-- gone -->',
  '<script>alert(1)</script>',
  'a *b* _c_ __d__ e_f_g',
  'AT&amp;T &#35; &c',
  'back\\slash \\* \\',
  'two\n\n## ABC-99 lines\r\n- Safety: no',
  'nul \u0000, tab \t, line \u2028, \u{1F426}, \u202Eturned',
  '"quoted", and; parted',
  'C#',
  'Ends with a colon:',
];

test.each(HOSTILE)('%j is read back as it is shown', (cell) => {
  const { text } = imported(
    csv([
      ['ID', 'Title', 'Requirement', 'Source'],
      ['ABC-1', cell, `${cell} shall be`, cell],
    ]),
  );
  const [requirement, ...others] = requirementsIn(text);
  expect(others).toEqual([]);
  expect(requirement).toMatchObject({ id: 'ABC-1', title: oneLine(cell) });
  expect(requirement?.statement?.text).toBe(oneLine(`${cell} shall be`));
  expect(requirement?.attributes.map(({ key, text: value }) => [key, value])).toEqual([['Source', oneLine(cell)]]);
});

test('any text at all is read back as it is shown', () => {
  const words = fc.array(
    fc.oneof(
      fc.constantFrom(
        'shall',
        'a',
        ' ',
        '*',
        '_',
        '\\',
        '<',
        '>',
        '#',
        '&',
        ';',
        '"',
        "'",
        '\n',
        '|',
        '!',
        '-',
        '1.',
        '~~~',
        '=',
        '\t',
      ),
      fc.string({ unit: 'grapheme', maxLength: 3 }).filter((part) => !/[[\]`:\uFFFC~]|https?|www\.|@/.test(part)),
    ),
    { maxLength: 12 },
  );
  fc.assert(
    fc.property(words, words, (title, rest) => {
      const [name, said] = [title.join(''), `It shall be ${rest.join('')}`];
      const { text } = imported(
        csv([
          ['Requirement', 'Name', 'ID'],
          [said, name, 'ABC-1'],
        ]),
      );
      const [requirement, ...others] = requirementsIn(text);
      expect(others).toEqual([]);
      expect(requirement?.title).toBe(oneLine(name));
      expect(requirement?.statement?.text).toBe(oneLine(said));
    }),
    { numRuns: 150 },
  );
});

test('columns are known by their names, whatever their order, delimiter and case', () => {
  const rows = [
    ['verify', 'Statement', 'IDENTIFIER', 'Applies When', 'derives from', 'Colour'],
    ['test', 'The box shall draw at most 60 W (`draw`).', 'ABC-7', 'fitted', 'ABC-1', 'red'],
  ];
  for (const delimiter of [',', ';', '\t']) {
    const { text, notes } = imported(`\uFEFF${csv(rows, delimiter)}`);
    const [requirement] = requirementsIn(text);
    expect(requirement?.id).toBe('ABC-7');
    expect(requirement?.statement?.codes.map(({ code }) => code)).toEqual(['draw']);
    expect(requirement && attributesOf(requirement, 'Applies when')[0]?.codes[0]?.code).toBe('fitted');
    expect(requirement && attributesOf(requirement, 'Derives from')[0]?.text).toBe('ABC-1');
    expect(notes).toEqual(['not taken over, since no attribute is called so: Colour']);
  }
});

test('ids are kept; rows without one go on after the one before, and what was no id stays to be found', () => {
  const rows = ['ABC-007', '', 'abc 9', 'X-1a', '', 'ABC-008', 'ABC-007'].map((id) => [id, 'It shall be.']);
  const { text, notes } = imported(csv([['ID', 'Requirement'], ...rows]));
  expect(requirementsIn(text).map(({ id, title }) => `${id} ${title}`.trim())).toEqual([
    'ABC-007',
    'ABC-009',
    'ABC-010 abc 9',
    'X-1a',
    'X-2',
    'ABC-008',
    'ABC-007',
  ]);
  expect(notes).toEqual([
    'rows 2 and 8 have one id, ABC-007',
    'row 3 had no id and is ABC-009',
    'row 4: “abc 9” is no id of the form ABC-1 and is ABC-010',
    'row 6 had no id and is X-2',
  ]);
});

test('rows are numbered as a spreadsheet numbers them, empty ones among them', () => {
  const { count, notes } = imported('ID,Requirement\n,\n\n"ABC-1","It\nshall be."\nABC-2,\n');
  expect(count).toBe(2);
  expect(notes).toEqual(['row 5: ABC-2 says nothing']);
});

test('a row that does not bind is a requirement all the same, and asked about', () => {
  const { text } = imported('ID,Requirement\nABC-1,The box is light\n');
  expect(requirementsIn(text).map(({ id, obligationWritten }) => [id, obligationWritten])).toEqual([['ABC-1', false]]);
});

test.each([
  ['', 'the file holds no rows'],
  ['\n\n', 'the file holds no rows'],
  [
    'ID,Wish\nABC-1,light\n',
    'no column holds the requirements; call one requirement, statement, text, description (there are ID, Wish)',
  ],
  ['ID,Requirement\nABC-1,at most 1,5 kg\n', 'row 2 has more cells than the header'],
  ['ID,Requirement\n"ABC-1,open\n', 'this is no CSV'],
])('%j is refused', (text, mistake) => {
  expect(importedCsv(text, 'List')).toEqual({ mistake: expect.stringContaining(mistake) });
});

test('ten thousand rows without an id take no time', () => {
  const rows = Array.from({ length: 10_000 }, (_, index) =>
    index % 3 === 0 ? `ABC-${index},It shall be.` : ',It shall be.',
  );
  const started = processorTime();
  const { text, count } = imported(`ID,Requirement\n${rows.join('\n')}\n`);
  expect(processorTime() - started).toBeLessThan(2000);
  expect(count).toBe(10_000);
  expect(new Set(text.match(/^## \S+/gm)).size).toBe(10_000);
});
