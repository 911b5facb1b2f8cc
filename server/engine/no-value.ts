/** What is said where a term has no value, or none that is known. */
import type { NoValue } from './enclosure';
import type { Variable } from './term';
import { type Reason, reason } from './typed';

/** @param name what has no value, for the message; null where it has no name */
export function noValueReasons(name: string | null, { reason: why, place, open }: NoValue): readonly Reason[] {
  if (open.length > 0) return open.map(openEndOf);
  return [reason('no-value', name === null ? `there is no value here: ${why}` : `${name} has no value: ${why}`, place)];
}

/** A given figure of which one end is not written, and a decision needs it. */
export function openEndOf({ name, full, place }: Variable): Reason {
  const shown = name === '' ? 'this figure' : name;
  if (full.low !== null || full.high !== null) return openEnd(shown, full.low === null ? 'min' : 'max', place);
  return reason('no-value', `${shown} has neither a lower nor an upper end; write them as min and max`, place);
}

export function openEnd(name: string, end: 'min' | 'max', place: Variable['place']): Reason {
  const which = end === 'min' ? 'lower' : 'upper';
  return reason('no-value', `${name} has no ${which} end; write it as ${end}`, place);
}
