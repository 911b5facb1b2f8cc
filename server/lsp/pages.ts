/** The pages that an editor shows in panels: the same as those that the command line writes. */

import { matrixHtml } from '../reports/matrix/html/page';
import { matrixOf } from '../reports/matrix/matrix';
import type { PageRequest, PageResult } from './messages';
import type { ServerState } from './state';
import type { Subject } from './subject';
import { productName } from './summary';

export type Page = (state: ServerState, subject: Subject) => PageResult | null | Promise<PageResult | null>;

/** Null: there is no such page yet. */
export const pages: ReadonlyMap<PageRequest, Page | null> = new Map<PageRequest, Page | null>([
  ['plimsoll/matrix', matrixPage],
  ['plimsoll/diagram', null],
  ['plimsoll/brief', null],
  ['plimsoll/options', null],
  ['plimsoll/impact', null],
]);

/** Its links are relative to the product's folder; in the panel they become requests to open the place. */
async function matrixPage({ host, uris }: ServerState, { whole, live }: Subject): Promise<PageResult> {
  const repository = await host.repository(live.open.place.root);
  const revision = repository && { commit: repository.revision, isModified: repository.isModified };
  const product = productName(live);
  return {
    title: `${product}: matrix`,
    html: matrixHtml(matrixOf(whole, { product, revision }), { base: '' }, 'panel'),
    folder: uris.uriOf(live.open.place.root),
  };
}
