/** Contradictions against a search of all small values, and how their work grows. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseText } from '../../support/analyse';

const RELATIONS = ['>=', '>', '<=', '<', '=', '!='] as const;

/** `a ∘ n` with halves of whole numbers between the limits, so that strict ends leave something between them. */
const HALVES = Array.from({ length: 21 }, (_, index) => index / 2 - 2);

function holds(relation: string, value: number, limit: number): boolean {
  switch (relation) {
    case '>=':
      return value >= limit;
    case '>':
      return value > limit;
    case '<=':
      return value <= limit;
    case '<':
      return value < limit;
    case '=':
      return value === limit;
    default:
      return value !== limit;
  }
}

const criteria = fc.array(fc.tuple(fc.constantFrom(...RELATIONS), fc.integer({ min: 0, max: 5 })), {
  minLength: 1,
  maxLength: 6,
});

function contradictionsOf(checks: readonly string[]) {
  const text = checks.map((check, index) => `## P-${index + 1}\n- Check: \`${check}\``).join('\n');
  return analyseText('a: 1\nb: 2', text).findings.filter(({ code }) => code === 'contradiction');
}

describe('limits on one figure', () => {
  test('are found exactly when no value satisfies them all', () => {
    fc.assert(
      fc.property(criteria, (limits) => {
        const found = contradictionsOf(limits.map(([relation, limit]) => `a ${relation} ${limit}`));
        const isPossible = HALVES.some((value) => limits.every(([relation, limit]) => holds(relation, value, limit)));
        expect(found.length === 0).toBe(isPossible);
      }),
      { numRuns: 60 },
    );
  });

  test('stand on the later one, and the first of two is never found', () => {
    const found = contradictionsOf(['a <= 1', 'b >= 9', 'a >= 2', 'a >= 3', 'b <= 9']);
    expect(found.map(({ requirement }) => requirement)).toEqual(['P-3', 'P-4']);
    expect(found.map(({ related }) => related.length)).toEqual([1, 1]);
  });

  test('an end between two whole numbers is an end', () => {
    expect(contradictionsOf(['a > 2', 'a < 2.5'])).toEqual([]);
    expect(contradictionsOf(['a > 2', 'a <= 2'])).toHaveLength(1);
  });
});

describe('which of them bind', () => {
  const severities = (first: string, second: string) =>
    analyseText('a: 1', `## P-1\n${first}\n- Check: \`a <= 1\`\n## P-2\n${second}\n- Check: \`a >= 2\``)
      .findings.filter(({ code }) => code === 'contradiction')
      .map(({ severity }) => severity);

  test.each([
    ['', '', 'error'],
    ['- Priority: must', '', 'error'],
    ['- Priority: should', '', 'warning'],
    ['', '- Priority: should', 'warning'],
    ['', '- Priority: could', 'information'],
    ['It should be small.\n', '', 'warning'],
  ])('“%s” and “%s”: %s', (first, second, severity) => expect(severities(first, second)).toEqual([severity]));

  test('a goal that is stricter does not hide what binds', () => {
    const text = '## P-1\n- Check: `a <= 5`\n## P-2\n- Priority: should\n- Check: `a <= 4`\n## P-3\n- Check: `a >= 6`';
    const [only] = analyseText('a: 1', text).findings.filter(({ code }) => code === 'contradiction');
    expect(only?.severity).toBe('error');
    expect(only?.message).toContain('(P-1)');
  });
});

test('three hundred limits on one figure are held against the strictest, not against each other', () => {
  const found = contradictionsOf(['a <= 1', ...Array.from({ length: 300 }, (_, index) => `a >= ${index + 2}`)]);
  expect(found).toHaveLength(300);
  expect(found.every(({ related }) => related.length === 1)).toBe(true);
});
