/** Allowed and needed ranges worked by hand: exact where a figure acts in a straight line, to a billionth elsewhere. */
import { describe, expect, test } from 'vitest';
import { allowedText, neededText, rangesIn, rangesInFiles } from './support';

const check = (...conditions: readonly string[]) =>
  conditions.map((condition, index) => `## P-${index + 1}\n- Check: \`${condition}\``).join('\n');

function allowed(facts: string, name: string, ...conditions: readonly string[]) {
  return allowedText(rangesIn(facts, check(...conditions)).figures, name);
}

function needed(facts: string, name: string, ...conditions: readonly string[]) {
  return neededText(rangesIn(facts, check(...conditions)).figures, name);
}

describe('allowed ranges in a straight line', () => {
  test.each([
    ['draw: 45 W', 'draw', ['draw <= 60 W'], 'open .. 60 [P-1]'],
    ['draw: 45 W', 'draw', ['draw < 60 W'], 'open .. < 60 [P-1]'],
    ['draw: 45 W', 'draw', ['draw >= 1 W', 'draw <= 60 W', 'draw <= 50 W'], '1 [P-1] .. 50 [P-3]'],
    ['draw: 45 W', 'draw', ['draw <= 60 W', 'draw <= 60 W and draw <= 70 W'], 'open .. 60 [P-1]'],
    ['x: 5 V', 'x', ['x within 4 V to 6 V'], '4 [P-1] .. 6 [P-1]'],
    ['x: 5 V', 'x', ['x = 5 V'], '5 [P-1] .. 5 [P-1]'],
    ['x: 5 V', 'x', ['x != 4 V', 'x != 7 V'], '> 4 [P-1] .. < 7 [P-2]'],
    // 2·x + y ≤ 20 with y = 4 ± 1: x ≤ (20 − 5)/2.
    ['x: 3\ny: 4 ± 1', 'x', ['2 * x + y <= 20'], 'open .. 7.5 [P-1]'],
    // The same, y moved whole: 6 + y·(1 + 1/4) ≤ 20 where its width is a quarter.
    ['x: 3\ny: 4 ± 25 %', 'y', ['2 * x + y <= 20'], 'open .. 11.2 [P-1]'],
    ['x: 3\ny: 4 ± 1', 'y', ['2 * x + y <= 20'], 'open .. 13 [P-1]'],
    ['x: 10', 'x', ['x - x / 4 <= 15'], 'open .. 20 [P-1]'],
    ['t: 25 °C ± 5 °C', 't', ['t <= 40 °C'], 'open .. 35 [P-1]'],
    [
      'cap: 8 TB\nrate: 12 Mbit/s +10 % / -0 %\nkept: = cap / (6 * rate)',
      'cap',
      ['kept >= 7 d'],
      '5.98752 [P-1] .. open',
    ],
  ])('%j: %s with %j', (facts, name, conditions, expected) => {
    expect(allowed(facts, name, ...conditions)).toBe(expected);
  });
});

describe('allowed ranges round a bend', () => {
  test.each([
    ['x: 2 to 3', 'x.max', ['x^2 - x <= 20'], '2 [x.min] .. 5 [P-1]'],
    ['x: 3', 'x', ['x^2 <= 16'], '-4 [P-1] .. 4 [P-1]'],
    ['x: 2.5', 'x', ['floor(x) <= 3'], 'open .. < 4 [P-1]'],
    ['x: 2', 'x', ['abs(x) <= 5'], '-5 [P-1] .. 5 [P-1]'],
    ['x: 2\ny: 3', 'x', ['max(x, y) <= 5'], 'open .. 5 [P-1]'],
    ['x: 2\ny: = if(x > 3, 10, 1)', 'x', ['y <= 5'], 'open .. 3 [P-1]'],
    ['x: 4', 'x', ['sqrt(x) <= 3', 'sqrt(x) >= 1'], '1 [P-2] .. 9 [P-1]'],
    ['x: 6\ny: 12', 'x', ['y / x >= 1.5'], '> 0 [P-1] .. 8 [P-1]'],
    // An efficiency between 0.88 and 0.92 feeds 44 W: 44 / (e − 0.02) ≤ 55.
    ['e: 0.9 ± 0.02', 'e', ['44 W / e <= 55 W', 'e <= 0.99'], '0.82 [P-1] .. 0.97 [P-2]'],
    ['x: 5', 'x', ['x >= 1 or x <= -1'], '1 [P-1] .. open'],
  ])('%j: %s with %j', (facts, name, conditions, expected) => {
    expect(allowed(facts, name, ...conditions)).toBe(expected);
  });
});

