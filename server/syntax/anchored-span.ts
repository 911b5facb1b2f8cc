/** A span that is measured from a place which may move. */
import type { Span } from './span';

/** A place that spans are measured from. */
export interface Anchor {
  /** No other has it. */
  readonly number: number;
  /** In the text that was last read. */
  offset: number;
}

let anchors = 0;

export function newAnchor(): Anchor {
  anchors += 1;
  return { number: anchors, offset: 0 };
}

/** @param from offsets from the anchor, and `to` */
export function anchoredSpan(anchor: Anchor, from: number, to: number): Span {
  // Only the type has what no object has.
  return new AnchoredSpan(anchor, from, to) as object as Span;
}

/** `start` and `end` are in the text that was last read; `from` and `to` never change. */
export class AnchoredSpan {
  constructor(
    readonly anchor: Anchor,
    readonly from: number,
    readonly to: number,
  ) {}

  get start(): number {
    return this.anchor.offset + this.from;
  }

  get end(): number {
    return this.anchor.offset + this.to;
  }
}
