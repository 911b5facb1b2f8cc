/** What an editor offers at a place: each offer is made and the product judged anew. */
import { describe, expect, test } from 'vitest';
import { type CodeAction, codeActionsIn } from '../../server/features/code-actions';
import { spanOf } from '../../server/syntax/span';
import { analyseFiles, verdictsOf } from '../support/analyse';
import { edited, type Marked, marked } from '../support/marked';

const document = (facts: string, requirement: string) => `---
requirements: P
facts:
${facts}
---
${requirement}`;

const offers = (at: Marked) => codeActionsIn(at.whole, at.file, spanOf(at.offset, at.offset));

function offered(at: Marked, title: string | RegExp): CodeAction {
  const all = offers(at);
  const found = all.find((one) => (typeof title === 'string' ? one.title === title : title.test(one.title)));
  if (found === undefined) throw new Error(`${title} is not offered, only: ${all.map((one) => one.title).join(' | ')}`);
  return found;
}

/** Judged anew with the offer made: the files, and the codes of what is found. */
function made(at: Marked, title: string | RegExp) {
  const files = edited(at.files, offered(at, title).edits);
  const whole = analyseFiles(files);
  return { files, verdicts: verdictsOf(whole), codes: whole.findings.map(({ code }) => code) };
}

describe('a broken requirement', () => {
  const at = marked(
    {
      'p.md': document(
        '  supply: {draw: 65 W ± 5 %}',
        '## P-1 Power\nIt shall draw no |more than 60 W (`supply.draw`).\n',
      ),
    },
    'ranges',
  );

  test('is tried with the figure that it needs, written as it is written', () => {
    const { trial, edits } = offered(at, /^Try supply\.draw at/);
    expect(trial).toEqual({ requirement: 'P-1', values: [{ name: 'supply.draw', value: '57.14 W ± 5 %' }] });
    expect(edits.size).toBe(0);
  });

  test('is waived only once somebody has filled in why, who and until when', () => {
    const { files, verdicts, codes } = made(at, /^Waive P-1 to 68.25 W/);
    expect(files['p.md']).toContain('\n- Waived: to 68.25 W; reason; who; until year-month-day');
    expect(verdicts['P-1']).toBe('unmet');
    expect(codes).toContain('bad-value');
    const filled = files['p.md']?.replace(
      'reason; who; until year-month-day',
      'first build; A. Person; until 2027-03-31',
    );
    expect(verdictsOf(analyseFiles({ 'p.md': filled ?? '' }))['P-1']).toBe('waived');
  });

  test('of two limits of one unit is waived by the criterion', () => {
    const both = document(
      '  a: 65 W\n  b: 1 W',
      '## P-1 Power\nIt shall draw no |more than 60 W (`a`) and no more than 2 W (`b`).\n',
    );
    const { files } = made(marked({ 'p.md': both }), /^Waive P-1/);
    const filled = files['p.md']?.replace(
      'reason; who; until year-month-day',
      'first build; A. Person; until 2027-03-31',
    );
    expect(files['p.md']).toContain('Waived: to a <= 65 W;');
    expect(verdictsOf(analyseFiles({ 'p.md': filled ?? '' }))['P-1']).toBe('waived');
  });

  test('of a table has no line for a waiver', () => {
    const table = document(
      '  a: 65 W',
      '| ID | Requirement |\n| --- | --- |\n| P-1 | It shall draw at most 60 W (`a`). |\n',
    );
    const file = table.replace('at most', 'at \u0001most');
    const offset = file.indexOf('\u0001');
    const whole = analyseFiles({ 'p.md': table });
    const titles = codeActionsIn(whole, 'p.md', spanOf(offset, offset)).map(({ title }) => title);
    expect(titles.filter((title) => /Waive|Verify/.test(title))).toEqual([]);
    expect(titles).toContain('Try other figures for P-1');
  });
});

describe('words that nothing checks', () => {
  const files = { 'p.md': document('  supply: {draw: 45 W}', '## P-1 Peak draw\nIt shall draw |at most 60 W.\n') };

  test('get a figure of their own, to be determined', () => {
    const { files: now, verdicts, codes } = made(marked(files), /^Name the figure behind it: peak-draw/);
    expect(now['p.md']).toContain('facts:\n  peak-draw: TBD\n  supply: {draw: 45 W}');
    expect(now['p.md']).toContain('at most 60 W (`peak-draw`).');
    expect(verdicts['P-1']).toBe('undecided');
    expect(codes).toContain('open-point');
    expect(codes).not.toContain('unchecked');
  });

  test('are no limits, if somebody says so', () => {
    const { files: now, codes } = made(marked(files), 'List “at most 60 W” under Not limits');
    expect(now['p.md']).toContain('\n\n- Not limits: at most 60 W\n');
    expect(codes).not.toContain('unchecked');
  });

  test('join those that are listed already', () => {
    const listed = {
      'p.md': `${document('  a: 1 W', '## P-1 X\nIt shall draw |at most 60 W and 5 V.\n\n- Not limits: 5 V\n')}`,
    };
    expect(made(marked(listed), /Not limits/).files['p.md']).toContain('- Not limits: 5 V; at most 60 W\n');
  });

  test('a name in a code span may be only mentioned', () => {
    const only = { 'p.md': document('  a: 1 W', '## P-1 X\nIt shall use |`a` well.\n') };
    const { files: now, codes } = made(marked(only), 'List `a` under Not limits');
    expect(now['p.md']).toContain('- Not limits: `a`');
    expect(codes).not.toContain('which-limit');
  });
});

