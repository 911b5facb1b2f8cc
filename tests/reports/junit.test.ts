/** `check --format junit`: XML that parses, whatever stands in a document, and in which nothing unproved passes. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { convert } from 'xmlbuilder2';
import { junitXml } from '../../server/reports/junit';
import { analyseFiles, analyseText } from '../support/analyse';

const SETTINGS = { prefix: 'p/', failOn: 'error', incomplete: false } as const;

interface Case {
  readonly '@name': string;
  readonly failure?: { readonly '@message': string; readonly '#': string };
  readonly error?: { readonly '@message': string };
  readonly skipped?: { readonly '@message': string };
  readonly 'system-out'?: string;
}

function parsed(xml: string) {
  const { testsuites } = convert(xml, { format: 'object' }) as unknown as { readonly testsuites: Suites };
  const suites = listOf<Suites & { readonly testcase: unknown }>(testsuites.testsuite);
  return { totals: testsuites, suites, cases: suites.flatMap(({ testcase }) => listOf<Case>(testcase)) };
}

interface Suites {
  readonly testsuite?: unknown;
}

function listOf<Item>(value: unknown): readonly Item[] {
  return value === undefined ? [] : Array.isArray(value) ? value : [value as Item];
}

function outcomeOf(one: Case): string {
  if (one.failure) return 'failed';
  if (one.error) return 'error';
  return one.skipped ? `skipped: ${one.skipped['@message']}` : 'passed';
}

const FACTS = 'good: 1 W\nbad: 3 W\nloose: 1.9 W ± 10 %\nnone: TBD';
const REQUIREMENTS = ['good', 'bad', 'loose', 'none']
  .map((name, index) => `## P-${index + 1} ${name}\nIt shall draw at most 2 W (\`${name}\`).\n`)
  .concat('## P-5 seen\nIt shall be green.\n')
  .join('\n');

test('a case a requirement: only what is met passes', () => {
  const { cases, totals, suites } = parsed(junitXml(analyseText(FACTS, REQUIREMENTS), 'Test', SETTINGS));
  expect(cases.map((one) => [one['@name'], outcomeOf(one)])).toEqual([
    ['P-1 good', 'passed'],
    ['P-2 bad', 'failed'],
    ['P-3 loose', 'skipped: at risk'],
    ['P-4 none', 'skipped: undecided'],
    ['P-5 seen', 'skipped: open'],
  ]);
  expect(totals).toMatchObject({
    '@name': 'Test',
    '@tests': '5',
    '@failures': '1',
    '@errors': '0',
    '@skipped': '3',
  });
  expect(suites).toMatchObject([{ '@name': 'product.md', '@tests': '5', '@failures': '1', '@skipped': '3' }]);
  expect(cases[1]).toMatchObject({ '@classname': 'product.md', '@file': 'p/product.md', '@line': '12' });
  expect(cases[1]?.failure?.['@message']).toContain('bad is 3 W, 1 W above');
  // The parser leaves character references as they are written.
  expect(cases[0]?.['system-out']).toContain('good &lt;= 2 W: 1 W, margin 1 W');
});

test('what fails the check fails its case', () => {
  const { cases } = parsed(junitXml(analyseText(FACTS, REQUIREMENTS), 'Test', { ...SETTINGS, failOn: 'warning' }));
  expect(outcomeOf(cases[2] as Case)).toBe('failed');
});

test('findings of no requirement, and input that could not be read, are cases of their own', () => {
  const files = { 'a.md': '---\nrequirements: A\nfacts: {a: 1 W, a: 2 W}\n---\n' };
  const { cases } = parsed(junitXml(analyseFiles(files), 'A', { ...SETTINGS, incomplete: true }));
  expect(cases.map((one) => [one['@name'], outcomeOf(one)])).toEqual([
    ['findings of no requirement', 'failed'],
    ['input that could not be read', 'error'],
  ]);
});

test('nothing in a document breaks the XML (XML 1.0, 2.2 and 2.4)', () => {
  const hostile = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.constantFrom(']]>', '<script>alert(1)</script>', '"\u0000\u0008\ufffe', '\ud800', '&#0;'),
  );
  fc.assert(
    fc.property(hostile, (text) => {
      const title = text.replace(/[\n\r]/g, ' ');
      const xml = junitXml(analyseText('bad: 3 W', `## P-1 ${title}\n- Check: \`bad <= 2 W\`\n`), text, SETTINGS);
      expect([...xml].filter((character) => !isXmlCharacter(character.codePointAt(0) ?? 0))).toEqual([]);
      const { cases } = parsed(xml);
      for (const one of cases) expect(one['@name']).toMatch(/^P-1|^findings of/);
    }),
    { numRuns: 20 },
  );
});

/** XML 1.0, production 2. */
function isXmlCharacter(code: number): boolean {
  if (code < 0x20) return code === 0x9 || code === 0xa || code === 0xd;
  return code <= 0xd7ff || (code >= 0xe000 && code <= 0xfffd) || code >= 0x10000;
}
