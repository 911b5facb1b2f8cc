/** A document that a request is about, as features see it. */
import type { HeldVerdicts } from '../features/lenses';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Place } from '../model/place';
import type { MessagePlace } from './messages';
import type { LiveProduct } from './products';
import { type ProductPlacing, placingOf, type ServerState } from './state';
import { standStill } from './still';

/** A document as features see it: its product as it stands, with all that is unsaved. */
export interface Subject {
  readonly live: LiveProduct;
  readonly whole: ProductAnalysis;
  readonly file: string;
  readonly text: string;
  readonly placing: ProductPlacing;
}

/** Null: the document belongs to no product that was read. */
export function subjectOf(state: ServerState, uri: string): Subject | null {
  const { uris, products } = state;
  const key = uris.keyOf(uri);
  const found = key === null ? null : products.at(key);
  if (!state.isScanned || found === null || !found.live.isRead) return null;
  const { live, path: file } = found;
  const whole = products.analysis(live);
  return { live, whole, file, text: whole.texts.get(file) ?? '', placing: placingOf(state, live, whole.texts) };
}

/** The same once allowed and needed ranges are worked out; without them where a text changed meanwhile. */
export async function restedSubjectOf(state: ServerState, uri: string): Promise<Subject | null> {
  const subject = subjectOf(state, uri);
  const whole = subject === null ? null : await state.products.rested(subject.live);
  return subject === null || whole === null ? subjectOf(state, uri) : { ...subject, whole };
}

/** Verdicts that stand for a moment longer, as diagnostics show them or will in the turn that is due. */
export function heldOf({ host }: ServerState, { live: { shown, edit }, whole }: Subject): HeldVerdicts {
  return shown?.texts === whole.texts ? shown.held : standStill(shown, whole, edit, host.now()).held;
}

export function placeOf({ placing }: Subject, { file, span }: Place): MessagePlace {
  return { uri: placing.uriOf(file), range: placing.positionsOf(file).rangeOf(span) };
}
