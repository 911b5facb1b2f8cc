/** What `record` writes: the run and nothing else, in the style that stands there; verified after it, stale after a change for the worse. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseFiles } from '../support/analyse';
import { designText, givens } from '../support/random-design';
import { evidenceIn, recordedIn } from '../support/record';

function document(record: string, newline = '\n'): string {
  return [
    '---',
    'requirements: Test # kept',
    "facts: {draw: 45 W, 'limit': 60 W}",
    ...record.split('\n'),
    'other:   spaced',
    '---',
    '## P-1 Power',
    'The box shall draw at most 60 W (`draw`).',
    '',
  ].join(newline);
}

const RECORDS = {
  'no runs': 'verifications:\n  - id: TP-1\n    method: test   # by hand\n    verifies: [P-1]',
  'runs without a value': 'verifications:\n  - id: TP-1\n    runs: # none yet\n    method: test\n    verifies: [P-1]',
  'an empty list': 'verifications:\n  - id: TP-1\n    method: test\n    runs: []\n    verifies: [P-1]',
  'lines, and a comment after them':
    'verifications:\n  - id: TP-1\n    method: test\n    verifies: [P-1]\n    runs:\n    - date: 2026-01-02\n      result: "fail" # hm\n    # so it was\n  - {id: TP-2, method: test}',
  'deeper lines':
    'verifications:\n    - id: TP-1\n      method: test\n      verifies: [P-1]\n      runs:\n          - {date: 2026-01-02, result: fail}',
  braces: 'verifications:\n  - {id: TP-1, method: test, verifies: [P-1]}',
  'braces with runs':
    'verifications:\n  - {id: TP-1, method: test, runs: [{date: 2026-01-02, result: fail}], verifies: [P-1]}',
  'braces with an empty list': 'verifications: [{id: TP-1, method: test, runs: [], verifies: [P-1]}]',
  'lists that are not indented': 'verifications:\n- id: TP-1\n  method: test\n  verifies:\n  - P-1',
  'wide dashes': 'verifications:\n  -   id: TP-1\n      method: test\n      verifies: [P-1]',
  'a dash on a line of its own': 'verifications:\n  -\n    id: TP-1\n    method: test\n    verifies: [P-1]',
  'quoted keys': 'verifications:\n  - "id": "TP-1"\n    \'method\': test\n    "verifies":\n      - "P-1"',
  'runs before the rest':
    'verifications:\n  - id: TP-1\n    runs:\n      - {date: 2026-01-02,\n         result: fail}   # hm\n\n    method: test\n    verifies: [P-1]',
  'runs over lines within dashes':
    'verifications:\n  - id: TP-1\n    method: test\n    verifies: [P-1]\n    runs:\n      -\n        date: 2026-01-02\n        result: fail\n\n      - date: 2026-01-03\n        result: fail\n        article: |\n          the\n          second\n    # the end',
  'a title in lines at the end':
    'verifications:\n  - id: TP-1\n    method: test\n    verifies: [P-1]\n    title: |\n      One week\n\n      of recording',
  'a record below its key': 'verification:\n  id: TP-1\n  method: test\n  verifies: [P-1]\n  # so far',
  'braces over lines, with comments':
    'verifications:\n  - {id: TP-1, # first\n     method: test,\n     verifies: [P-1], # last, with a comma\n    }',
  'brackets over lines, with comments':
    'verifications:\n  - id: TP-1\n    method: test\n    verifies: [P-1]\n    runs: [\n      {date: 2026-01-02, result: fail}, # one\n      {date: 2026-01-03, result: fail} # two\n      # three\n    ]',
  'one record at the top': 'verification: TP-1\nmethod: test\nverifies: [P-1]',
  'one record at the top, with runs':
    'verification: TP-1\nmethod: test\nverifies: [P-1]\nruns:\n  - date: 2026-01-02\n    result: fail',
};

describe.each(Object.entries(RECORDS))('%s', (_, record) => {
  test.each([
    ['LF', '\n'],
    ['CRLF', '\r\n'],
  ])('is added to, and nothing else changes (%s)', (_name, newline) => {
    const before = document(record, newline);
    const after = recordedIn(before, { article: 'EVT 3', at: [{ name: 'limit', value: '60 W' }] });
    expect(evidenceIn(after)).toEqual({ 'P-1': 'verified' });
    expect(withoutAdded(before, after)).not.toBeNull();
    expect(after.replaceAll('\r\n', '').includes('\r')).toBe(false);
    expect(newline === '\n' || !/[^\r]\n/.test(after)).toBe(true);
    expect(analyseFiles({ 'product.md': after }).findings.filter(({ code }) => code.startsWith('bad-'))).toEqual([]);
  });

  test('is added to again and again', () => {
    const twice = recordedIn(recordedIn(document(record)), { result: 'fail', date: '2026-11-02' });
    expect(evidenceIn(twice)).toEqual({ 'P-1': 'failed' });
    expect(evidenceIn(recordedIn(twice, { date: '2026-11-03' }))).toEqual({ 'P-1': 'verified' });
  });
});

/** What was put in, where the rest is as it was but for an empty list that gave way; null where more has changed. */
function withoutAdded(before: string, after: string): string | null {
  let start = 0;
  while (start < before.length && before[start] === after[start]) start++;
  let end = 0;
  while (end < before.length - start && before.at(-1 - end) === after.at(-1 - end)) end++;
  const gone = before.slice(start, before.length - end).trim();
  return gone === '' || gone === '[]' || gone === ']' ? after.slice(start, after.length - end) : null;
}

