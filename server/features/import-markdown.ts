/** Texts of a spreadsheet as Markdown that shows the same characters (CommonMark 0.31). */

/** Lines and control characters of a cell are spaces of one line. */
export function oneLine(text: string): string {
  return text.replace(/[\s\p{Cc}]+/gu, ' ').trim();
}

/** Nothing in it is markup but code spans, which name figures of the design, and links. */
export function plainText(text: string): string {
  return text
    .replace(/\\(?=[!-/:-@[-`{-~])/g, '\\\\')
    .replace(/<(?=[A-Za-z/!?])/g, '\\<')
    .replace(/&(?=#?\w+;)/g, '\\&')
    .replace(/(?<!\s)\*|\*(?!\s|$)/g, '\\*')
    .replace(/(?<![\p{L}\p{N}])_(?=\S)|(?<=\S)_(?![\p{L}\p{N}])/gu, '\\_');
}

/** A paragraph that begins like a heading, list, quote, rule, fence or link definition is still a paragraph. */
export function paragraphText(text: string): string {
  return plainText(text)
    .replace(/^(?=[#>+-]|\[|~~~|```|\|)/, '\\')
    .replace(/^(\d{1,9})([.)])(?=\s|$)/, '$1\\$2');
}

/** Number signs at the end of a heading would be taken for its close. */
export function headingText(text: string): string {
  return plainText(text).replace(/#(?=#*$)/g, '\\#');
}

/** A condition stands in a code span. */
export function codeText(text: string): string {
  return text.includes('`') ? text : `\`${text}\``;
}
