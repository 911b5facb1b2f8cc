/** Plain texts as SARIF messages: nothing in them is a placeholder or a link (SARIF 2.1.0, 3.11.5 and 3.11.6). */
import { wellFormed } from '../well-formed';

/** Braces are doubled; a bracket that would begin a link is escaped. */
export function messageText(text: string): string {
  return wellFormed(text)
    .replace(/[{}]/g, '$&$&')
    .replace(/\[(?=[^\][]*\]\()/g, '\\[');
}
