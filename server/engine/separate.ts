/** Whether plain interval arithmetic is exact over a box: nothing that moves there is come to by two ways. */
import * as interval from '../quantity/interval';
import type { Box } from './enclosure';
import type { Term, Variable } from './term';
import { inOrder, nodesBelow } from './term-order';

/** As `Term.separate`, but for the variables that move in this box only. */
export function isSeparateIn(root: Term, box: Box): boolean {
  const ways = new Map<Term | Variable, number>([[root, 1]]);
  for (const term of inOrder(root).toReversed()) {
    const own = ways.get(term) ?? 0;
    if (term.type === 'variable') {
      const all = own + (ways.get(term.variable) ?? 0);
      if (all > 1 && !interval.isPoint(box.extentOf(term.variable))) return false;
      ways.set(term.variable, all);
    }
    if (term.type === 'choice' && !isStill(term, box)) return false;
    for (const below of nodesBelow(term)) ways.set(below, (ways.get(below) ?? 0) + own);
  }
  return true;
}

/** None of its variables moves in the box. */
function isStill({ support }: Term, box: Box): boolean {
  for (const variable of support) if (!interval.isPoint(box.extentOf(variable))) return false;
  return true;
}
