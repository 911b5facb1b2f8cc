/** Designs that no one would write by hand: long chains, great tables, wide circles, names of the machine's own. */
import { describe, expect, test } from 'vitest';
import { analyseFiles, analyseText, verdictsOf } from '../support/analyse';
import { processorTime } from '../support/processor-time';

/** Far above what they take here, far below a pause that anyone would accept. */
const SECONDS = 1_000;

function timed<Result>(limit: number, work: () => Result): Result {
  const start = processorTime();
  const result = work();
  expect(processorTime() - start).toBeLessThan(limit);
  return result;
}

const codesOf = ({ findings }: ReturnType<typeof analyseText>) => new Set(findings.map(({ code }) => code));
const numbers = (count: number) => Array.from({ length: count }, (_, index) => index);

describe('great tables', () => {
  const rows = (count: number, row: (index: number) => string) =>
    [
      '---',
      'requirements: Test',
      'parts:',
      ...numbers(count).map((index) => `  - {id: p${index}, ${row(index)}}`),
      '---',
    ].join('\n');

  test('10,000 rows with a sum, an all and a count', () => {
    const text = `${rows(10_000, (index) => `power: ${index % 7} mW, role: r${index % 3}`)}
## H-1
- Check: \`sum(power over parts) <= 30 W\`
## H-2
- Check: \`all(power <= 6 mW over parts)\`
## H-3
- Check: \`count(parts where role = "r1") = 3333\`
## H-4
- Check: \`max(power over parts) = 6 mW\``;
    expect(verdictsOf(timed(8 * SECONDS, () => analyseFiles({ 'a.md': text })))).toEqual({
      'H-1': 'met',
      'H-2': 'met',
      'H-3': 'met',
      'H-4': 'met',
    });
  });

  test('500 rows that each move on their own', () => {
    const text = `${rows(500, () => 'power: 1 mW ± 10 %')}
## H-1
- Check: \`sum(power over parts) <= 0.55 W\`
## H-2
- Check: \`sum(power over parts) <= 0.549 W\``;
    expect(verdictsOf(timed(8 * SECONDS, () => analyseFiles({ 'a.md': text })))).toEqual({
      'H-1': 'met',
      'H-2': 'at risk',
    });
  });

  test('a row past the 10,000th is refused, not read in part', () => {
    const result = timed(8 * SECONDS, () =>
      analyseFiles({ 'a.md': `${rows(10_001, () => 'power: 1 mW')}\n## H-1\n- Check: \`count(parts) = 10001\`` }),
    );
    expect(codesOf(result)).toContain('too-large');
    expect(verdictsOf(result)).toEqual({ 'H-1': 'undecided' });
  });

  test('300 rows without the field are one to read', () => {
    const text = `${rows(300, (index) => (index === 0 ? 'power: 1 mW' : 'cost: 1 EUR'))}
## H-1
- Check: \`sum(power over parts) <= 2.2 W\``;
    const result = timed(8 * SECONDS, () => analyseFiles({ 'a.md': text }));
    expect(verdictsOf(result)).toEqual({ 'H-1': 'undecided' });
    expect(result.findings.filter(({ code }) => code === 'no-value')).toHaveLength(1);
  });
});

