/** Dates to and from seconds, against the platform's own calendar. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dateOfBase, dateToBase, dayAfter, daysInMonth } from '../../server/quantity/calendar';
import { add, fraction, integer } from '../../server/quantity/rational';

test('a date is seconds since 1970-01-01, and back', () => {
  const day = fc.date({
    min: new Date('0001-01-01T00:00:00Z'),
    max: new Date('9999-12-31T00:00:00Z'),
    noInvalidDate: true,
  });
  fc.assert(
    fc.property(day, (date) => {
      const base = dateToBase(date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate());
      const midnight = Math.floor(date.getTime() / 86_400_000) * 86_400;
      expect(base).toEqual(integer(midnight));
      expect(base && dateOfBase(base)).toBe(date.toISOString().slice(0, 10));
    }),
  );
});

test.each([
  [2023, 2, 28],
  [2024, 2, 29],
  [1900, 2, 28],
  [2000, 2, 29],
  [2026, 4, 30],
  [2026, 12, 31],
])('%i-%i has %i days', (year, month, days) => {
  expect(daysInMonth(year, month)).toBe(days);
  expect(dateToBase(year, month, days)).not.toBeNull();
  expect(dateToBase(year, month, days + 1)).toBeNull();
});

test('any moment of a day belongs to it', () => {
  const start = dateToBase(2026, 10, 2);
  expect(start && dateOfBase(add(start, fraction(172_799n, 2n)))).toBe('2026-10-02');
  expect(start && dateOfBase(add(start, integer(-1)))).toBe('2026-10-01');
});

test('no date outside the years of four digits', () => {
  expect(dateOfBase(integer(10n ** 15n))).toBeNull();
  expect(dateOfBase(integer(-(10n ** 15n)))).toBeNull();
});

test.each([
  ['2026-12-31', '2027-01-01'],
  ['2024-02-28', '2024-02-29'],
  ['9999-12-31', null],
])('after %s comes %s', (day, next) => {
  expect(dayAfter(day)).toBe(next);
});
