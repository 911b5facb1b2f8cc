/** How an HTML block starts and where it ends (CommonMark 0.31.2, 4.6). */

/** An HTML block that a line starts. */
export interface HtmlStart {
  /** What ends the block, on the line that holds it; null: it ends at a blank line. */
  readonly end: RegExp | null;
  /** False where the line may as well be a paragraph: a complete tag of its own (kind 7) interrupts none. */
  readonly isCertain: boolean;
}

const BLOCK_NAMES = [
  'address|article|aside|base|basefont|blockquote|body|caption|center|col|colgroup|dd|details|dialog|dir|div|dl|dt',
  'fieldset|figcaption|figure|footer|form|frame|frameset|h1|h2|h3|h4|h5|h6|head|header|hr|html|iframe|legend|li|link',
  'main|menu|menuitem|nav|noframes|ol|optgroup|option|p|param|search|section|summary|table|tbody|td|tfoot|th|thead',
  'title|tr|track|ul',
].join('|');

const BY_MARKER: readonly (readonly [start: RegExp, end: RegExp])[] = [
  [/^<(?:script|pre|style|textarea)(?:[ \t>]|$)/i, /<\/(?:script|pre|style|textarea)>/i],
  [/^<!--/, /-->/],
  [/^<\?/, /\?>/],
  [/^<![a-z]/i, />/],
  [/^<!\[CDATA\[/, /\]\]>/],
];
const BY_BLOCK_NAME = new RegExp(`^</?(?:${BLOCK_NAMES})(?:[ \\t>]|/>|$)`, 'i');
const PERHAPS_TAG = /^<[a-z/]/i;

/** The HTML block that a line starts, `rest` being the line without its indentation; null when it starts none. */
export function htmlStart(rest: string): HtmlStart | null {
  if (!rest.startsWith('<')) return null;
  const marked = BY_MARKER.find(([start]) => start.test(rest));
  if (marked) return { end: marked[1], isCertain: true };
  if (BY_BLOCK_NAME.test(rest)) return { end: null, isCertain: true };
  return PERHAPS_TAG.test(rest) ? { end: null, isCertain: false } : null;
}