describe('long chains', () => {
  const chain = (count: number, first: string, step: string) =>
    [`a0: ${first}`, ...numbers(count - 1).map((index) => `a${index + 1}: ${step.replace('@', `a${index}`)}`)].join(
      '\n',
    );

  test('10,000 derived facts, written from the far end', () => {
    const lines = chain(10_000, '1 W', '= @ + 1 W').split('\n').reverse().join('\n');
    const result = timed(8 * SECONDS, () => analyseText(lines, '## H-1\n- Check: `a9999 = 10000 W`'));
    expect(verdictsOf(result)).toEqual({ 'H-1': 'met' });
  });

  test('1,000 derived facts over one with a tolerance', () => {
    const result = timed(8 * SECONDS, () =>
      analyseText(chain(1_000, '1 W ± 10 %', '= @ + 1 W'), '## H-1\n- Check: `a999 <= 1000.1 W`'),
    );
    expect(verdictsOf(result)).toEqual({ 'H-1': 'met' });
  });

  test('a chain through modes, through ends and through rows', () => {
    const count = 1_500;
    const step = (index: number, name: string) => (index === 0 ? '1 W' : `= ${name.replace('@', String(index - 1))}`);
    const facts = numbers(count).flatMap((index) => [
      `  m${index}: {day: ${step(index, 'm@')}, night: 2 W}`,
      `  e${index}: {min: ${index === 0 ? '1 W' : `= e${index - 1}.min`}, max: 5 W}`,
    ]);
    const parts = numbers(count).map((index) => `  - {id: p${index}, v: ${step(index, 'parts.p@.v')}}`);
    const text = ['---', 'requirements: Test', 'facts:', ...facts, 'parts:', ...parts, '---'].join('\n');
    const last = count - 1;
    const checks = `\n## H-1\n- Check: \`m${last} <= 2 W\`\n## H-2\n- Check: \`e${last}.min = 1 W\`\n## H-3\n- Check: \`parts.p${last}.v = 1 W\``;
    const result = timed(15 * SECONDS, () =>
      analyseFiles({ 'plimsoll.yaml': 'modes: [day, night]', 'a.md': text + checks }),
    );
    expect(verdictsOf(result)).toEqual({ 'H-1': 'met', 'H-2': 'met', 'H-3': 'met' });
  });

  test('doubling 1,000 times ends at the digits that a figure may have', () => {
    const result = timed(8 * SECONDS, () =>
      analyseText(chain(1_000, '2 ± 1', '= @ * @'), '## H-1\n- Check: `a999 <= 1`'),
    );
    expect(verdictsOf(result)['H-1']).not.toBe('met');
  });
});

describe('circles', () => {
  test('of 1,000 facts is one finding', () => {
    const lines = numbers(1_000).map((index) => `a${index}: = a${(index + 1) % 1_000} + 1 W`);
    const result = timed(8 * SECONDS, () => analyseText(lines.join('\n'), '## H-1\n- Check: `a500 <= 1 W`'));
    expect(verdictsOf(result)).toEqual({ 'H-1': 'undecided' });
    const cycles = result.findings.filter(({ code }) => code === 'cycle');
    expect(cycles).toHaveLength(1);
    expect(cycles[0]?.message.length).toBeLessThan(300);
  });

  test('each of 100 facts rests on all others', () => {
    const names = numbers(100).map((index) => `a${index}`);
    const lines = names.map((name) => `${name}: = ${names.filter((other) => other !== name).join(' + ')}`);
    const result = timed(8 * SECONDS, () => analyseText(lines.join('\n'), '## H-1\n- Check: `a7 <= 1 W`'));
    expect(verdictsOf(result)).toEqual({ 'H-1': 'undecided' });
  });
});

describe('figures past every size', () => {
  test.each([
    '1e99 ^ 64 ^ 64 ^ 64',
    '(1e99 ^ 64) ^ 64',
    `1e99 ^ 64${' * 1e99 ^ 64'.repeat(200)}`,
    `(1e-99 ^ 64)${' / 1e99 ^ 64'.repeat(200)}`,
    'exp(exp(exp(9)))',
    'sqrt(1e99 ^ 41)',
    '1 / 3 ^ 64 / 7 ^ 64 / 11 ^ 64 / 13 ^ 64 / 17 ^ 64',
    '10 ^ -64 ^ 64',
  ])('%s', (expression) => {
    const result = timed(8 * SECONDS, () => analyseText(`a: = ${expression}`, '## H-1\n- Check: `a <= 1e98`'));
    expect(codesOf(result)).not.toContain('internal');
  });

  test('a wide sum of fractions that have nothing in common', () => {
    const primes = numbers(2_000).filter((n) => n > 1 && numbers(63).every((d) => d < 2 || d === n || n % d !== 0));
    const sum = primes.map((prime) => `1 / ${prime}`).join(' + ');
    const result = timed(8 * SECONDS, () => analyseText(`a: = ${sum}`, '## H-1\n- Check: `a <= 3`'));
    expect(codesOf(result)).not.toContain('internal');
  });
});