test.each([
  ['lines', 'verification: TP-1\nmethod: test\nverifies: [P-1]', '    against:\n      f0: 1 W\n      f1: 1 W\n'],
  [
    'braces',
    'verifications:\n  - {id: TP-1, method: test, verifies: [P-1]}',
    'against: {\n      f0: 1 W,\n      f1: 1 W,\n',
  ],
])('many figures stand on a line each, in %s', (_, record, written) => {
  const names = Array.from({ length: 13 }, (_, index) => `f${index}`);
  const text = [
    '---',
    'requirements: Test',
    'facts:',
    ...names.map((name) => `  ${name}: 1 W`),
    `  total: = ${names.join(' + ')}`,
    record,
    '---',
    '## P-1 Total',
    'The box shall draw at most 20 W (`total`).',
    '',
  ].join('\n');
  const after = recordedIn(text);
  expect(after).toContain(written);
  expect(evidenceIn(after)).toEqual({ 'P-1': 'verified' });
});

test('the worst case is the one that the language shows', () => {
  const text = [
    '---',
    'requirements: Test',
    'facts:',
    '  storage: {capacity: 8 TB, retention: = capacity / (recording.cameras * recording.bit-rate)}',
    '  recording: {cameras: = count(parts where role = "camera"), bit-rate: 12 Mbit/s +10 % / -0 %}',
    'parts: [{id: cam, role: camera, quantity: 6}]',
    'verification: TP-1',
    'method: test',
    'verifies: [P-1]',
    '---',
    '## P-1 Retention',
    'The recorder shall store at least 7 days of footage (`storage.retention`).',
    '',
  ].join('\n');
  expect(recordedIn(text)).toContain('proved: {"storage.retention >= 7 d": 9.35278713056 d to 10.2880658437 d}');
});

test('a statement that is judged by evidence is kept by its digest', () => {
  const text =
    '---\nrequirements: Test\nverification: TP-1\nmethod: inspection\nverifies: [P-1, P-2]\n---\n## P-1\nThe box shall be grey.\n\n## P-2\nThe box shall be matt.\n';
  const after = recordedIn(text);
  expect(evidenceIn(after)).toEqual({ 'P-1': 'verified', 'P-2': 'verified' });
  expect(evidenceIn(after.replace('be grey', 'be **grey**'))).toEqual({ 'P-1': 'verified', 'P-2': 'verified' });
  expect(evidenceIn(after.replace('be grey', 'be green'))).toEqual({ 'P-1': 'stale', 'P-2': 'verified' });
});

