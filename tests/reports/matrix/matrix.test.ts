/** The matrix as records: every requirement with what it rests on, and the same turned round. */
import { describe, expect, test } from 'vitest';
import type { MatrixRow } from '../../../server/reports/matrix/record';
import { matrixOfFiles, TODAY, VARIED } from '../../support/matrix';

const MATRIX = matrixOfFiles(VARIED);

function row(id: string): MatrixRow {
  const found = MATRIX.requirements.find((one) => one.id === id);
  if (found === undefined) throw new Error(`no ${id}`);
  return found;
}

test('product, day and commit', () => {
  expect(MATRIX).toMatchObject({
    product: 'Test',
    phase: 'design',
    date: TODAY,
    revision: { commit: '0123456789abcdef', isModified: false },
  });
});

describe('a requirement', () => {
  test('with statement, verdict, worst case, margin, what it rests on, parents and evidence', () => {
    expect(row('P-1')).toMatchObject({
      key: 'P-1',
      title: 'Draw',
      place: { file: 'requirements.md', line: 5 },
      obligation: 'shall',
      owner: 'power team',
      rationale: 'the fuse.',
      safety: false,
      statement: {
        text: 'The recorder shall draw no more than 60 W from the bank (`supply.draw`).',
        markdown: ['The recorder shall draw **no more** than 60 W from the [bank](notes/bank.md) (`supply.draw`).'],
        column: null,
        file: 'requirements.md',
      },
      derivesFrom: [
        { id: 'P-3', key: 'P-3' },
        { id: 'P-99', key: null },
      ],
      verdict: 'at risk',
      facts: ['supply.draw'],
      parts: [],
      evidence: 'verified',
      methods: [
        {
          method: 'test',
          record: { id: 'TP-01', title: 'Draw on the bench', place: { file: 'tests.md', line: 2 } },
          state: 'verified',
          run: { date: '2026-10-02', result: 'pass' },
          moved: false,
        },
      ],
    });
    // 55 W ± 10 % is 49.5 W to 60.5 W: half a watt past 60 W.
    expect(row('P-1').criteria).toEqual([
      {
        text: 'supply.draw <= 60 W',
        verdict: 'at risk',
        mode: 'busy',
        row: null,
        low: { digits: '49.5', unit: 'W', number: 49.5 },
        high: { digits: '60.5', unit: 'W', number: 60.5 },
        typical: { low: { digits: '55', unit: 'W', number: 55 }, high: { digits: '55', unit: 'W', number: 55 } },
        word: null,
        limit: { relation: '<=', low: null, high: 60, unit: 'W' },
        margin: { digits: '-0.5', unit: 'W', number: -0.5 },
        share: expect.closeTo(-0.5 / 60, 12),
      },
    ]);
  });

  test('errors and warnings stand beside it without its id', () => {
    const messages = row('P-1').remarks.map(({ message }) => message);
    expect(messages[0]).toMatch(/^supply\.draw in mode busy holds at its typical value/);
    expect(row('P-2').remarks).toEqual([]);
  });

  test('in a table keeps its Markdown in a cell; an open end has no figure; a text is a word', () => {
    expect(row('P-8').statement).toMatchObject({
      column: 1,
      text: 'The box shall be rated IP66 or better (`box.rating >= "IP66"`).',
    });
    expect(row('P-8').statement?.markdown[0]).toContain('| *IP66* or better'.slice(2));
    expect(row('P-8').criteria).toMatchObject([{ word: 'IP66', low: null, high: null, margin: null, share: null }]);
    expect(row('P-9').criteria).toMatchObject([{ low: { digits: '4', unit: 'A' }, high: null }]);
  });

  test('that is waived keeps its own verdict; that is not applicable needs no evidence', () => {
    expect(row('P-5')).toMatchObject({ verdict: 'waived', withoutWaiver: 'unmet' });
    const off = matrixOfFiles({
      'a.md':
        '---\nrequirements: A\nfacts: {fitted: no, a: 1 W}\n---\n## P-1 A\nWhere a radio is fitted (`fitted`), it shall draw at most 2 W (`a`).\n',
    });
    expect(off.requirements).toMatchObject([{ verdict: 'not applicable', evidence: null }]);
    expect(Object.values(off.coverage.evidence)).toEqual([0, 0, 0, 0, 0, 0, 0]);
  });

  test('whose id stands twice has a key of its own', () => {
    const text =
      '---\nrequirements: A\nfacts: {a: 1 W}\n---\n## P-1 A\n- Check: `a <= 2 W`\n\n## P-1 B\n- Check: `a <= 3 W`\n';
    const { requirements, facts } = matrixOfFiles({ 'a.md': text });
    expect(requirements.map(({ key }) => key)).toEqual(['P-1', 'P-1~2']);
    expect(facts[0]?.requirements.map(({ key }) => key)).toEqual(['P-1', 'P-1~2']);
  });
});

