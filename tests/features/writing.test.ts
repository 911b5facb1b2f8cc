/** What an editor offers and shows where somebody writes: completion, hints, lenses, colours of names. */
import { describe, expect, test } from 'vitest';
import { completionsAt } from '../../server/features/completion';
import { hintsIn } from '../../server/features/hints';
import { lensesIn } from '../../server/features/lenses';
import { tokensIn } from '../../server/features/tokens';
import { spanOf } from '../../server/syntax/span';
import { analyseFiles } from '../support/analyse';
import { marked } from '../support/marked';

type Files = Readonly<Record<string, string>>;

function offered(files: Files): readonly string[] {
  const { whole, file, text, offset } = marked(files);
  return completionsAt(whole, file, text, offset).map(({ label }) => label);
}

/** The text once the first offer of that name is taken. */
function taken(files: Files, label: string): string {
  const { whole, file, text, offset } = marked(files);
  const item = completionsAt(whole, file, text, offset).find((one) => one.label === label);
  if (item === undefined) throw new Error(`${label} is not offered`);
  return text.slice(0, item.replace.start) + item.insert + text.slice(item.replace.end);
}

const FACTS = 'requirements: P\nfacts:\n  supply: {draw: 45 W, input: 48 V}\n  mass: 3 kg';
const prose = (text: string) => ({ 'p.md': `---\n${FACTS}\n---\n## P-1 X\n${text}\n` });
const matter = (yaml: string) => ({ 'p.md': `---\n${yaml}\n---\n` });

describe('completion', () => {
  test('in a code span offers names, those first whose unit fits the sentence', () => {
    expect(offered(prose('It shall weigh at most 5 kg (`|`).'))[0]).toBe('mass');
    expect(offered(prose('It shall draw at most 60 W (`sup|`).'))[0]).toBe('supply.draw');
    expect(taken(prose('It shall draw at most 60 W (`sup|`).'), 'supply.draw')).toContain('(`supply.draw`)');
  });

  test('behind a number offers units, and behind a word nothing', () => {
    expect(offered(prose('It shall draw at most 60 |'))).toContain('W');
    expect(offered(prose('It shall draw |'))).toEqual([]);
  });

  test('of attributes: keys, methods, words that are fixed, ids', () => {
    expect(offered(prose('It shall work.\n\n- Ver|'))).toContain('Verify');
    expect(offered(prose('It shall work.\n\n- Verify: |'))).toEqual(expect.arrayContaining(['test', 'analysis']));
    expect(offered(prose('It shall work.\n\n- Priority: |'))).toEqual(['must', 'should', 'could']);
    expect(offered(prose('It shall work.\n\n- Derives from: |'))).toEqual(['P-1']);
    expect(offered(prose('It shall work.\n\n- My own: |'))).toEqual([]);
  });

  test('of a heading offers the next free id', () => {
    expect(offered(prose('It shall work.\n\n## |'))).toEqual(['P-2']);
  });

  test('of front matter: keys with their meaning, fields of rows, records and runs, words that are fixed', () => {
    const { whole, file, text, offset } = marked(matter('requirements: P\n|'));
    const keys = completionsAt(whole, file, text, offset);
    expect(keys.map(({ label }) => label)).toContain('facts');
    expect(keys.every(({ detail }) => detail !== '')).toBe(true);
    expect(offered(matter('parts:\n  - {id: soc, ripple: 3 mV}\n  - {id: cam, |}'))).toEqual(
      expect.arrayContaining(['ripple', 'power', 'satisfies']),
    );
    expect(offered(matter('parts:\n  - {id: soc, power: 3 |, note: x}'))).toContain('W');
    expect(offered(matter('facts:\n  a: 1 W\n  b: {value: = min(a, |}'))).toContain('a');
    expect(offered(matter('rails:\n  - id: a\n    |'))).toContain('efficiency');
    expect(offered(matter('verifications:\n  - id: TP-1\n    |'))).toEqual([
      'id',
      'title',
      'method',
      'verifies',
      'runs',
    ]);
    expect(offered(matter('verifications:\n  - id: TP-1\n    runs:\n      - |'))).toEqual([
      'date',
      'result',
      'article',
      'measured',
      'at',
    ]);
    expect(offered(matter('verifications:\n  - id: TP-1\n    method: |'))).toContain('demonstration');
  });

  test('in an expression calls siblings by their own name', () => {
    expect(offered(matter('facts:\n  supply:\n    draw: 45 W\n    peak: = 2 * dr|'))).toContain('draw');
  });

  test('of plimsoll.yaml: keys, findings, severities, alternatives', () => {
    const files = { 'p.md': '---\noption: birch\nof: processor\n---\n' };
    expect(offered({ ...files, 'plimsoll.yaml': '|' })).toContain('headroom');
    expect(offered({ ...files, 'plimsoll.yaml': 'phase: |' })).toEqual(['design', 'release']);
    expect(offered({ ...files, 'plimsoll.yaml': 'severity:\n  unt|' })).toContain('untested');
    expect(offered({ ...files, 'plimsoll.yaml': 'severity:\n  untested: |' })).toContain('off');
    expect(offered({ ...files, 'plimsoll.yaml': 'choose: {processor: |}' })).toEqual(['birch']);
  });

  test('in front matter that is not closed yet is that of front matter, and beside it nothing is', () => {
    expect(offered({ 'p.md': '---\nrequirements: P\nfa|\n# Heading\n' })).toContain('facts');
    expect(offered({ 'p.md': '# Notes\n\nSome 5 |\n' })).toEqual([]);
  });
});

