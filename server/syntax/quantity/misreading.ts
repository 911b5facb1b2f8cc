/** What a check of a value that does not read has to say. */
import type { UnitTable } from '../../quantity/unit-table';

/** `message` goes on from “this is no value: ”; `fix` is the whole value as it should be, where there is one right way. */
export interface Misreading {
  readonly type: 'bad';
  readonly message: string;
  readonly fix: string | null;
}

/** Whether a text reads as a figure, to try what might have been meant. */
export type IsFigure = (text: string) => boolean;

export type Check = (text: string, units: UnitTable, isFigure: IsFigure) => Misreading | null;

export function bad(message: string, fix: string | null): Misreading {
  return { type: 'bad', message, fix };
}
