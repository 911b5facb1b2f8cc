/** What to do about a YAML syntax error, in words for people who do not read the YAML specification. */

interface Wording {
  /** The parser's message (package yaml 2.9). */
  readonly pattern: RegExp;
  readonly message: string;
}

const WORDINGS: readonly Wording[] = [
  { pattern: /^Missing closing/, message: 'the quotation mark that opens this text is never closed' },
  { pattern: /^Invalid escape/, message: 'unknown escape in "…": write \\\\ for a backslash, or use single quotes' },
  { pattern: /^Plain value cannot start with/, message: 'a value cannot begin with this character; quote the value' },
  {
    pattern: /^Nested mappings are not allowed/,
    message: 'a second ": " in one value; quote the value, or put the inner key on a line of its own',
  },
  { pattern: /^Implicit keys/, message: 'a key stands on one line; quote the value, or indent its lines alike' },
  {
    pattern: /^Implicit map keys need to be followed/,
    message: 'a key without a value: write "key: value", or indent this line under the key it belongs to',
  },
  { pattern: /^Block collections are not allowed/, message: 'a comma is missing between the entries in braces' },
  { pattern: /^Tabs are not allowed/, message: 'tabs do not indent here; use spaces' },
  {
    pattern: /^Flow (map|sequence) in block collection/,
    message: 'the bracket is not closed, or a line inside it is not indented more than its key',
  },
  { pattern: /must start at the same column$/, message: 'this line is indented differently from the entries above it' },
  { pattern: /^Missing (, or : )?.*between/, message: 'a comma is missing between these entries' },
  { pattern: /^Comments must be separated/, message: 'a comment needs a space before its #' },
  { pattern: /^Missing space after :/, message: 'write a space after the colon' },
  { pattern: /^Unexpected (empty item|,)/, message: 'a comma with no entry before it' },
  { pattern: /^Unexpected flow-(map|seq)-end/, message: 'a closing bracket that nothing opened' },
  { pattern: /^Unexpected block-seq-ind/, message: 'a list begins on the line after its key; or quote the value' },
  {
    pattern: /^Unexpected .* (at node end|token|in YAML stream)/,
    message: 'this does not continue the value before it; check the quotes, brackets and indentation above',
  },
];

/** Errors about anchors, aliases and tags, which are reported as no part of the language. */
const REPORTED_ELSEWHERE = /^(?:ALIAS_PROPS|BAD_ALIAS|BAD_PROP_ORDER|MULTIPLE_|TAG_|BAD_COLLECTION_TYPE)/;

/** The message for one error of the YAML parser; null when the same cause is reported elsewhere. */
export function syntaxMessage(code: string, parserMessage: string): string | null {
  if (REPORTED_ELSEWHERE.test(code)) return null;
  const wording = WORDINGS.find(({ pattern }) => pattern.test(parserMessage));
  return wording ? wording.message : `no valid YAML: ${parserMessage}`;
}
