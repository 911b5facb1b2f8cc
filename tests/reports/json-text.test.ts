/** JSON in pieces, against the platform's own in one. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { jsonText } from '../../server/reports/json-text';

const written = (report: Readonly<Record<string, unknown>>) => [...jsonText(report)].join('');

test('the pieces are what JSON.stringify gives, and a line end', () => {
  const value = fc.oneof(
    fc.jsonValue(),
    fc.constant(undefined),
    fc.array(fc.option(fc.jsonValue(), { nil: undefined })),
  );
  fc.assert(
    fc.property(fc.dictionary(fc.string(), value), (report) => {
      expect(written(report)).toBe(`${JSON.stringify(report, null, 2)}\n`);
    }),
  );
});

test('a long list comes in pieces', () => {
  const report = { schema: 1, list: Array.from({ length: 10_000 }, (_, index) => ({ index, name: `fact.${index}` })) };
  expect([...jsonText(report)].length).toBeGreaterThan(5);
  expect(written(report)).toBe(`${JSON.stringify(report, null, 2)}\n`);
});
