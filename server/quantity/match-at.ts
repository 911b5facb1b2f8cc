/** Sticky regular expressions tried at a place. */

/** What a sticky pattern matches at exactly `offset`; null when it does not. */
export function matchAt(pattern: RegExp, text: string, offset: number): RegExpExecArray | null {
  pattern.lastIndex = offset;
  return pattern.exec(text);
}