describe('long texts', () => {
  test.each([
    ['a line of 2 MB of words', 'word '.repeat(400_000)],
    ['a line of 2 MB without a space', 'x'.repeat(2_000_000)],
    ['a line of 2 MB of figures', '5 V '.repeat(500_000)],
    ['a line of 2 MB of limits', 'at most 5 V, '.repeat(150_000)],
    ['a line of code spans', '`a` '.repeat(500)],
  ])('%s in a requirement', (_, line) => {
    const result = timed(15 * SECONDS, () => analyseText('a: 5 V', `## H-1\nIt shall be at most 6 V (\`a\`). ${line}`));
    expect(codesOf(result)).not.toContain('internal');
  });

  test.each([
    ['digits', '9'.repeat(900_000)],
    ['a text', 'x'.repeat(900_000)],
    ['an expression', `= a${' + a'.repeat(200_000)}`],
    ['brackets', `= ${'('.repeat(900_000)}`],
    ['a list', `[${'5 V, '.repeat(20_000)}5 V]`],
  ])('%s as a value', (_, value) => {
    const result = timed(15 * SECONDS, () => analyseText(`a: 5 V\nb: ${value}`, '## H-1\n- Check: `a <= 5 V`'));
    expect(codesOf(result)).not.toContain('internal');
    expect(verdictsOf(result)).toEqual({ 'H-1': 'met' });
  });

  test('300 requirements over one fact', () => {
    const text = numbers(300).map((index) => `## H-${index}\nIt shall be at most ${index + 6} V (\`a\`).\n`);
    const result = timed(15 * SECONDS, () => analyseText('a: 5 V', text.join('\n')));
    expect(new Set(Object.values(verdictsOf(result)))).toEqual(new Set(['met']));
  });
});

describe('names of the machine', () => {
  test.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf', '__defineGetter__'])(
    '%s is a name as any other',
    (name) => {
      const text = `---
requirements: Test
facts:
  ${name}: 5 V
  outer: {${name}: 6 V, next: = ${name}}
parts:
  - {id: ${name}, ${name}: 7 V}
---
## H-1
It shall be at most 5 V (\`${name}\`).
## H-2
- Check: \`outer.next = 6 V and parts.${name}.${name} = 7 V and sum(${name} over parts) = 7 V\`
## H-3
- Check: \`count(parts where id = "${name}") = 1\``;
      const configuration = `severity: {unmet: warning}\nscales: {${name}: [low, high]}\ntotals: {${name}: "= outer.next"}`;
      const result = analyseFiles({ 'plimsoll.yaml': configuration, 'a.md': text });
      expect(verdictsOf(result)).toEqual({ 'H-1': 'met', 'H-2': 'met', 'H-3': 'met' });
    },
  );

  test('as a mode, a unit, an option', () => {
    const configuration = 'modes: [constructor, toString]\nunits: {valueOf: 2 V}\nchoose: {constructor: toString}';
    const text =
      '---\nrequirements: Test\nfacts: {a: {constructor: 1 valueOf, toString: 4 V}}\n---\n## H-1\n- Check: `a.constructor = 2 V`';
    const option = '---\noption: toString\nof: constructor\nfacts: {b: 1 V}\n---';
    const result = analyseFiles({ 'plimsoll.yaml': configuration, 'a.md': text, 'b.md': option });
    expect(verdictsOf(result)).toEqual({ 'H-1': 'met' });
    expect(result.findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

describe('chains whose figures grow longer with each link', () => {
  const chain = (count: number, link: (index: number) => string, given = '') =>
    [
      '---',
      'requirements: Test',
      'facts:',
      ...(given === '' ? [] : [`  ${given}`]),
      '  c0: 1 W ± 1 %',
      ...numbers(count).map((index) => `  c${index + 1}: = ${link(index)}`),
      '---',
      '## H-1',
      `- Check: \`c${count} <= 5 W\``,
    ].join('\n');
  const judged = (text: string) => verdictsOf(timed(20 * SECONDS, () => analyseFiles({ 'a.md': text })))['H-1'];

  test('factors past 4,096 digits are refused where they arise', () => {
    const text = chain(2_000, (index) => `c${index} * 1.0001 + c${index}`);
    expect(codesOf(timed(20 * SECONDS, () => analyseFiles({ 'a.md': text })))).toContain('too-large');
  });

  test('thirds of sevenths', () => {
    expect(judged(chain(800, (index) => `c${index} / 7 + c${index} / 3`))).toBe('met');
  });

  test('products with one figure that has a spread', () => {
    expect(judged(chain(60, (index) => `c${index} * a`, 'a: 1.0001 ± 1 %'))).toBe('met');
  });

  test('choices that rest on choices', () => {
    const text = chain(15, (index) => `if(c${index} > ${index} W, c${index} * 0.9, c${index} + 1.01 W)`);
    expect(judged(text)).toBe('unmet');
  });
});
