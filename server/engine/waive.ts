/** Waivers: an unmet requirement, or one at risk, stands over its verdict while the worst case stays inside what was granted. */
import { attributesOf } from '../model/requirement';
import { type Extent, readWaiver, type Waiver } from '../model/waiver';
import type { Interval } from '../quantity/interval';
import type { Rational } from '../quantity/rational';
import * as rational from '../quantity/rational';
import type { QuantityValue } from '../quantity/value';
import type { Expression } from '../syntax/expression/ast';
import type { Figures } from './criterion';
import type { Judged } from './evidence/evidence';
import type { CriterionResult } from './judge-criterion';
import type { Lowering } from './lowering/lowering';
import { canonicalText } from './relations/canonical';

export type WaiverResult =
  | { readonly type: 'in-force'; readonly waiver: Waiver; readonly of: CriterionResult; readonly granted: Granted }
  /** Granted until a day that is over. */
  | { readonly type: 'over'; readonly waiver: Waiver }
  /** The worst case lies outside the extent, or another criterion is not met. */
  | { readonly type: 'exceeded'; readonly waiver: Waiver }
  /** It does not say how far it reaches, or not of which criterion. */
  | { readonly type: 'open'; readonly waiver: Waiver; readonly why: string }
  | { readonly type: 'bad'; readonly mistake: string };

/** Where the value of a criterion may lie under a waiver, ends included; of *spans*: what it still has to span. */
export interface Granted {
  readonly low: Rational | null;
  readonly high: Rational | null;
}

/** Null where nothing was granted, or nothing needs to be. */
export function waiverOf(lowering: Lowering, judged: Judged): WaiverResult | null {
  const [attribute] = attributesOf(judged.requirement, 'Waived');
  if (attribute === undefined) return null;
  const waiver = readWaiver(attribute, lowering.product.units);
  if ('mistake' in waiver) return { type: 'bad', mistake: waiver.mistake };
  if (waiver.extent === null) return { type: 'open', waiver, why: 'it does not say how far it reaches' };
  if (judged.verdict !== 'unmet' && judged.verdict !== 'at risk') return null;
  const { today } = lowering.product.surroundings;
  if (today === null || today > waiver.until) return { type: 'over', waiver };
  return applied(lowering, judged, waiver, waiver.extent);
}

function applied(lowering: Lowering, { criteria, requirement }: Judged, waiver: Waiver, extent: Extent): WaiverResult {
  const fitting = criteria.filter((result) => fits(lowering, result, extent, requirement.file));
  const [only, ...others] = fitting;
  if (only === undefined) return { type: 'open', waiver, why: 'its extent fits no criterion' };
  if (others.length > 0)
    return {
      type: 'open',
      waiver,
      why: `its extent fits ${fitting.length} criteria; name one: to ${only.criterion.text}`,
    };
  const rest = criteria.filter((result) => result !== only);
  const granted = only.figures && grantedBy(only.figures, figuresOf(extent.expression));
  const isInside = only.figures !== null && granted !== null && isWithin(only.figures, granted);
  return isInside && rest.every(({ verdict }) => verdict === 'met')
    ? { type: 'in-force', waiver, of: only, granted }
    : { type: 'exceeded', waiver };
}

/** The unit fits and, where a criterion is named, expression and relation are the same. */
function fits({ product }: Lowering, { criterion, figures }: CriterionResult, extent: Extent, file: string): boolean {
  const figure = figuresOf(extent.expression)[0];
  if (figures === null || figure === undefined) return false;
  const { unit } = figures;
  if (figure.unit.dimension.key !== unit.dimension.key || figure.unit.point !== unit.point) return false;
  if (extent.type === 'figure') return true;
  const text = (node: Expression) => canonicalText(node, { product, file, followsNames: criterion.over === null });
  const named = subjectOf(extent.expression);
  const own = subjectOf(criterion.condition);
  return named !== null && own !== null && named.relation === own.relation && text(named.node) === text(own.node);
}

function subjectOf(node: Expression): { readonly node: Expression; readonly relation: string } | null {
  if (node.type === 'comparison') return { node: node.left, relation: node.relation };
  return node.type === 'ends' ? { node: node.value, relation: node.relation } : null;
}

function figuresOf(node: Expression): readonly QuantityValue[] {
  const nodes =
    node.type === 'literal'
      ? [node]
      : node.type === 'comparison'
        ? [node.right]
        : node.type === 'ends'
          ? [node.low, node.high]
          : [];
  return nodes.flatMap((one) => (one.type === 'literal' && one.value.spread !== 'tolerance' ? [one.value] : []));
}

/** The extent takes the place of the limit, its end included; null where it says too little. */
function grantedBy({ relation, low, high }: Figures, extent: readonly QuantityValue[]): Granted | null {
  const ends = extent.flatMap((figure) => [figure.low, figure.high]).filter((end) => end !== null);
  const [least, most] = [ends.reduce(lesser, null), ends.reduce(greater, null)];
  if (least === null || most === null) return null;
  if (relation === '<=' || relation === '<') return { low: null, high: most };
  if (relation === '>=' || relation === '>') return { low: least, high: null };
  if (relation === 'within')
    return { low: low && rational.minimum(low, least), high: high && rational.maximum(high, most) };
  // Less than was asked has to be spanned, so both ends must be written.
  return relation === 'spans' && ends.length < 2 ? null : { low: least, high: most };
}

function isWithin({ relation, value }: Figures, { low, high }: Granted): boolean {
  if (relation === 'spans') return isAtMost(value.low, low) && isAtMost(high, value.high);
  return (low === null || isAtMost(low, value.low)) && (high === null || isAtMost(value.high, high));
}

function isAtMost(a: Rational | null, b: Rational | null): boolean {
  return a !== null && b !== null && rational.compare(a, b) <= 0;
}

function lesser(a: Rational | null, b: Rational): Rational {
  return a === null ? b : rational.minimum(a, b);
}

function greater(a: Rational | null, b: Rational): Rational {
  return a === null ? b : rational.maximum(a, b);
}

/** The extent that would just hold today: the worst case itself. */
export function extentToday({ relation, value }: Figures): Interval {
  if (relation === '<=' || relation === '<') return { low: value.high, high: value.high };
  if (relation === '>=' || relation === '>') return { low: value.low, high: value.low };
  return value;
}
