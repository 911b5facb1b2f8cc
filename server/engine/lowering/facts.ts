/** Facts → what they mean, in a mode and for an item of their row. */
import type { Content, Curve, Fact } from '../../model/fact';
import { formatValue } from '../../quantity/format';
import type { Rational } from '../../quantity/rational';
import type { SimpleValue } from '../../quantity/value';
import { descendants, type Expression } from '../../syntax/expression/ast';
import type { Problem } from '../../syntax/span';
import * as term from '../term';
import { quantity, type Reason, reason, reasonsOf, type Typed, undecided } from '../typed';
import type { Environment, ItemTag } from './environment';
import { given, withRates } from './literals';
import type { Lowering } from './lowering';
import { factsNamed } from './names';

export interface LoweredFact {
  readonly typed: Typed;
  /** The mode decided what it is. */
  readonly moded: boolean;
}

/** The fact's meaning; worked out once for all modes where no mode decides it. */
export function lowerFact(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag): LoweredFact {
  const known = recall(lowering, fact, mode, tag);
  if (known !== undefined) return known;
  if (lowering.active.includes(fact)) return { typed: undecided(cycleReason(lowering, fact)), moded: false };
  if (mayRestOnOthers(fact)) lowerChain(lowering, fact, mode, tag);
  return recall(lowering, fact, mode, tag) ?? work(lowering, fact, mode, tag);
}

function keyOf(mode: string | null, tag: ItemTag): string {
  return mode === null ? tag : `${mode}#${tag}`;
}

function recall(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag): LoweredFact | undefined {
  const known = lowering.facts.get(fact.name);
  const always = known?.get(keyOf(null, tag));
  return always !== undefined && !always.moded ? always : known?.get(keyOf(mode, tag));
}

function keep(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag, lowered: LoweredFact): void {
  const known = lowering.facts.get(fact.name) ?? new Map<string, LoweredFact>();
  lowering.facts.set(fact.name, known);
  known.set(keyOf(mode, tag), lowered);
}

function mayRestOnOthers({ content: { type } }: Fact): boolean {
  return type !== 'value' && type !== 'tbd' && type !== 'bad';
}

/** Lowers what a long chain of derived facts rests on from its far end, so that the chain's length costs no stack. */
function lowerChain(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag): void {
  const stack = [{ fact, opened: false }];
  const seen = new Set([fact]);
  for (let top = stack[stack.length - 1]; top !== undefined; top = stack[stack.length - 1]) {
    if (top.opened) {
      stack.pop();
      lowering.trail.pop();
      if (top.fact !== fact && !lowering.active.includes(top.fact)) work(lowering, top.fact, mode, tag);
      continue;
    }
    top.opened = true;
    lowering.trail.push(top.fact);
    for (const below of restsOn(lowering, top.fact, mode, tag)) {
      if (seen.has(below) || recall(lowering, below, mode, tag) !== undefined) continue;
      seen.add(below);
      stack.push({ fact: below, opened: false });
    }
  }
}

/** Derived facts that a fact names directly and that are asked in the same mode for the same item. */
function restsOn(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag): readonly Fact[] {
  const key = fact.content.type === 'modes' ? `${fact.name}@${mode}` : fact.name;
  const named = lowering.named.get(key) ?? factsNamedIn(lowering, fact, mode);
  lowering.named.set(key, named);
  return named.filter(
    ({ content, row }) => expressionsOf(content, mode).length > 0 && (row === null || tag === 'item'),
  );
}

function factsNamedIn(lowering: Lowering, fact: Fact, mode: string | null): readonly Fact[] {
  const named = expressionsOf(fact.content, mode)
    .flatMap((expression) => [...descendants(expression)])
    .filter((node): node is Expression & { type: 'name' } => node.type === 'name')
    .flatMap((node) => factsNamed(lowering, node.parts, fact.scope));
  return [...new Set(named)];
}

