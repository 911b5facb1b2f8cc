/** What the tree shows of the requirements of a product. */
import { expect, test } from 'vitest';
import { filterLine, grouped, isFiltering, NO_FILTER, standing } from '../../client/requirements-tree';
import type { RequirementItem } from '../../server/lsp/messages';

const item = (id: string, uri: string, own: Partial<RequirementItem> = {}): RequirementItem => ({
  id,
  title: '',
  place: { uri, range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } } },
  obligation: 'shall',
  verdict: 'met',
  margin: '',
  evidence: 'untested',
  overSpecified: false,
  derivesFrom: [],
  ...own,
});

const all = [
  item('A-1', 'file:///a.md', { verdict: 'unmet', evidence: 'failed' }),
  item('B-1', 'file:///b.md', { evidence: null }),
  item('A-2', 'file:///a.md', { overSpecified: true }),
];

const ids = (filter: Parameters<typeof grouped>[1]) =>
  grouped(all, filter).map(({ uri, requirements }) => [uri.slice(-4), ...requirements.map(({ id }) => id)]);

test('a document holds its requirements in their order', () => {
  expect(ids(NO_FILTER)).toEqual([
    ['a.md', 'A-1', 'A-2'],
    ['b.md', 'B-1'],
  ]);
});

test('a filter leaves out requirements, and documents without any', () => {
  expect(ids({ ...NO_FILTER, verdicts: ['unmet', 'open'] })).toEqual([['a.md', 'A-1']]);
  expect(ids({ ...NO_FILTER, evidence: ['untested'] })).toEqual([['a.md', 'A-2']]);
  expect(ids({ ...NO_FILTER, overSpecified: true })).toEqual([['a.md', 'A-2']]);
  expect(ids({ verdicts: ['unmet'], evidence: ['untested'], overSpecified: false })).toEqual([]);
});

test('a filter is said in words', () => {
  expect(filterLine({ verdicts: ['unmet', 'at risk'], evidence: ['stale'], overSpecified: true })).toBe(
    'unmet, at risk; stale; over-specified',
  );
  expect([isFiltering(NO_FILTER), isFiltering({ ...NO_FILTER, overSpecified: true })]).toEqual([false, true]);
});

test('a requirement says how it stands in one line', () => {
  expect(standing(item('A', '', { margin: 'margin 5 W', overSpecified: true }))).toBe(
    'met · margin 5 W · untested · over-specified',
  );
  expect(standing(item('A', '', { verdict: 'not applicable', evidence: null }))).toBe('not applicable');
});