describe('each written end is moved alone, never past its neighbour', () => {
  const facts = 'v: 36 V to 57 V\nm: {min: 1 W, typ: 2 W, max: 4 W}';
  const { figures } = rangesIn(facts, check('v spans 40 V to 50 V', 'm <= 5 W', 'm.typ >= 1.5 W', 'm.max <= 4.5 W'));
  test.each([
    ['v.min', 'open .. 40 [P-1]'],
    ['v.max', '50 [P-1] .. open'],
    ['m.min', 'open .. 2 [m.typ]'],
    ['m.typ', '1.5 [P-3] .. 4 [m.max]'],
    ['m.max', '2 [m.typ] .. 4.5 [P-4]'],
  ])('%s', (name, expected) => expect(allowedText(figures, name)).toBe(expected));
});

describe('half-widths', () => {
  test('the widest that keeps what is met', () => {
    const { figures } = rangesIn('r: 10 W ± 5 %\ns: 3 W ± 0.5 W', check('r + s <= 15 W', 's >= 2 W'));
    expect(allowedText(figures, 'r', 'half-width')).toBe('0 .. 1.5 [P-1]');
    expect(allowedText(figures, 's', 'half-width')).toBe('0 .. 1 [P-2]');
  });

  test('the widest that would do', () => {
    const { figures } = rangesIn('rail: 3.3 V ± 4 %', check('rail within 3.2 V to 3.4 V'));
    expect(neededText(figures, 'rail', 'half-width')).toEqual(['P-1: 0 .. 0.1']);
  });
});

describe('steps', () => {
  test('choices: the furthest that is reached, the nearest that is needed', () => {
    const facts = 'cap: {value: 8 GiB, choices: [4 GiB, 8 GiB, 16 GiB, 32 GiB]}';
    expect(allowed(facts, 'cap', 'cap <= 20 GiB', 'cap >= 2 GiB')).toBe('4 .. 16 [P-1]');
    expect(needed(facts, 'cap', 'cap >= 12 GiB')).toEqual(['P-1: 16 .. 32']);
    expect(needed(facts, 'cap', 'cap >= 40 GiB')).toEqual(['P-1: not for itself']);
  });

  const table = (rows: string, ...conditions: readonly string[]) =>
    rangesInFiles({ 'product.md': `---\nrequirements: T\nparts:\n${rows}\n---\n${check(...conditions)}` }).figures;

  test('items come whole; a tolerance of each item counts', () => {
    const rows = '  - {id: cam, quantity: 6, power: 2 W ± 10 %}';
    const figures = table(rows, 'sum(power over parts) <= 20 W', 'count(parts) >= 4');
    expect(allowedText(figures, 'parts.cam.quantity')).toBe('4 [P-2] .. 9 [P-1]');
    // 6 · p · 1.1 ≤ 20.
    expect(allowedText(figures, 'parts.cam.power')).toBe('open .. 100/33 [P-1]');
  });

  test('what is needed of items', () => {
    const figures = table('  - {id: cam, quantity: 2}', 'count(parts) >= 4');
    expect(neededText(figures, 'parts.cam.quantity')).toEqual(['P-1: 4 .. open']);
  });

  test('a figure that decides which rows count is bound where one more or less would', () => {
    const rows = '  - {id: a, rate: 12}\n  - {id: b, rate: 15}';
    const figures = table(rows, 'count(parts where rate >= 10) >= 2', 'max(rate over parts) <= 20');
    expect(allowedText(figures, 'parts.a.rate')).toBe('10 [P-1] .. 20 [P-2]');
  });

  test('one that decides whether a requirement applies', () => {
    const facts = 'n: 5\nx: 3';
    const { figures } = rangesIn(facts, '## P-1\n- Check: `x <= 4`\n- Applies when: `n >= 2`');
    expect(allowedText(figures, 'n')).toBe('2 [P-1] .. open');
  });
});