function expressionsOf(content: Content, mode: string | null): readonly Expression[] {
  switch (content.type) {
    case 'expression':
      return [content.expression];
    case 'curve':
      return [content.of];
    case 'ends':
      return [content.low, content.high].filter((end) => end !== null);
    case 'modes': {
      const own = mode === null ? undefined : content.modes.get(mode);
      return own === undefined ? [] : expressionsOf(own, mode);
    }
    default:
      return [];
  }
}

function work(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag): LoweredFact {
  const known = recall(lowering, fact, mode, tag);
  return known ?? lowering.workOn(fact, () => workAnew(lowering, fact, mode, tag));
}

function workAnew(lowering: Lowering, fact: Fact, mode: string | null, tag: ItemTag): LoweredFact {
  lowering.active.push(fact);
  lowering.trail.push(fact);
  const row =
    fact.row === null ? null : (lowering.product.tables.get(fact.row.table)?.rowsById.get(fact.row.id) ?? null);
  const environment: Environment = {
    file: fact.file,
    scope: fact.scope,
    mode,
    row: null,
    item: row === null ? null : { row, tag },
  };
  const { result, uses, moded } = lowering.tracked(() => contentOf(lowering, fact, fact.content, environment, tag, ''));
  lowering.active.pop();
  lowering.trail.pop();
  lowering.noteFactUses(fact, uses);
  const lowered = { typed: result, moded };
  keep(lowering, fact, moded ? mode : null, tag, lowered);
  return lowered;
}

function contentOf(
  lowering: Lowering,
  fact: Fact,
  content: Content,
  environment: Environment,
  tag: ItemTag,
  suffix: string,
): Typed {
  switch (content.type) {
    case 'bad':
      return undecided(...fact.problems.map((problem) => mistake(fact, problem)));
    case 'tbd':
      return undecided(reason('open-point', `${fact.name} is to be determined`, { file: fact.file, span: fact.span }));
    case 'value':
      return simpleValue(lowering, fact, content.value, tag, suffix);
    case 'expression':
      return lowering.expression(content.expression, environment);
    case 'ends':
      return betweenEnds(lowering, fact, content, environment, tag);
    case 'curve':
      return onCurve(lowering, fact, content, environment);
    case 'modes':
      return inMode(lowering, fact, content.modes, environment, tag);
  }
}

function mistake({ name, file }: Fact, { code, message, span, fix }: Problem): Reason {
  return reason(code, `${name}: ${message}`, { file, span }, { fixes: fix === undefined ? [] : [fix] });
}

function simpleValue(lowering: Lowering, fact: Fact, value: SimpleValue, tag: ItemTag, suffix: string): Typed {
  const item = fact.row === null || tag === 'item' ? '' : `#${tag}`;
  const origin = {
    id: `${fact.name}${suffix}${item}`,
    name: `${fact.name}${suffix.replace('@', '.')}`,
    file: fact.file,
    span: fact.span,
    figure: { fact, mode: suffix === '' ? null : suffix.slice(1) },
  };
  switch (value.type) {
    case 'quantity':
      return given(lowering, value, origin);
    case 'text':
      return value;
    case 'boolean':
      return { type: 'condition', condition: term.known(value.boolean) };
    case 'set': {
      const items = value.items.map((entry, index) =>
        entry.type === 'text'
          ? entry
          : given(lowering, entry, { ...origin, id: `${origin.id}[${index}]`, figure: null }),
      );
      return { type: 'set', items: items.filter((entry) => entry.type === 'quantity' || entry.type === 'text') };
    }
  }
}