describe('a name that nothing has', () => {
  test('becomes a fact to be determined, in a document with or without facts', () => {
    const prose = '## P-1 X\nIt shall draw at most 60 W (`supply.dr|aw`).\n';
    const without = `---\nrequirements: P\n---\n${prose}`;
    for (const text of [without, document('  a: 1 W', prose), without.replace('P\n', 'P\nfacts: {a: 1 W}\n')]) {
      const { verdicts, codes } = made(marked({ 'p.md': text }), 'Add the fact supply.draw, to be determined');
      expect(verdicts['P-1']).toBe('undecided');
      expect(codes).toContain('open-point');
      expect(codes).not.toContain('unknown-name');
    }
  });

  test('keeps the line ends of the document', () => {
    const text = '---\r\nrequirements: P\r\n---\r\n## P-1 X\r\nIt shall draw at most 60 W (`supply.dr|aw`).\r\n';
    expect(made(marked({ 'p.md': text }), /^Add the fact/).files['p.md']).toContain(
      'facts:\r\n  supply.draw: TBD\r\n---',
    );
  });

  test('of a field or a row is no fact', () => {
    const text = document(
      '  a: 1 W\nparts:\n  - {id: soc, power: 1 W}',
      '## P-1 X\nIt shall draw at most 60 W (`parts.so|cket.power`).\n',
    );
    expect(offers(marked({ 'p.md': text })).map(({ title }) => title)).not.toContainEqual(
      expect.stringMatching(/^Add the fact/),
    );
  });
});

describe('evidence', () => {
  const text = document('  a: 1 W', '## |P-1 X\nIt shall draw at most 60 W (`a`).\n');

  test.each(['inspection', 'analysis', 'demonstration', 'test'])('a requirement is verified by %s', (method) => {
    const { files, codes } = made(marked({ 'p.md': text }), `Verify it by ${method}`);
    expect(files['p.md']).toContain(`- Verify: ${method}\n`);
    expect(codes).not.toContain('untested');
  });

  test('a record that is named is written', () => {
    const named = `${text}\n- Verify: test TP-07\n`;
    const { files, codes } = made(marked({ 'p.md': named }), 'Add the record TP-07');
    expect(files['p.md']).toContain('verifications:\n  - {id: TP-07, method: test, verifies: [P-1]}\n---');
    expect(codes).toContain('planned');
    expect(codes).not.toContain('unknown-name');
    const again = `${files['p.md']?.replace('## P-1', '## |P-1')}`.replace('test TP-07', 'test TP-07; test TP-08');
    expect(made(marked({ 'p.md': again }), 'Add the record TP-08').files['p.md']).toMatch(
      /verifications:\n {2}- \{id: TP-08.*\n {2}- \{id: TP-07/,
    );
  });
});

describe('where a figure comes from', () => {
  test.each([
    ['  a|: 1 W', '  a: {value: 1 W, source: ""}'],
    ['  g: {a|: 1 W ± 5 %}', '  g: {a: {value: 1 W ± 5 %, source: ""}}'],
    ['  a|: {min: 1 W, max: 2 W}', '  a: {min: 1 W, max: 2 W, source: ""}'],
  ])('%s is asked for until it is said', (written, now) => {
    const name = written.includes('g:') ? 'g.a' : 'a';
    const at = marked({ 'p.md': document(written, `## P-1 X\nIt shall draw at most 60 W (\`${name}\`).\n`) });
    const { files, verdicts, codes } = made(at, `Say where ${name} comes from`);
    expect(files['p.md']).toContain(now);
    expect(verdicts['P-1']).toBe('met');
    expect(codes).toContain('no-source');
    expect(
      analyseFiles({ 'p.md': files['p.md']?.replace('source: ""', 'source: "bench"') ?? '' }).findings.map(
        ({ code }) => code,
      ),
    ).not.toContain('no-source');
  });
});

describe('a generous figure', () => {
  test('is relaxed where it is written, in another document, and no verdict is another', () => {
    const files = {
      'd.md': '---\nfacts:\n  storage: {capacity: 8 TB}\n---\n',
      'p.md': document('  x: 1', '## P-1 X\nIt shall hold |at least 1 TB (`storage.capacity`).\n'),
    };
    const at = marked(files, 'ranges');
    const { files: now, verdicts } = made(at, 'Relax storage.capacity to 1 TB');
    expect(now['d.md']).toContain('{capacity: 1 TB}');
    expect(verdicts['P-1']).toBe('met');
    expect(offered(at, 'Try storage.capacity at 1 TB').trial?.values).toEqual([
      { name: 'storage.capacity', value: '1 TB' },
    ]);
  });
});

describe('a trial', () => {
  test('is offered on a sentence that is met, and nowhere else', () => {
    const text = document('  a: 1 W', '## P-1 X\nIt shall |draw at most 60 W (`a`).\n');
    expect(offered(marked({ 'p.md': text }), 'Try other figures for P-1')).toMatchObject({ finding: null });
    expect(offers(marked({ 'p.md': `${text.replace('|', '')}\n## Else\nNothing| here.\n` }))).toEqual([]);
  });
});
