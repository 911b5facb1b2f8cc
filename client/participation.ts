/** Whether a Markdown document looks like one of a product, so that the server is worth starting. */

/** Keys of front matter by which a file takes part; kept equal to the server's by a test. */
export const ROLES = [
  'requirements',
  'facts',
  'parts',
  'connections',
  'rails',
  'option',
  'verification',
  'verifications',
];

/** Front matter longer than this is not looked through. */
const LONGEST = 200_000;

const KEY = new RegExp(`^["']?(?:${ROLES.join('|')})["']?[ \\t]*:`, 'm');

/** A cheap look only: the server reads the front matter and decides. */
export function takesPart(text: string): boolean {
  const start = /^\uFEFF?---[ \t]*\r?\n/.exec(text);
  if (start === null) return false;
  const rest = text.slice(start[0].length, LONGEST);
  const end = rest.search(/^(?:---|\.\.\.)[ \t]*\r?$/m);
  return end >= 0 && KEY.test(rest.slice(0, end));
}
