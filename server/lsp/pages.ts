/** The pages that an editor shows in panels: the same as those that the command line writes. */

import { matrixHtml } from '../reports/matrix/html/page';
import { matrixOf } from '../reports/matrix/matrix';
import type { PageRequest, PageResult } from './messages';
import type { ServerState } from './state';
import { restedSubjectOf, subjectOf } from './subject';
import { productName } from './summary';

/** @param uri of any document or folder of the product */
export type Page = (state: ServerState, uri: string) => Promise<PageResult | null>;

/** Null: there is no such page yet. */
export const pages: ReadonlyMap<PageRequest, Page | null> = new Map<PageRequest, Page | null>([
  ['plimsoll/matrix', matrixPage],
  ['plimsoll/diagram', null],
  ['plimsoll/brief', null],
  ['plimsoll/options', null],
  ['plimsoll/impact', null],
]);

/** Its links are relative to the product's folder; in the panel they become requests to open the place. */
async function matrixPage(state: ServerState, uri: string): Promise<PageResult | null> {
  const { host, uris } = state;
  const asked = subjectOf(state, uri);
  const repository = asked && (await host.repository(asked.live.open.place.root));
  // Last, since an analysis is of no use any more once a later one is made.
  const subject = await restedSubjectOf(state, uri);
  if (subject === null) return null;
  const { whole, live } = subject;
  const revision = repository && { commit: repository.revision, isModified: repository.isModified };
  const product = productName(live);
  return {
    title: `${product}: matrix`,
    html: matrixHtml(matrixOf(whole, { product, revision }), { base: '' }, 'panel'),
    folder: uris.uriOf(live.open.place.root),
  };
}
