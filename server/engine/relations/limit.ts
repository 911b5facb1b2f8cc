/** A criterion → the limit that it puts on an expression, comparable with the limits of other criteria on the same one. */
import { coherentUnit } from '../../quantity/coherent-unit';
import { withoutKinds } from '../../quantity/dimension';
import type { Rational } from '../../quantity/rational';
import type { Unit } from '../../quantity/unit';
import { type Comparison, descendants, type Expression } from '../../syntax/expression/ast';
import { mirrored } from '../code-spans';
import type { Criterion } from '../criterion';
import { atRoot } from '../lowering/environment';
import type { Lowering } from '../lowering/lowering';
import type { RequirementResult } from '../requirement-result';
import { holdsOf, type PlainRelation } from '../term';
import type { TypedQuantity } from '../typed';
import type { Allowed, Bound, Bounds, Side } from './allowed';
import { canonicalText, nameParts, type Standing } from './canonical';

export interface Limit {
  readonly result: RequirementResult;
  readonly criterion: Criterion;
  /** Criteria with one subject limit the same expression, in figures of one dimension or in words. */
  readonly subject: string;
  /** When it applies: `now`, or a condition that does not hold now. Other conditions are not known to apply together. */
  readonly when: string;
  /** Modes that it is asked in; a single empty text where the product has none. */
  readonly modes: readonly string[];
  readonly allowed: Allowed;
  /** In which figures are shown; null for words. */
  readonly unit: Unit | null;
}

/** The limit of each criterion that has an exact one. Criteria that cannot be compared with others are left out. */
export function limitsOf(lowering: Lowering, result: RequirementResult): readonly Limit[] {
  const when = whenOf(lowering, result);
  return result.criteria.flatMap(({ criterion }) => {
    const read = limitOf(lowering, criterion, result.modes);
    return read === null ? [] : [{ result, criterion, when, ...read }];
  });
}

export type ReadLimit = Pick<Limit, 'subject' | 'modes' | 'allowed' | 'unit'>;

function whenOf({ product }: Lowering, { requirement, appliesWhen, applies }: RequirementResult): string {
  if (applies === true) return 'now';
  const standing = { product, file: requirement.file, followsNames: true };
  const conditions = new Set(appliesWhen.map((condition) => canonicalText(condition, standing)));
  return `where ${[...conditions].sort().join(' and ')}`;
}

interface Reading {
  readonly lowering: Lowering;
  readonly standing: Standing;
  /** Rows that it is asked of: their names mean something else to each. */
  readonly isOverRows: boolean;
  readonly prefix: string;
  readonly modes: readonly string[];
}

/** Null for a criterion that cannot be compared with others. */
export function limitOf(lowering: Lowering, criterion: Criterion, modes: readonly string[]): ReadLimit | null {
  const { product } = lowering;
  const { condition, over } = criterion;
  const standing = { product, file: criterion.place.file, followsNames: over === null };
  const prefix = over === null ? '' : canonicalText({ ...over, element: null }, standing);
  const reading = { lowering, standing, isOverRows: over !== null, prefix, modes };
  if (condition.type === 'comparison') return ofComparison(reading, condition);
  if (condition.type === 'ends') return ofEnds(reading, condition);
  if (condition.type === 'one-of') return ofList(reading, condition);
  if (condition.type === 'unary' && condition.operator === 'not') return ofYesOrNo(reading, condition.operand, false);
  return ofYesOrNo(reading, condition, true);
}

function ofComparison(reading: Reading, node: Comparison): ReadLimit | null {
  const isTurned = !hasName(node.left) && hasName(node.right);
  const [value, limit] = isTurned ? [node.right, node.left] : [node.left, node.right];
  const relation = isTurned ? mirrored(node.relation) : node.relation;
  if (limit.type === 'boolean' && (relation === '=' || relation === '!='))
    return ofYesOrNo(reading, value, limit.value === (relation === '='));
  const subject = subjectOf(reading, value);
  if (limit.type === 'text') {
    const allowed = wordsOf(reading, relation, limit.text);
    return allowed === null ? null : inWords(subject, allowed);
  }
  const figure = exactFigure(reading, subject, limit);
  if (figure === null || (relation === '!=' && subject.end !== null)) return null;
  const except = relation === '!=' ? figure.value : null;
  return inFigures(subject, figure, { type: 'figures', bounds: boundsOf(subject, relation, figure.value), except });
}

function ofEnds(reading: Reading, node: Expression & { type: 'ends' }): ReadLimit | null {
  const { relation } = node;
  const subject = subjectOf(reading, node.value);
  const [from, to] = [exactFigure(reading, subject, node.low), exactFigure(reading, subject, node.high)];
  if (from === null || to === null || (relation === 'spans' && subject.end !== null)) return null;
  const [low, high] = [plainBound(from.value), plainBound(to.value)];
  const { lower, upper } = sidesOf(subject);
  const bounds: Bounds = relation === 'within' ? { [lower]: low, [upper]: high } : { down: low, up: high };
  return inFigures(subject, to, { type: 'figures', bounds, except: null });
}

