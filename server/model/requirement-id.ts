/** Requirement ids: capitals and digits with hyphens, ending in digits and an optional letter (`TRN-020`, `SYS-PWR-3b`). */

const ID = /^(?=[A-Z0-9]*[A-Z])[A-Z0-9]+(?:-[A-Z0-9]+)*-\d+[A-Za-z]?$/;
/** `ID Title`, `ID: Title`, `[ID] Title`, `ID — Title`. */
const HEADING = /^\s*(\[?)([A-Z0-9]+(?:-[A-Z0-9]+)*-\d+[A-Za-z]?)(\]?)\s*(?:[:—–-]\s*)?(?=$|\s|\S)(.*)$/su;

export interface HeadingId {
  readonly id: string;
  /** Offset of the id in the heading's text. */
  readonly at: number;
  readonly title: string;
}

/** The id that a heading starts with, if it does. `prefixes`: only these begin an id (`["TRN"]`); null for any. */
export function idOfHeading(text: string, prefixes: readonly string[] | null): HeadingId | null {
  const match = HEADING.exec(text);
  if (match === null) return null;
  const [, open = '', id = '', close = '', title = ''] = match;
  if (!isId(id, prefixes) || (open === '[') !== (close === ']')) return null;
  const after = text.slice(text.indexOf(id) + id.length);
  // `RS-485-2 bus` and `IEC-60529:2013` go on after the digits, so they are no id followed by a title.
  if (open === '' && /^(?:[-.\p{L}\p{N}/]|:\S)/u.test(after)) return null;
  return { id, at: text.indexOf(id), title: title.trim() };
}

export function isId(text: string, prefixes: readonly string[] | null): boolean {
  if (!ID.test(text)) return false;
  return prefixes === null || prefixes.some((prefix) => text.startsWith(`${prefix}-`));
}

/** The next id that nobody has, in the series of the last id given: after TRN-020 comes TRN-021. */
export function nextFreeId(ids: readonly string[]): string {
  const last = ids[ids.length - 1] ?? 'REQ-0';
  const match = /^(.*-)(\d+)[A-Za-z]?$/.exec(last);
  const [, series = 'REQ-', digits = '0'] = match ?? [];
  const taken = new Set(ids);
  for (let number = Number(digits) + 1; ; number += 1) {
    const candidate = `${series}${String(number).padStart(digits.length, '0')}`;
    if (!taken.has(candidate)) return candidate;
  }
}
