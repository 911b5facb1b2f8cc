/** Which bracket each token stands in; a bracket without its partner encloses nothing. */
import { keyOf, type Token } from './token';

const PARTNERS: ReadonlyMap<string, string> = new Map([
  [')', '('],
  [']', '['],
]);
const OPENING: ReadonlySet<string> = new Set(PARTNERS.values());

/** For each token the index of the innermost opening bracket around it, or -1; both brackets stand inside themselves. */
export function findBrackets(tokens: readonly Token[]): readonly number[] {
  const partners = partnersOf(tokens);
  const result: number[] = [];
  const open: number[] = [];
  for (const index of tokens.keys()) {
    if (partners.has(index)) open.push(index);
    result.push(open.at(-1) ?? -1);
    if (open.length > 0 && partners.get(open.at(-1) ?? -1) === index) open.pop();
  }
  return result;
}

/** Opening bracket → closing bracket. A line break ends every bracket that is still open. */
function partnersOf(tokens: readonly Token[]): ReadonlyMap<number, number> {
  const partners = new Map<number, number>();
  const open: number[] = [];
  for (const [index, token] of tokens.entries()) {
    const key = keyOf(token);
    if (key === '\n') open.length = 0;
    else if (OPENING.has(key)) open.push(index);
    else if (PARTNERS.get(key) === keyOf(tokens[open.at(-1) ?? -1])) {
      if (PARTNERS.has(key)) partners.set(open.pop() ?? -1, index);
    }
  }
  return partners;
}