/** A list of texts; figures of a list are not compared with other limits. */
function ofList(reading: Reading, { value, set }: Expression & { type: 'one-of' }): ReadLimit | null {
  if (set.type !== 'set') return null;
  const subject = subjectOf(reading, value);
  const words = set.items.flatMap((item) => (item.type === 'text' ? [item.text] : []));
  if (words.length === set.items.length) return inWords(subject, { type: 'words', words: new Set(words), among: true });
  return null;
}

function ofYesOrNo(reading: Reading, value: Expression, yes: boolean): ReadLimit | null {
  if (value.type === 'missing') return null;
  const allowed: Allowed = { type: 'words', words: new Set([yes ? 'yes' : 'no']), among: true };
  return inWords(subjectOf(reading, value), allowed);
}

/** What is limited. */
interface Subject {
  readonly text: string;
  readonly end: 'min' | 'max' | null;
  readonly modes: readonly string[];
}

/** Ends of a value (`x.min`) and its value in a mode (`x.standby`) are limits of the value itself. */
function subjectOf({ standing, prefix, modes }: Reading, value: Expression): Subject {
  const asked = modes.length > 0 ? modes : [...standing.product.modes];
  if (value.type !== 'name') return { text: `${prefix} ${canonicalText(value, standing)}`, end: null, modes: asked };
  const { name, mode, end } = nameParts(value.parts, standing);
  return {
    text: `${prefix} ${end === 'typ' ? `${name}.typ` : name}`,
    end: end === 'typ' ? null : end,
    modes: mode === null ? asked : [mode],
  };
}

interface Figure {
  readonly value: Rational;
  readonly typed: TypedQuantity;
  readonly unit: Unit;
}

/** The figure that a limit is; null where it has a spread, differs from mode to mode or from row to row. */
function exactFigure({ lowering, standing, isOverRows }: Reading, { modes }: Subject, node: Expression): Figure | null {
  if (isOverRows && hasName(node)) return null;
  const mode = modes.length === 1 ? (modes[0] as string) : null;
  const { result, moded } = lowering.tracked(() => lowering.expression(node, atRoot(standing.file, mode)));
  if (result.type !== 'quantity' || result.term.type !== 'constant' || (moded && mode === null)) return null;
  const unit = result.unit ?? coherentUnit(result.dimension, standing.product.units);
  return { value: result.term.value, typed: result, unit };
}

function boundsOf(subject: Subject, relation: PlainRelation, value: Rational): Bounds {
  const bound = { value, strict: relation === '<' || relation === '>' };
  const { lower, upper } = sidesOf(subject);
  if (relation === '=') return { [lower]: bound, [upper]: bound };
  if (relation === '!=') return {};
  return relation.startsWith('>') ? { [lower]: bound } : { [upper]: bound };
}

/** The sides that a lower and an upper limit bind: of the value, or of the end of it that is named. */
function sidesOf({ end }: Subject): { readonly lower: Side; readonly upper: Side } {
  return { lower: end === 'max' ? 'up' : 'from', upper: end === 'min' ? 'down' : 'to' };
}

function plainBound(value: Rational): Bound {
  return { value, strict: false };
}

/** Texts of one scale compare by place; null where no scale, or more than one, says what lies above what. */
function wordsOf({ standing }: Reading, relation: PlainRelation, text: string): Allowed | null {
  if (relation === '=' || relation === '!=') return { type: 'words', words: new Set([text]), among: relation === '=' };
  const [scale, ...others] = [...standing.product.configuration.scales.values()].filter((texts) =>
    texts.includes(text),
  );
  if (scale === undefined || others.length > 0) return null;
  const own = scale.indexOf(text);
  const words = scale.filter((_, place) => holdsOf(relation, place - own));
  return { type: 'words', words: new Set(words), among: true };
}

function inFigures(subject: Subject, { typed, unit }: Figure, allowed: Allowed): ReadLimit {
  const measure = `${withoutKinds(typed.dimension).key} ${typed.point ?? ''}`;
  return { subject: `${subject.text} in ${measure}`, modes: modesOf(subject), allowed, unit };
}

function inWords(subject: Subject, allowed: Allowed): ReadLimit {
  return { subject: `${subject.text} in words`, modes: modesOf(subject), allowed, unit: null };
}

function modesOf({ modes }: Subject): readonly string[] {
  return modes.length === 0 ? [''] : modes;
}

function hasName(node: Expression): boolean {
  for (const below of descendants(node)) if (below.type === 'name' || below.type === 'aggregate') return true;
  return false;
}