describe('turned round', () => {
  test('every figure names what rests on it, its place, and how far it may go', () => {
    const byName = new Map(MATRIX.facts.map((fact) => [fact.name, fact]));
    expect(byName.get('supply.rail')).toMatchObject({
      place: { file: 'design.md', line: 3 },
      value: '36 V to 57 V',
      source: 'bank data',
      allowed: 'min: to 36 V (P-2); max: from 57 V (P-2)',
      requirements: [{ key: 'P-2', verdict: 'met' }],
    });
    // Nothing that is met binds the mass, and P-6 asks for less of it.
    expect(byName.get('box.mass')?.allowed).toBe('P-6 needs ≤ 3 kg');
    expect(byName.get('total')).toMatchObject({ given: false, value: '24.8 EUR', allowed: '' });
    expect(byName.has('store.rate')).toBe(false);
  });

  test('every part names what rests on any of its fields', () => {
    expect(MATRIX.parts).toMatchObject([
      { name: 'parts.cam', label: 'Camera', fields: ['cost', 'quantity'], requirements: [{ id: 'P-7' }] },
      { name: 'parts.box', label: '', fields: ['cost'], requirements: [{ id: 'P-7' }] },
    ]);
  });

  test('agrees with the rows', () => {
    const pairs = (lists: readonly (readonly [string, readonly string[]])[]) =>
      lists.flatMap(([from, to]) => to.map((one) => `${from} ${one}`)).sort();
    const there = pairs(MATRIX.requirements.map(({ key, facts, parts }) => [key, [...facts, ...parts]]));
    const back = [...MATRIX.facts, ...MATRIX.parts].flatMap(({ name, requirements }) =>
      requirements.map(({ key }) => `${key} ${name}`),
    );
    expect(back.sort()).toEqual(there);
  });
});

test('open points have the owners of what waits for them', () => {
  expect(MATRIX.openPoints).toEqual([
    {
      message: 'box.torque is to be determined (housing team): P-4 is undecided',
      place: { file: 'design.md', line: 4 },
      owners: ['housing team'],
      requirements: [{ key: 'P-4', id: 'P-4', verdict: 'undecided' }],
    },
  ]);
  const provisional = matrixOfFiles({
    'a.md': '---\nrequirements: A\nfacts: {a: 1 W (TBR)}\n---\n## P-1 A\n- Check: `a <= 2 W`\n- Owner: A. Person\n',
  });
  expect(provisional.openPoints).toMatchObject([{ owners: ['A. Person'], requirements: [{ id: 'P-1' }] }]);
  expect(provisional.coverage.provisional).toBe(1);
});

test.each([
  ['to 97 EUR; first build; A. Person; until 2027-03-31', '97 EUR', 'in force'],
  ['to 97 EUR; first build; A. Person; until 2025-03-31', '97 EUR', 'over'],
  ['to 95 EUR; first build; A. Person; until 2027-03-31', '95 EUR', 'exceeded'],
  ['first build; A. Person; until 2027-03-31', '', 'not applied'],
  ['first build', '', 'not applied'],
])('a waiver %s is %s, %s', (words, extent, state) => {
  const files = {
    'a.md': `---\nrequirements: A\nfacts: {cost: 97 EUR}\n---\n## P-1 A\n- Check: \`cost <= 90 EUR\`\n- Waived: ${words}\n`,
  };
  expect(matrixOfFiles(files).waivers).toMatchObject([{ state, extent, requirement: { id: 'P-1' } }]);
});

test('a waiver that nothing needs is said to be so', () => {
  const files = {
    'a.md':
      '---\nrequirements: A\nfacts: {cost: 80 EUR}\n---\n## P-1 A\n- Check: `cost <= 90 EUR`\n- Waived: to 97 EUR; first build; A. Person; until 2027-03-31\n',
  };
  expect(matrixOfFiles(files).waivers).toMatchObject([{ state: 'not needed', problem: '' }]);
});

test('coverage counts every requirement once, and so do the documents together', () => {
  const { coverage, documents, requirements } = MATRIX;
  const sum = (counts: Readonly<Record<string, number>>) => Object.values(counts).reduce((all, one) => all + one, 0);
  expect(sum(coverage.verdicts)).toBe(requirements.length);
  expect(sum(coverage.evidence)).toBe(requirements.length - coverage.verdicts['not applicable']);
  expect(documents.reduce((all, document) => all + document.requirements, 0)).toBe(requirements.length);
  expect(coverage.verdicts).toMatchObject({ unmet: 1, 'at risk': 1, undecided: 1, open: 1, waived: 1, met: 4 });
});
