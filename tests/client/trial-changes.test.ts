/** What would change on trial: what breaks stands first. */
import { expect, test } from 'vitest';
import { inOrderOfConcern } from '../../client/trial/changes';

const change = (id: string, today: string, trial: string) => ({
  id,
  today: { verdict: today, margin: '' },
  trial: { verdict: trial, margin: '' },
  place: { uri: '', range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } },
});

test('other verdicts before other margins, the worst first, else as they come', () => {
  const changes = [
    change('A', 'met', 'met'),
    change('B', 'unmet', 'unmet'),
    change('C', 'unmet', 'met'),
    change('D', 'met', 'at risk'),
    change('E', 'met', 'unmet'),
    change('F', 'met', 'unmet'),
  ];
  expect(inOrderOfConcern(changes).map(({ id }) => id)).toEqual(['E', 'F', 'D', 'C', 'B', 'A']);
  expect(changes[0]?.id).toBe('A');
});
