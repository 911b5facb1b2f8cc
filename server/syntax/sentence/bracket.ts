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
  const result = new Array<number>(tokens.length).fill(-1);
  if (partners.size === 0) return result;
  const open: number[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    if (partners.has(index)) open.push(index);
    const last = open.at(-1);
    if (last === undefined) continue;
    result[index] = last;
    if (partners.get(last) === index) open.pop();
  }
  return result;
}

/** Opening bracket → closing bracket. A line break ends every bracket that is still open. */
function partnersOf(tokens: readonly Token[]): ReadonlyMap<number, number> {
  const partners = new Map<number, number>();
  const open: number[] = [];
  for (let index = 0; index < tokens.length; index += 1) {
    const key = keyOf(tokens[index]);
    if (key === '\n') open.length = 0;
    else if (OPENING.has(key)) open.push(index);
    else if (PARTNERS.has(key)) {
      const last = open.at(-1);
      if (last === undefined || keyOf(tokens[last]) !== PARTNERS.get(key)) continue;
      open.pop();
      partners.set(last, index);
    }
  }
  return partners;
}
