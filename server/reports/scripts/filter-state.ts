/** What a reader of the matrix narrowed it down to, and the address that says so. */

export interface FilterState {
  /** Empty: all. */
  readonly verdicts: readonly string[];
  readonly evidence: readonly string[];
  /** Empty: all. */
  readonly document: string;
  readonly text: string;
  /** The column that decides the order; empty: as in the documents. */
  readonly sort: string;
  readonly down: boolean;
}

export const EVERYTHING: FilterState = { verdicts: [], evidence: [], document: '', text: '', sort: '', down: false };

/** Of an address's fragment, `#` in front; null where it is the anchor of something on the page. */
export function stateOfFragment(fragment: string): FilterState | null {
  if (fragment.length > 1 && !fragment.includes('=')) return null;
  const values = new URLSearchParams(fragment.slice(1));
  const list = (name: string) => (values.get(name) ?? '').split(',').filter((word) => word !== '');
  return {
    verdicts: list('verdict'),
    evidence: list('evidence'),
    document: values.get('document') ?? '',
    text: values.get('text') ?? '',
    sort: values.get('sort') ?? '',
    down: values.get('order') === 'down',
  };
}

/** Empty where nothing is narrowed down. */
export function fragmentOfState({ verdicts, evidence, document, text, sort, down }: FilterState): string {
  const values = new URLSearchParams();
  const set = (name: string, value: string) => value !== '' && values.set(name, value);
  set('verdict', verdicts.join(','));
  set('evidence', evidence.join(','));
  set('document', document);
  set('text', text);
  set('sort', sort);
  set('order', sort !== '' && down ? 'down' : '');
  const fragment = values.toString();
  return fragment === '' ? '' : `#${fragment}`;
}

/** What is asked of a row. */
export interface RowFacts {
  readonly verdict: string;
  readonly evidence: string;
  readonly document: string;
  /** In small letters. */
  text(): string;
}

/** Every word has to stand in the row, in any order. */
export function isShown(row: RowFacts, state: FilterState): boolean {
  if (state.verdicts.length > 0 && !state.verdicts.includes(row.verdict)) return false;
  if (state.evidence.length > 0 && !state.evidence.includes(row.evidence)) return false;
  if (state.document !== '' && state.document !== row.document) return false;
  const words = state.text.toLowerCase().split(/\s+/).filter(Boolean);
  return words.length === 0 || words.every((word) => row.text().includes(word));
}
