/** The totals of the configuration, by which choices are weighed: what each comes to in the worst mode. */
import { CONFIGURATION_FILE } from '../model/configuration';
import type { Dimension } from '../quantity/dimension';
import type { Interval } from '../quantity/interval';
import * as interval from '../quantity/interval';
import type { Unit } from '../quantity/unit';
import type { Expression } from '../syntax/expression/ast';
import { parseExpression } from '../syntax/expression/parser';
import { NOWHERE } from '../syntax/span';
import { isNoValue } from './enclosure';
import { atRoot } from './lowering/environment';
import type { Lowering } from './lowering/lowering';
import { noValueReasons } from './no-value';
import { type Reason, reason, reasonsOf } from './typed';

export interface Total {
  /** `cost`. */
  readonly name: string;
  readonly figures: TotalFigures | null;
  /** Why there are no figures. */
  readonly reasons: readonly Reason[];
}

/** In base units, over all modes together. */
export interface TotalFigures {
  readonly typical: Interval;
  readonly worst: Interval;
  readonly dimension: Dimension;
  readonly unit: Unit | null;
}

/** In the order of the configuration. */
export function totalsOf(lowering: Lowering): readonly Total[] {
  return [...lowering.product.configuration.totals].map(([name, { text, scalar }]) => {
    const span = scalar?.span ?? NOWHERE;
    const source = text.trim().replace(/^=/, '');
    const { expression, problems } = parseExpression(source, lowering.product.units, () => span);
    const [problem] = problems;
    if (problem === undefined) return { name, ...totalOf(lowering, name, expression) };
    const cause = reason(problem.code, problem.message, { file: CONFIGURATION_FILE, span });
    return { name, figures: null, reasons: [cause] };
  });
}

function totalOf(lowering: Lowering, name: string, expression: Expression): Omit<Total, 'name'> {
  const { moded } = lowering.tracked(() => lowering.expression(expression, atRoot(CONFIGURATION_FILE, null)));
  const modes = moded && lowering.product.modes.size > 0 ? [...lowering.product.modes] : [null];
  const found = modes.map((mode) => inMode(lowering, name, expression, mode));
  const reasons = found.flatMap((one) => ('reasons' in one ? one.reasons : []));
  const figures = found.filter((one): one is TotalFigures => !('reasons' in one));
  const [first, ...others] = figures;
  if (first === undefined || figures.length < found.length) return { figures: null, reasons };
  return { figures: others.reduce(joined, first), reasons: [] };
}

function joined(a: TotalFigures, b: TotalFigures): TotalFigures {
  return { ...a, typical: interval.hull(a.typical, b.typical), worst: interval.hull(a.worst, b.worst) };
}

function inMode(
  lowering: Lowering,
  name: string,
  expression: Expression,
  mode: string | null,
): TotalFigures | { readonly reasons: readonly Reason[] } {
  const typed = lowering.expression(expression, atRoot(CONFIGURATION_FILE, mode));
  if (typed.type !== 'quantity') return { reasons: reasonsOf(typed) ?? [] };
  const [typical, worst] = (['typical', 'full'] as const).map((extent) =>
    lowering.extremes.extremes(typed.term, extent),
  );
  if (typical === undefined || worst === undefined) return { reasons: [] };
  if (isNoValue(typical)) return { reasons: noValueReasons(name, typical) };
  if (isNoValue(worst)) return { reasons: noValueReasons(name, worst) };
  return { typical: typical.outer, worst: worst.outer, dimension: typed.dimension, unit: typed.unit };
}