describe('needed ranges', () => {
  test.each([
    ['draw: 65 W\nbase: 5 W', 'draw', ['draw + base <= 60 W', 'base >= 1 W'], ['P-1: open .. 55']],
    ['draw: 65 W\nbase: 5 W', 'base', ['draw + base <= 60 W', 'base >= 1 W'], ['P-1: not for P-2']],
    ['a: 5\nb: 9', 'a', ['a >= 6 and b <= 8'], ['P-1: not for itself']],
    ['x: 1', 'x', ['x > 2', 'x < 4'], ['P-1: > 2 .. < 4']],
    ['x: 5 V ± 10 %', 'x', ['x <= 5.2 V'], ['P-1: open .. 52/11']],
    ['e: 0.9 ± 0.02\nload: 50 W', 'e', ['load / e <= 50 W', 'e <= 0.99'], ['P-1: not for P-2']],
    ['e: 0.9 ± 0.02\nload: 50 W', 'load', ['load / e <= 50 W'], ['P-1: open .. 44']],
    ['x: 3', 'x', ['x^2 >= 16'], ['P-1: 4 .. open']],
    // A requirement that stays undecided whatever the figure is cannot be met by it.
    ['x: 3\ny: TBD', 'x', ['x >= 4', 'x <= 2 and y <= 1'], ['P-1: 4 .. open', 'P-2: not for itself']],
  ])('%j: %s with %j', (facts, name, conditions, expected) => {
    expect(needed(facts, name, ...conditions)).toEqual(expected);
  });

  test('of one requirement the nearest first', () => {
    const { needed: byRequirement } = rangesIn('a: 10\nb: 40\nc: 2', check('a + b + c <= 50'));
    const [list = []] = [...byRequirement.values()];
    expect(list.map(({ figure }) => figure.name)).toEqual(['b', 'a', 'c']);
  });
});

describe('what is not shown is not said', () => {
  test('a figure of which only undecided requirements speak has no range', () => {
    const { figures } = rangesIn('x: 3\ny: TBD', check('x + y <= 4'));
    expect(figures.find(({ figure }) => figure.name === 'x')).toMatchObject({ allowed: null, undecided: ['P-1'] });
  });

  test('one of several is shown beside it', () => {
    const { figures } = rangesIn('x: 3\ny: TBD', check('x + y <= 4', 'x <= 5'));
    expect(allowedText(figures, 'x')).toBe('open .. 5 [P-2]');
    expect(figures.find(({ figure }) => figure.name === 'x')?.undecided).toEqual(['P-1']);
  });

  test('an end of a computed figure', () => {
    expect(allowed('a: 2 A ± 10 %\nload: = a + 1 A', 'a', 'load.max <= 6 A')).toBe('?');
  });
});

describe('under root sum square, the furthest place at which it still holds, to a billionth', () => {
  const judged = (facts: string, condition: string, name: string, movement?: 'half-width') => {
    const { figures } = rangesIn(facts, `## P-1\n- Check: \`${condition}\`\n- Judge by: rss`);
    const text = allowedText(figures, name, movement);
    const [, numerator = text, denominator = '1'] = / ([\d.]+)(?:\/(\d+))? \[P-1\]$/.exec(text) ?? [];
    return Number(numerator) / Number(denominator);
  };
  test.each([
    // a + 5 + √(0.1² + 0.1²) ≤ 10.15.
    ['a: 5 ± 0.1\nb: 5 ± 0.1', 'a + b <= 10.15', 'a', undefined, 5.15 - Math.sqrt(0.02)],
    // v·(2 + √((2 × 2 %)² + (1 × 0.1)²)) ≤ 10.6; the worst case, 10.71, is past it already.
    ['v: 5 ± 2 %\ni: 2 ± 5 %', 'v * i <= 10.6', 'v', undefined, 10.6 / (2 + Math.hypot(0.04, 0.1))],
    ['v: 5 ± 2 %\ni: 2 ± 5 %', 'v * i <= 10.6', 'i', undefined, 10.6 / (5 + Math.hypot(0.1, 0.25))],
    // 10 + √((2w)² + (5 × 0.1)²) ≤ 10.6.
    ['v: 5 ± 2 %\ni: 2 ± 5 %', 'v * i <= 10.6', 'v', 'half-width', Math.sqrt(0.36 - 0.25) / 2],
  ] as const)('%j: %s, %s', (facts, condition, name, movement, expected) => {
    expect(judged(facts, condition, name, movement)).toBeCloseTo(expected, 8);
  });
});

