/** Which figures a trial offers, and the very text that would be changed. */
import { expect, test } from 'vitest';
import { trialFigures } from '../../server/features/trial-figures';
import { analyseFiles } from '../support/analyse';

const DESIGN = `---
requirements: P
facts:
  a: 45 W ± 10 %
  b: {value: 0.91 ± 0.02 (TBC), source: "bench, value: one"}
  c: {min: 1 W, max: 2 W}
  d: {standby: 1 W, record: 3 W ± 1 W}
  e: = a * b + c + d
  unrelated: 3 V
---
## P-1 Draw
The product shall draw no more than 90 W (\`e\`).
`;

test('given figures of one line, as they are written', () => {
  const { analysis, texts } = analyseFiles({ 'plimsoll.yaml': 'modes: [standby, record]\n', 'product.md': DESIGN });
  const [result] = analysis.requirements;
  if (result === undefined) throw new Error('the requirement was not read');
  const figures = trialFigures(analysis, texts, result);
  expect(figures.map(({ name, written }) => [name, written])).toEqual([
    ['a', '45 W ± 10 %'],
    ['c.min', '1 W'],
    ['c.max', '2 W'],
    ['d.standby', '1 W'],
    ['d.record', '3 W ± 1 W'],
  ]);
  for (const { written, place } of figures)
    expect(texts.get(place.file)?.slice(place.span.start, place.span.end)).toBe(written);
});
