/** Figures that take only some values: the furthest permitted one that is reached through permitted ones. */
import type { Rational } from '../../quantity/rational';
import * as rational from '../../quantity/rational';
import type { Figure } from './figure';

/** Steps that are tried beyond a range found, before it is left at that. */
export const MOST_STEPS = 1_000;

/** The next permitted value; null where there is none, and where every value is permitted. */
export function nextPermitted({ steps, lowest, highest }: Figure, from: Rational, direction: 1 | -1): Rational | null {
  const next = nextOf(steps, from, direction);
  if (next === null) return null;
  if (lowest !== null && rational.compare(next, lowest.value) < 0) return null;
  return highest !== null && rational.compare(next, highest.value) > 0 ? null : next;
}

function nextOf(steps: Figure['steps'], from: Rational, direction: 1 | -1): Rational | null {
  switch (steps.type) {
    case 'continuous':
      return null;
    case 'whole':
      return direction > 0
        ? rational.add(rational.floor(from), rational.ONE)
        : rational.subtract(rational.ceiling(from), rational.ONE);
    case 'choices': {
      const { values } = steps;
      return (
        (direction > 0
          ? values.find((value) => rational.compare(value, from) > 0)
          : values.findLast((value) => rational.compare(value, from) < 0)) ?? null
      );
    }
  }
}

/**
 * The last permitted value from the start on, each of which passes; the start itself where the next does not. Null where
 * so many pass that the last was not come to.
 */
export function lastPermitted(
  figure: Figure,
  start: Rational,
  direction: 1 | -1,
  passes: (value: Rational) => boolean,
): Rational | null {
  let last = start;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const next = nextPermitted(figure, last, direction);
    if (next === null || !passes(next)) return last;
    last = next;
  }
  return null;
}
