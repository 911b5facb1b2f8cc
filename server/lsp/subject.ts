/** A document that a request is about, as features see it. */
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Place } from '../model/place';
import type { MessagePlace } from './messages';
import type { LiveProduct } from './products';
import { type ProductPlacing, placingOf, type ServerState } from './state';

/** A document as features see it: its product as it stands, with all that is unsaved. */
export interface Subject {
  readonly live: LiveProduct;
  readonly whole: ProductAnalysis;
  readonly file: string;
  readonly text: string;
  readonly placing: ProductPlacing;
}

/** Products with no more requirements have their ranges computed on request; of larger ones those at rest are shown. */
const RANGES_AT_ONCE = 300;

/** Null: the document belongs to no product that was read. `ranges`: allowed and needed ranges are of use. */
export function subjectOf(state: ServerState, uri: string, asked: 'verdicts' | 'ranges' = 'verdicts'): Subject | null {
  const { uris, products } = state;
  const key = uris.keyOf(uri);
  const found = key === null ? null : products.at(key);
  if (!state.isScanned || found === null || !found.live.isRead) return null;
  const { live, path: file } = found;
  const quick = products.analysis(live);
  const isSmall = quick.analysis.requirements.length <= RANGES_AT_ONCE;
  const whole = asked === 'ranges' && isSmall ? products.fullAnalysis(live) : quick;
  return { live, whole, file, text: whole.texts.get(file) ?? '', placing: placingOf(state, live, whole.texts) };
}

export function placeOf({ placing }: Subject, { file, span }: Place): MessagePlace {
  return { uri: placing.uriOf(file), range: placing.positionsOf(file).rangeOf(span) };
}
