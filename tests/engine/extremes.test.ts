/** Worst cases at their edges: open ends, and rows of no items. */
import { expect, test } from 'vitest';
import { analyseFiles, analyseText, verdictsOf } from '../support/analyse';

test.each([
  ['x: {min: 2}', 'undecided'],
  ['x: {typ: 2, min: 2}', 'undecided'],
  ['x: {min: 2, max: 5}', 'met'],
  ['x: {min: 2, max: 6}', 'unmet'],
])('an open end of a figure that is used twice shows nothing: %s', (facts, verdict) => {
  expect(verdictsOf(analyseText(facts, '## P-1\n- Check: `x^2 - x <= 20`'))).toEqual({ 'P-1': verdict });
});

test('no items weigh nothing, whatever their tolerance', () => {
  const rows = '  - {id: a, mass: 3 g ± 10 %, quantity: 0}\n  - {id: b, mass: 2 g}';
  const text = `---\nrequirements: T\nparts:\n${rows}\n---\n## P-1\n- Check: \`sum(mass over parts) <= 2 g\``;
  expect(verdictsOf(analyseFiles({ 'product.md': text }))).toEqual({ 'P-1': 'met' });
});
