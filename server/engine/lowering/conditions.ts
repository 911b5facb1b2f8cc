/** `and`, `or`, `not`: no and undecided is no, yes or undecided is yes. */
import type { Expression } from '../../syntax/expression/ast';
import type { Condition } from '../term';
import * as term from '../term';
import { type Reason, reason, reasonsOf, type Typed, undecided } from '../typed';
import { nameOf } from './describe';
import { type Environment, placeIn } from './environment';
import type { Lowering } from './lowering';

export function lowerNot(lowering: Lowering, node: Expression & { type: 'unary' }, environment: Environment): Typed {
  const operand = lowerCondition(lowering, node.operand, environment);
  return 'reasons' in operand ? undecided(...operand.reasons) : { type: 'condition', condition: term.negated(operand) };
}

export function lowerLogical(
  lowering: Lowering,
  node: Expression & { type: 'logical' },
  environment: Environment,
): Typed {
  const parts = [node.left, node.right].map((part) => lowerCondition(lowering, part, environment));
  const decisive = node.operator === 'or';
  const conditions = parts.filter((part): part is Condition => !('reasons' in part));
  if (conditions.length < parts.length) {
    const decided = conditions.some((part) => lowering.known(part) === decisive);
    if (decided) return { type: 'condition', condition: term.known(decisive) };
    return undecided(...parts.flatMap((part) => ('reasons' in part ? part.reasons : [])));
  }
  return { type: 'condition', condition: decisive ? term.either(conditions) : term.both(conditions) };
}

/** The expression as a condition, or why it is none. A yes/no field that a row lacks is no. */
export function lowerCondition(
  lowering: Lowering,
  node: Expression,
  environment: Environment,
): Condition | { readonly reasons: readonly Reason[] } {
  const typed = lowering.expression(node, environment);
  if (typed.type === 'condition') return typed.condition;
  if (typed.type === 'absent' && !typed.quantity) return term.known(false);
  const reasons = reasonsOf(typed);
  if (reasons !== null) return { reasons };
  const message = `${nameOf(node)} is no condition; compare it with something`;
  return { reasons: [reason('unit-mismatch', message, placeIn(environment, node.span))] };
}
