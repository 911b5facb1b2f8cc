/** What is told once a document in an editor, and in full everywhere else. */
import { expect, test } from 'vitest';
import { calm } from '../../server/lsp/calm';
import { analyseFiles } from '../support/analyse';

const requirement = (name: string) => `## P-1 X\nIt shall draw at most 5 W (\`${name}\`).\n`;
const product = (configuration: string) => {
  const facts = ['a', 'b', 'c'].map((name) => `  ${name}: 1 W`).join('\n');
  const text = `---\nrequirements: P\nfacts:\n${facts}\n---\n${requirement('a + b + c')}`;
  return analyseFiles({ 'plimsoll.yaml': configuration, 'p.md': text });
};
const ofFile = (configuration: string) => product(configuration).byFile.get('p.md') ?? [];
const sources = (findings: ReturnType<typeof ofFile>) => findings.filter(({ code }) => code === 'no-source');

test('figures without a source are one diagnostic that leads to each', () => {
  const findings = ofFile('');
  expect(sources(findings)).toHaveLength(3);
  const [only, ...others] = sources(calm(findings));
  expect(others).toEqual([]);
  expect(only?.message).toBe(
    '3 figures decide requirements, and nothing says where they come from: a, b, c; write {value: …, source: "…"}',
  );
  expect(only?.related.map(({ place }) => place.span)).toEqual(sources(findings).map(({ place }) => place.span));
  expect(calm(findings)).toHaveLength(findings.length - 2);
});

test('where somebody made them severe, each is told', () => {
  const findings = ofFile('severity: {no-source: warning}\n');
  expect(calm(findings)).toEqual(findings);
  expect(sources(findings)).toHaveLength(3);
});

test('one alone says what it always says', () => {
  const [first] = sources(ofFile(''));
  expect(calm(first === undefined ? [] : [first])).toEqual([first]);
});

test('rows and figures are mended in different ways, and each is said once', () => {
  const rows = '- {id: soc, power: 1 W}\n  - {id: cam, power: 1 W}';
  const text = `---\nrequirements: P\nfacts: {a: 1 W}\nparts:\n  ${rows}\n---\n${requirement('a + sum(power over parts)')}`;
  const found = sources(calm(analyseFiles({ 'p.md': text }).byFile.get('p.md') ?? []));
  expect(found.map(({ message }) => message)).toEqual([
    '3 figures decide requirements, and nothing says where they come from: a, parts.soc, parts.cam; ' +
      'write {value: …, source: "…"}, or a field source: "…"',
  ]);
});

test('however many there are, the mend is said after the first names', () => {
  const names = Array.from({ length: 30 }, (_, index) => `supply.branch-${index}`);
  const facts = names.map((name) => `  ${name}: 0.1 W`).join('\n');
  const text = `---\nrequirements: P\nfacts:\n${facts}\n---\n${requirement(names.join(' + '))}`;
  const [only] = sources(calm(analyseFiles({ 'p.md': text }).byFile.get('p.md') ?? []));
  expect(only?.message).toMatch(/supply\.branch-3 and 26 more; write \{value: …, source: "…"\}$/);
});
