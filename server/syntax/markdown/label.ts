/** Link and footnote labels: what a section may refer to that is defined elsewhere in the file. */

/** Labels as the parser keeps them (normalised: white space collapsed, case folded). */
export interface Labels {
  readonly links: readonly string[];
  readonly footnotes: readonly string[];
}

export const NO_LABELS: Labels = { links: [], footnotes: [] };

/** The labels of a whole file, found by a spelling that forgets white space. */
export interface LabelIndex {
  readonly links: ReadonlyMap<string, readonly string[]>;
  readonly footnotes: ReadonlyMap<string, readonly string[]>;
}

/** Only a section with this may define a label. */
export const DEFINITION_SIGN = ']:';

/** Collects the labels that the sections of a file define. */
export function indexLabels(all: readonly Labels[]): LabelIndex {
  return {
    links: byLooseSpelling(all.flatMap(({ links }) => links)),
    footnotes: byLooseSpelling(all.flatMap(({ footnotes }) => footnotes)),
  };
}

/**
 * The labels of the file that a section may use, sorted. A few too many do no harm: a label decides nothing where no
 * bracket spells it.
 */
export function labelsUsed(sectionText: string, index: LabelIndex): Labels {
  if (index.links.size + index.footnotes.size === 0) return NO_LABELS;
  const spellings = bracketed(sectionText);
  return { links: chosen(spellings, index.links), footnotes: chosen(spellings, index.footnotes) };
}

/** A bracket without another bracket in it, unless escaped. */
const BRACKETED = /\[\^?((?:\\[\s\S]|[^[\]\\])+)\]/g;

function bracketed(text: string): Set<string> {
  const spellings = new Set<string>();
  for (const match of text.matchAll(BRACKETED)) {
    const label = match[1] as string;
    spellings.add(loose(label));
    if (match[0].startsWith('[^')) spellings.add(loose(`^${label}`));
  }
  return spellings;
}

function chosen(spellings: ReadonlySet<string>, labels: ReadonlyMap<string, readonly string[]>): string[] {
  return [...spellings].flatMap((spelling) => labels.get(spelling) ?? []).sort();
}

function byLooseSpelling(labels: readonly string[]): Map<string, string[]> {
  const index = new Map<string, string[]>();
  for (const label of new Set(labels)) {
    const spelling = loose(label);
    const known = index.get(spelling);
    if (known) known.push(label);
    else index.set(spelling, [label]);
  }
  return index;
}

/** In a list item a label over two lines has the item's indentation between its words; quotes are not read. */
function loose(label: string): string {
  return label.replace(/\s+/g, '').toLowerCase().toUpperCase();
}
