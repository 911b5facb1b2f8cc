/** What is said where a term has no value, or none that is known. */
import type { NoValue } from './enclosure';
import type { Variable } from './term';
import { type Reason, reason } from './typed';

/** @param name what has no value, for the message */
export function noValueReasons(name: string, { reason: why, place, open }: NoValue): readonly Reason[] {
  if (open.length > 0) return open.map(openEndOf);
  return [reason('no-value', `${name} has no value: ${why}`, place)];
}

/** A given figure of which one end is not written, and a decision needs it. */
export function openEndOf({ name, full, place }: Variable): Reason {
  return openEnd(name === '' ? 'this figure' : name, full.low === null ? 'min' : 'max', place);
}

export function openEnd(name: string, end: 'min' | 'max', place: Variable['place']): Reason {
  const which = end === 'min' ? 'lower' : 'upper';
  return reason('no-value', `${name} has no ${which} end; write it as ${end}`, place);
}
