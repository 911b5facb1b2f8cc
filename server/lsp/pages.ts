/** The pages that an editor shows in panels: the same as those that the command line writes. */

import type { PageResult } from './messages';
import type { Subject } from './subject';

export type Page = (subject: Subject) => PageResult | null | Promise<PageResult | null>;

export type PageName =
  | 'plimsoll/matrix'
  | 'plimsoll/diagram'
  | 'plimsoll/brief'
  | 'plimsoll/options'
  | 'plimsoll/impact';

/** Null: there is no such page yet. */
export const pages: ReadonlyMap<PageName, Page | null> = new Map<PageName, Page | null>([
  ['plimsoll/matrix', null],
  ['plimsoll/diagram', null],
  ['plimsoll/brief', null],
  ['plimsoll/options', null],
  ['plimsoll/impact', null],
]);
