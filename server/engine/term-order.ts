/** The nodes of a term in an order in which each stands after all that it rests on; without recursion, so that depth costs no stack. */
import type { Condition, Term } from './term';

/** Every node with variables below it, once, the root last. */
export function inOrder(root: Term): readonly Term[] {
  // The same term is asked about again and again before the next one.
  if (last?.root !== root) last = { root, order: orderOf(root) };
  return last.order;
}

let last: { readonly root: Term; readonly order: readonly Term[] } | null = null;

function orderOf(root: Term): readonly Term[] {
  const order: Term[] = [];
  const seen = new Set<Term>();
  const stack: { readonly term: Term; readonly opened: boolean }[] = [{ term: root, opened: false }];
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const { term, opened } = top;
    if (opened) {
      order.push(term);
      continue;
    }
    if (seen.has(term) || term.support.size === 0) continue;
    seen.add(term);
    if (term.type === 'variable') {
      order.push(term);
      continue;
    }
    stack.push({ term, opened: true });
    for (const below of nodesBelow(term)) stack.push({ term: below, opened: false });
  }
  return order;
}

export function nodesBelow(term: Term): readonly Term[] {
  switch (term.type) {
    case 'constant':
    case 'variable':
      return [];
    case 'sum':
    case 'least':
    case 'greatest':
      return term.terms;
    case 'scaled':
      return [term.term];
    case 'product':
    case 'quotient':
      return [term.left, term.right];
    case 'power':
      return [term.base];
    case 'function':
      return [term.operand];
    case 'curve':
      return [term.of];
    case 'choice':
      return [term.met, term.otherwise, ...differences(term.condition)];
  }
}

/** The terms whose sign a condition asks for. */
export function differences(condition: Condition): readonly Term[] {
  if (condition.type === 'comparison') return [condition.difference];
  return condition.type === 'known' ? [] : condition.conditions.flatMap(differences);
}
