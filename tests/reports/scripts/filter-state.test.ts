/** What a reader narrows the matrix down to: in the address and back, and which rows are left. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { EVERYTHING, fragmentOfState, isShown, stateOfFragment } from '../../../server/reports/scripts/filter-state';
import { inOrderOf, type MatrixElement } from '../../../server/reports/scripts/matrix-rows';

const ROW = { verdict: 'at risk', evidence: 'planned', document: 'a.md', text: () => 'trn-031 draw of the recorder' };

describe('the address', () => {
  test('says what is asked for, and nothing where that is everything', () => {
    expect(fragmentOfState(EVERYTHING)).toBe('');
    const state = { ...EVERYTHING, verdicts: ['unmet', 'at risk'], text: 'a&b=c', sort: 'margin', down: true };
    expect(fragmentOfState(state)).toBe('#verdict=unmet%2Cat+risk&text=a%26b%3Dc&sort=margin&order=down');
  });

  test('is read back as it was written', () => {
    const words = fc.array(fc.constantFrom('unmet', 'at risk', 'met'));
    const states = fc.record({
      verdicts: words,
      evidence: words,
      document: fc.string(),
      text: fc.string(),
      sort: fc.constantFrom('id', 'margin'),
      down: fc.boolean(),
    });
    fc.assert(
      fc.property(states, (state) => {
        expect(stateOfFragment(fragmentOfState(state))).toEqual(state);
      }),
    );
  });

  test('of an anchor asks for nothing', () => {
    expect(stateOfFragment('#r-TRN-031')).toBeNull();
    expect(stateOfFragment('')).toEqual(EVERYTHING);
  });
});

describe('a row is shown', () => {
  test.each([
    [{}, true],
    [{ verdicts: ['unmet'] }, false],
    [{ verdicts: ['unmet', 'at risk'] }, true],
    [{ evidence: ['stale'] }, false],
    [{ document: 'b.md' }, false],
    [{ document: 'a.md', verdicts: ['at risk'], evidence: ['planned'] }, true],
    [{ text: 'Recorder DRAW' }, true],
    [{ text: 'recorder lid' }, false],
  ])('%j: %s', (asked, shown) => {
    expect(isShown(ROW, { ...EVERYTHING, ...asked })).toBe(shown);
  });
});

describe('order', () => {
  const rows = [
    ['P-10', 'met', 0.5],
    ['P-2', 'unmet', -0.1],
    ['P-1', 'open', null],
    ['P-3', 'met', 0],
  ].map(
    ([id, verdict, share], index) => ({ ...ROW, id, verdict, share, index, element: null }) as unknown as MatrixElement,
  );
  const ids = (column: string, down: boolean) =>
    inOrderOf(rows, column, down, () => ['unmet', 'open', 'met']).map(({ id }) => id);

  test.each([
    ['', false, ['P-10', 'P-2', 'P-1', 'P-3']],
    ['id', false, ['P-1', 'P-2', 'P-3', 'P-10']],
    ['verdict', false, ['P-2', 'P-1', 'P-10', 'P-3']],
    ['verdict', true, ['P-10', 'P-3', 'P-1', 'P-2']],
    ['margin', false, ['P-2', 'P-3', 'P-10', 'P-1']],
    ['margin', true, ['P-10', 'P-3', 'P-2', 'P-1']],
  ])('by %j, down %s', (column, down, expected) => {
    expect(ids(column, down)).toEqual(expected);
  });
});