test('a document of evidence that has changed is stale', () => {
  const text =
    '---\nrequirements: Test\nverification: TP-1\nmethod: test\nverifies: [P-1]\nruns: [{date: 2026-01-02, result: pass, evidence: {a.pdf: ba7816bf8f01}}]\n---\n## P-1\nThe box shall be grey.\n';
  const state = (content: string) =>
    analyseFiles({ 'product.md': text, 'a.pdf': content }).analysis.requirements[0]?.evidence.state;
  expect(state('abc')).toBe('verified');
  expect(state('abd')).toBe('stale');
});

test.each([
  [{ id: 'TP-9' }, 'there is no record TP-9'],
  [{ measured: [{ name: 'drew', value: '45 W' }] }, 'drew is no fact of the design; the nearest is draw'],
  [{ measured: [{ name: 'draw', value: '45 V' }] }, 'draw cannot be 45 V'],
  [{ at: [{ name: 'draw', value: '45 w' }] }, 'draw: '],
  [{ at: [{ name: 'draw', value: 'much' }] }, 'draw cannot be much'],
  [{ measured: [1, 2].map(() => ({ name: 'draw', value: '45 W' })) }, 'draw is given twice'],
])('%j is refused', (request, message) => {
  expect(() => recordedIn(document(RECORDS['no runs']), request)).toThrow(message);
});

test('an undecided requirement is recorded without what was proved', () => {
  const after = recordedIn(document(RECORDS['no runs']).replace('(`draw`)', '(`draws`)'));
  expect(after).toContain('result: pass');
  expect(after).not.toContain('proved');
});

/** Random designs of positive figures, whose last one is to be at most or at least so much. */
const designs = fc
  .record({
    facts: givens('f', 2, 4, 3),
    share: fc.integer({ min: 11, max: 60 }),
    turned: fc.boolean(),
    lower: fc.boolean(),
  })
  .map(({ facts, share, turned, lower }) => {
    const names = facts.map(({ name }) => name);
    const sum = names.slice(1).join(' + ');
    return {
      facts,
      text: (value: string) =>
        written(facts, turned ? `${names[0]} / (${sum})` : `${names[0]} * (${sum})`, value, lower),
      share,
      turned,
      lower,
    };
  });

function written(
  facts: Parameters<typeof designText>[0]['facts'],
  root: string,
  factor: string,
  lower: boolean,
): string {
  const { facts: lines } = designText({ facts, rows: [], derived: [] });
  const limit = lower ? 'at least 0.000001' : 'at most 1000000';
  return [
    '---',
    'requirements: Test',
    'facts:',
    ...[...lines.split('\n'), `factor: ${factor}`, `root: = factor * ${root}`].map((line) => `  ${line}`),
    'verification: TP-1',
    'method: test',
    'verifies: [P-1]',
    '---',
    '## P-1',
    `The root shall be ${limit} (\`root\`).`,
    '',
  ].join('\n');
}

test('recorded is verified, and stale once the worst case has moved toward the limit by more than 1e-11 of itself', () => {
  fc.assert(
    fc.property(designs, ({ facts, text, share, lower }) => {
      const at = facts
        .filter(({ spread, low, high }) => spread === 'range' && !low.equals(high))
        .map(({ name, low, high }) => ({ name, value: `${low.toString()} to ${high.toString()}` }));
      const recorded = recordedIn(text('1'), { at });
      expect(evidenceIn(recorded)).toEqual({ 'P-1': 'verified' });
      const moved = (by: string) => evidenceIn(recorded.replace('\n  factor: 1\n', `\n  factor: ${by}\n`));
      // By 1.1e-11 to 6e-11, then the other way.
      const [up, down] = [`1.0000000000${share}`, `0.999999999${100 - Math.ceil(share / 10)}`];
      expect(moved(lower ? down : up)).toEqual({ 'P-1': 'stale' });
      expect(moved(lower ? up : down)).toEqual({ 'P-1': 'verified' });
    }),
    { numRuns: 40 },
  );
});
