/** What is missing where an angle or turns are left in a product: a radian is 1 in the SI, and a turn is 2π of them. */
import { type Dimension, dimension, divide, lacksAngle, power, withoutKinds } from './dimension';

const ANGLE = dimension({ angle: 1 });
/** 2π to as many digits as a figure of a design has. */
const FULL_TURN = '6.283185';

/** What to write, for two dimensions that do not compare; null where neither angles nor turns part them. */
export function angleHint(a: Dimension, b: Dimension): string | null {
  return hintFor(a, b) ?? hintFor(b, a);
}

function hintFor(left: Dimension, other: Dimension): string | null {
  if (lacksAngle(left) && withoutKinds(left) === withoutKinds(other))
    return `turns are left in it, and each is 2π: multiply by ${FULL_TURN} / 1 turn`;
  const [angles = 0, others = 0] = [left.base.get('angle'), other.base.get('angle')];
  const extra = angles - others;
  if (extra <= 0 || withoutKinds(divide(left, power(ANGLE, extra))) !== withoutKinds(other)) return null;
  return `an angle is left in it: divide by 1 rad${extra === 1 ? '' : `^${extra}`}`;
}