describe('hints', () => {
  const files = prose('It shall draw at most 60 W (`supply.draw`).');
  const text = files['p.md'];
  const shown = (whole: ReturnType<typeof analyseFiles>, span = spanOf(0, text.length)) =>
    hintsIn(whole, 'p.md', span).map(({ offset, text: hint }) => [text.slice(offset - 5, offset), hint]);

  test('stand behind the code span and, at rest, behind the figure', () => {
    expect(shown(analyseFiles(files))).toEqual([['draw`', 'supply.draw <= 60 W: 45 W, margin 15 W']]);
    expect(shown(analyseFiles(files, 'ranges'))[0]).toEqual([' 45 W', 'may go up to 60 W (P-1)']);
  });

  test('outside of what is seen are left out', () => {
    expect(shown(analyseFiles(files, 'ranges'), spanOf(0, 10))).toEqual([]);
  });
});

describe('lenses', () => {
  const { analysis } = analyseFiles(
    prose('It shall draw at most 40 W (`supply.draw`).\n\n## P-2 Y\nIt should be quiet.'),
  );

  test('stand over requirements and over the facts that some rest on', () => {
    expect(lensesIn(analysis, 'p.md').map(({ title, trial }) => [title, trial?.requirement ?? null])).toEqual([
      ['1 requirement rests on it · P-1 unmet', null],
      ['unmet · margin -5 W · untested', 'P-1'],
      ['open · no margin · untested', null],
    ]);
    expect(lensesIn(analysis, 'none.md')).toEqual([]);
  });

  test('say what is shown elsewhere while a figure is being typed', () => {
    const held = new Map([['P-1', { verdict: 'met' as const }]]);
    expect(lensesIn(analysis, 'p.md', held).map(({ title }) => title)).toEqual([
      '1 requirement rests on it',
      'met · margin … · untested',
      'open · no margin · untested',
    ]);
  });
});

describe('colours', () => {
  test('are given to names and to the words of a limit, none over another', () => {
    const files = prose('It shall draw no more than 60 W (`2 * supply.draw.max`).');
    const whole = analyseFiles(files);
    const tokens = tokensIn(whole, 'p.md').map(({ span, type }) => [files['p.md'].slice(span.start, span.end), type]);
    expect(tokens).toEqual([
      ['draw', 'variable'],
      ['input', 'variable'],
      ['mass', 'variable'],
      ['no more than', 'keyword'],
      ['60 W', 'number'],
      ['supply.draw.max', 'variable'],
    ]);
  });

  test('of modes: a path keeps its colour whole', () => {
    const files = {
      'plimsoll.yaml': 'modes: [standby]\n',
      'p.md':
        '---\nrequirements: P\nfacts:\n  draw: {standby: 1 W}\n---\n## P-1 X\nWhile `standby`, it shall draw at most 2 W (`draw.standby`).\n',
    };
    const tokens = tokensIn(analyseFiles(files), 'p.md').map(({ span, type }) => [
      files['p.md'].slice(span.start, span.end),
      type,
    ]);
    expect(tokens).toEqual([
      ['draw', 'variable'],
      ['standby', 'enumMember'],
      ['standby', 'enumMember'],
      ['at most', 'keyword'],
      ['2 W', 'number'],
      ['draw.standby', 'variable'],
    ]);
    expect(tokensIn(analyseFiles(files), 'none.md')).toEqual([]);
  });
});
