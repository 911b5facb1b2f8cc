/** What the trial panel and its page say to each other. */
import type { FiguresResult, TrialResult } from '../../server/lsp/messages';

export interface TriedValue {
  readonly name: string;
  readonly value: string;
}

export type ToPage =
  | { readonly type: 'begin'; readonly values: readonly TriedValue[] }
  | { readonly type: 'figures'; readonly figures: FiguresResult }
  | { readonly type: 'result'; readonly result: TrialResult }
  | { readonly type: 'gone' };

export type FromPage =
  | { readonly type: 'ready' }
  | { readonly type: 'try'; readonly values: readonly TriedValue[] }
  | { readonly type: 'apply'; readonly values: readonly TriedValue[] }
  | { readonly type: 'open'; readonly id: string };
