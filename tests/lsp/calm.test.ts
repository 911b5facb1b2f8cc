/** What is told once a document in an editor, and in full everywhere else. */
import { expect, test } from 'vitest';
import { calm } from '../../server/lsp/calm';
import { analyseFiles } from '../support/analyse';

const product = (configuration: string) => {
  const facts = ['a', 'b', 'c'].map((name) => `  ${name}: 1 W`).join('\n');
  const text = `---\nrequirements: P\nfacts:\n${facts}\n---\n## P-1 X\nIt shall draw at most 5 W (\`a + b + c\`).\n`;
  return analyseFiles({ 'plimsoll.yaml': configuration, 'p.md': text });
};
const ofFile = (configuration: string) => product(configuration).byFile.get('p.md') ?? [];
const sources = (findings: ReturnType<typeof ofFile>) => findings.filter(({ code }) => code === 'no-source');

test('figures without a source are one diagnostic that leads to each', () => {
  const findings = ofFile('');
  expect(sources(findings)).toHaveLength(3);
  const [only, ...others] = sources(calm(findings));
  expect(others).toEqual([]);
  expect(only?.message).toBe('3 figures decide requirements, and nothing says where they come from: a, b, c');
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