/** A range between two derived ends: its value is any share of the way from one to the other. */
function betweenEnds(
  lowering: Lowering,
  fact: Fact,
  content: Content & { type: 'ends' },
  environment: Environment,
  tag: ItemTag,
): Typed {
  const low = content.low === null ? null : lowering.expression(content.low, environment);
  const high = content.high === null ? null : lowering.expression(content.high, environment);
  const ends = [low, high].filter((end) => end !== null);
  const reasons = reasonsOf(...ends);
  if (reasons !== null) return undecided(...reasons);
  const [first] = ends;
  if (
    first?.type !== 'quantity' ||
    ends.some((end) => end.type !== 'quantity' || end.dimension !== first.dimension || end.point !== first.point)
  ) {
    return undecided(
      reason('unit-mismatch', `the ends of ${fact.name} have different units`, { file: fact.file, span: fact.span }),
    );
  }
  const place = { file: fact.file, span: fact.span };
  const lowTerm = low?.type === 'quantity' ? low.term : null;
  const highTerm = high?.type === 'quantity' ? high.term : null;
  const share = lowering.share(`${fact.name}#share${tag}`, fact.name, place, lowTerm !== null, highTerm !== null);
  const start = lowTerm ?? (highTerm as term.Term);
  const width = lowTerm !== null && highTerm !== null ? term.difference(highTerm, lowTerm) : term.ONE;
  const value = term.sum([start, term.product(width, term.variable(share))]);
  return quantity(value, first.dimension, {
    point: first.point,
    range: { low: lowTerm, high: highTerm },
    unit: first.unit,
  });
}

function onCurve(lowering: Lowering, fact: Fact, content: Curve, environment: Environment): Typed {
  const of = lowering.expression(content.of, environment);
  const reasons = reasonsOf(of);
  if (reasons !== null) return undecided(...reasons);
  const place = { file: fact.file, span: fact.span };
  const [first] = content.points;
  if (
    of.type !== 'quantity' ||
    first === undefined ||
    of.dimension !== first.x.unit.dimension ||
    of.point !== first.x.unit.point
  ) {
    return undecided(
      reason(
        'unit-mismatch',
        `${fact.name} is a curve over ${first?.x.unit.symbol}, which is not the unit of what it follows`,
        place,
      ),
    );
  }
  const points = content.points.map(({ x, y }) => ({ x: x.typical as Rational, y: y.typical as Rational }));
  const last = content.points[content.points.length - 1] ?? first;
  const shown = { name: fact.name, first: formatValue(first.x), last: formatValue(last.x) };
  const value = term.onCurve(of.term, { shown, between: content.between, points }, place);
  const { unit } = first.y;
  return quantity(withRates(lowering, value, unit), unit.dimension, { point: unit.point, unit });
}

function inMode(
  lowering: Lowering,
  fact: Fact,
  modes: ReadonlyMap<string, Content>,
  environment: Environment,
  tag: ItemTag,
): Typed {
  lowering.noteMode();
  const { mode } = environment;
  const place = { file: fact.file, span: fact.span };
  if (mode === null)
    return undecided(reason('no-value', `${fact.name} has a value for each mode, and no mode is taken here`, place));
  const content = modes.get(mode);
  if (content === undefined) return undecided(reason('no-value', `${fact.name} has no value in mode ${mode}`, place));
  return contentOf(lowering, fact, content, environment, tag, `@${mode}`);
}

/** Figures of a circle named in a message. */
const MOST_SHOWN = 8;

/** The facts of a cycle, from its first name on, so that every fact of it gives the same reason. */
function cycleReason(lowering: Lowering, fact: Fact): Reason {
  const cycle = lowering.trail.slice(lowering.trail.lastIndexOf(fact));
  const start = cycle.reduce((first, candidate) => (candidate.name < first.name ? candidate : first));
  const turned = [...cycle.slice(cycle.indexOf(start)), ...cycle.slice(0, cycle.indexOf(start))];
  const names = turned.map(({ name }) => name);
  const shown = names.length > MOST_SHOWN ? [...names.slice(0, MOST_SHOWN - 1), `… (${names.length} figures)`] : names;
  const path = [...shown, start.name].join(' → ');
  const related = turned.slice(1, MOST_SHOWN).map((member) => ({
    place: { file: member.file, span: member.span },
    message: `${member.name} is part of the cycle`,
  }));
  const message =
    turned.length === 1 ? `${start.name} depends on itself` : `these figures depend on each other in a circle: ${path}`;
  return reason('cycle', message, { file: start.file, span: start.span }, { related });
}