describe('ranges through divisors, where others decide the slope', () => {
  const SUPPLY = [
    'a: 2 W ± 10 %',
    'b: 6 W',
    'e: 0.8 ± 0.05',
    'p: 100 W ± 5 %',
    'draw: = (a + b) / e',
    'hours: = draw * 24 h / p',
  ].join('\n');
  test.each([
    // (2.2 + b) / 0.75 ≤ 12.
    ['b', 'draw <= 12 W', 'open .. 6.8 [P-1]'],
    // 8.2 / (e − 0.05) ≤ 12.
    ['e', 'draw <= 12 W', '11/15 [P-1] .. open'],
    // (1.1 a + 6) / 0.75 ≤ 12.
    ['a', 'draw <= 12 W', 'open .. 30/11 [P-1]'],
    // (2.2 + b) / 0.75 × 24 h / 95 W ≤ 3 h.
    ['b', 'hours <= 3 h', 'open .. 6.70625 [P-1]'],
    // 8.2 / (e − 0.05) × 24 h / 95 W ≤ 3 h.
    ['e', 'hours <= 3 h', '1407/1900 [P-1] .. open'],
    // 8.2 / 0.75 × 24 h / (0.95 p) ≤ 3 h.
    ['p', 'hours <= 3 h', '5248/57 [P-1] .. open'],
  ])('%s under %s', (name, condition, expected) => expect(allowed(SUPPLY, name, condition)).toBe(expected));
});

test('items of rows that a condition surely selects', () => {
  const rows = ['  - {id: p, quantity: 2, power: 5 W ± 1 W}', '  - {id: q, quantity: 3, power: 1 W}'];
  const text = ['---', 'requirements: T', 'parts:', ...rows, '---', check('count(parts where power >= 0.5 W) >= 4')];
  const { figures } = rangesInFiles({ 'product.md': text.join('\n') });
  expect(allowedText(figures, 'parts.q.quantity')).toBe('2 [P-1] .. open');
  expect(allowedText(figures, 'parts.p.power')).toBe('1.5 [P-1] .. open');
});

test.each([
  ['x <= 90 W', 'to 97 W', 'open .. 97 [P-1]'],
  ['x < 90 W', 'to 97 W', 'open .. 97 [P-1]'],
  ['x >= 99 W', 'to 90 W', '90 [P-1] .. open'],
  ['x within 80 W to 90 W', 'to 70 W to 97 W', '70 [P-1] .. 97 [P-1]'],
])('a waived requirement, %s, binds where what was granted ends: %s', (condition, extent, expected) => {
  const text = `${check(condition)}\n- Waived: ${extent}; first build; A. Person; until 2030-01-01`;
  expect(allowedText(rangesIn('x: 95 W', text).figures, 'x')).toBe(expected);
});

test('goals bind; what is only permitted or stated does not', () => {
  const text = 'The unit should draw no more than 60 W (`x`).';
  expect(allowedText(rangesIn('x: 5 W', `## P-1\n${text}`).figures, 'x')).toBe('open .. 60 [P-1]');
  expect(allowedText(rangesIn('x: 5 W', `## P-1\n${text.replace('should', 'will')}`).figures, 'x')).toBe(
    'open .. open',
  );
});

test('facts that nothing rests on', () => {
  const { unused } = rangesIn('a: 1\nb: 2\nc: = b\nd: "text"', check('a <= 3'));
  expect(unused.map(({ name }) => name)).toEqual(['b', 'd']);
});
