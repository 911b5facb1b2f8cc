/** A server that stops again and again is left off in the end. */
import { expect, test } from 'vitest';
import { createRestarts } from '../../client/restarts';

test('so many restarts within a time, and no more', () => {
  const restarts = createRestarts(2, 1000);
  expect([0, 10, 20].map((now) => restarts.mayRestart(now))).toEqual([true, true, false]);
});

test('stops that are long past do not count', () => {
  const restarts = createRestarts(2, 1000);
  expect([0, 600, 1200, 1700].map((now) => restarts.mayRestart(now))).toEqual([true, true, true, true]);
});

test('started by hand, it has all its restarts again', () => {
  const restarts = createRestarts(1, 1000);
  expect([0, 1].map((now) => restarts.mayRestart(now))).toEqual([true, false]);
  restarts.forget();
  expect(restarts.mayRestart(2)).toBe(true);
});
