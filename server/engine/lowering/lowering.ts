/** Expressions and facts of one product → terms. Keeps what was worked out, so that a fact is lowered once however often it is named. */
import type { Fact } from '../../model/fact';
import type { Place } from '../../model/place';
import type { Product } from '../../model/product';
import type { Interval } from '../../quantity/interval';
import * as interval from '../../quantity/interval';
import * as rational from '../../quantity/rational';
import type { Expression } from '../../syntax/expression/ast';
import { ExtremeFinder } from '../extremes';
import { keys, type Recorder } from '../recorder';
import type { Condition, Support, Term, Variable } from '../term';
import { type Reason, type Typed, undecided } from '../typed';
import { type AggregateNode, lowerAggregate } from './aggregates';
import { lowerBinary, lowerNegation, lowerPower } from './arithmetic';
import { lowerComparison, lowerEnds, lowerHas, lowerOneOf } from './comparisons';
import { lowerLogical, lowerNot } from './conditions';
import type { Environment, ItemTag } from './environment';
import { type LoweredFact, lowerFact } from './facts';
import { lowerCall } from './functions';
import { literal, type WrittenFigure } from './literals';
import { lowerElse, lowerName } from './names';
import { collectTexts } from './texts';

const SHARE: Interval = { low: rational.ZERO, high: rational.ONE };
const NO_TEXTS: ReadonlySet<string> = new Set();

/** For a product that is analysed again and again. */
export interface LoweringMemory {
  readonly recorder: Recorder;
  /** Of the product as it was; no longer to be used. */
  readonly former: Lowering | null;
}

/** What work came to, which names it used, and whether a mode decided anything. */
interface Tracked<Result> {
  readonly result: Result;
  readonly uses: ReadonlySet<string>;
  readonly moded: boolean;
}

export class Lowering {
  readonly extremes: ExtremeFinder;
  /** Given figures as they are written, where figures are variables. */
  readonly written = new Map<string, WrittenFigure>();
  /** Figures whose present value decided what a term is made of: where they move, it has to be made anew. */
  readonly held = new Set<Variable>();
  /** Conditions that did so by whether they hold: nothing is made anew while they hold as they did. */
  readonly heldConditions = new Map<Variable, Set<Condition>>();
  /** One variable for one given figure, whatever names it. */
  readonly variables: Map<string, Variable>;
  /** By name, then by mode and item. */
  readonly facts: Map<string, Map<string, LoweredFact>>;
  /** The facts that each fact names directly, by its name and the mode where that matters. */
  readonly named: Map<string, readonly Fact[]>;
  /** Facts being lowered now, outermost first. */
  readonly active: Fact[] = [];
  /** How the present fact was come to: those being lowered, and those whose turn waits for what they rest on. */
  readonly trail: Fact[] = [];
  /** Worth saying though it decides nothing: sums over no row. With a memory they are kept there. */
  readonly notes: Reason[] = [];
  /** Names used since the innermost {@link tracked} began. */
  private uses = new Set<string>();
  private moded = false;
  private readonly directUses: Map<string, Set<string>>;
  private texts: ReadonlyMap<string, ReadonlySet<string>> | null = null;
  /** Aggregates of the requirement at work, by their node and mode; null outside of {@link together}. */
  private aggregates: Map<AggregateNode, Map<string | null, Tracked<Typed>>> | null = null;

  /**
   * @param figures whether exact given figures are constants, or variables that may be asked how far they may move
   * @param memory what was worked out for the product as it was before; it is taken over
   */
  constructor(
    readonly product: Product,
    readonly figures: 'constants' | 'variables' = 'constants',
    private readonly memory: LoweringMemory | null = null,
  ) {
    const former = memory?.former ?? null;
    this.extremes = former?.extremes ?? ExtremeFinder.ofDesign();
    this.variables = former?.variables ?? new Map();
    this.facts = former?.facts ?? new Map();
    this.named = former?.named ?? new Map();
    this.directUses = former?.directUses ?? new Map();
  }

  /** Does a fact's own work, and keeps what it rests on. */
  workOn<Result>(fact: Fact, work: () => Result): Result {
    if (this.memory === null) return work();
    return this.memory.recorder.run(fact.name, () => {
      this.note(keys.fact(fact.name));
      return work();
    });
  }

  /** Says what is worth saying though it decides nothing. */
  remark(note: Reason): void {
    if (this.memory === null) this.notes.push(note);
    else this.memory.recorder.keep(note);
  }

  private unnoted<Result>(work: () => Result): Result {
    return this.memory === null ? work() : this.memory.recorder.unnoted(work);
  }

  /** Keeps that what is at work now rests on this. */
  note(key: string): void {
    this.memory?.recorder.note(key);
  }

  /** Forgets what was worked out of a fact, in every mode and for every item. */
  forgetFact(name: string): void {
    this.facts.delete(name);
    for (const mode of ['null', ...this.product.modes]) this.named.delete(`${name}@${mode}`);
    this.named.delete(name);
    this.directUses.delete(name);
  }

  expression(node: Expression, environment: Environment): Typed {
    switch (node.type) {
      case 'missing':
        return undecided();
      case 'literal':
        return literal(this, node.value, environment, node.span);
      case 'text':
        return { type: 'text', text: node.text };
      case 'boolean':
        return { type: 'condition', condition: { type: 'known', holds: node.value, support: new Set() } };
      case 'set':
        return this.set(node, environment);
      case 'name':
        return lowerName(this, node, environment);
      case 'unary':
        return node.operator === 'not' ? lowerNot(this, node, environment) : lowerNegation(this, node, environment);
      case 'binary':
        return lowerBinary(this, node, environment);
      case 'power':
        return lowerPower(this, node, environment);
      case 'comparison':
        return lowerComparison(this, node, environment);
      case 'ends':
        return lowerEnds(this, node, environment);
      case 'one-of':
        return lowerOneOf(this, node, environment);
      case 'has':
        return lowerHas(this, node, environment);
      case 'logical':
        return lowerLogical(this, node, environment);
      case 'else':
        return lowerElse(this, node, environment);
      case 'call':
        return lowerCall(this, node, environment);
      case 'aggregate':
        return this.aggregate(node, environment);
    }
  }

  /** Does all work on one requirement: reading its sentence, judging it and showing it ask for the same sums. */
  together<Result>(work: () => Result): Result {
    const before = this.aggregates;
    this.aggregates = new Map();
    try {
      return work();
    } finally {
      this.aggregates = before;
    }
  }

  private aggregate(node: AggregateNode, environment: Environment): Typed {
    const { mode, row, item, scope } = environment;
    const isAtRoot = row === null && item === null && scope.length === 0;
    if (this.aggregates === null || !isAtRoot) return lowerAggregate(this, node, environment);
    const byMode = this.aggregates.get(node) ?? new Map<string | null, Tracked<Typed>>();
    this.aggregates.set(node, byMode);
    const known = byMode.get(mode) ?? this.tracked(() => lowerAggregate(this, node, environment));
    byMode.set(mode, known);
    for (const name of known.uses) this.uses.add(name);
    if (known.moded) this.moded = true;
    return known.result;
  }

  fact(fact: Fact, mode: string | null, tag: ItemTag): Typed {
    this.uses.add(fact.name);
    this.note(keys.lowered(fact.name));
    const lowered = lowerFact(this, fact, mode, tag);
    if (lowered.moded) this.moded = true;
    return lowered.typed;
  }

  /** The names and every name that they rest on in turn. */
  restsOn(names: Iterable<string>): ReadonlySet<string> {
    const reached = new Set(names);
    for (const name of reached) for (const below of this.directUses.get(name) ?? []) reached.add(below);
    return reached;
  }

  /** Keeps which names a fact's own expression uses, in whichever mode. */
  noteFactUses(fact: Fact, names: ReadonlySet<string>): void {
    const known = this.directUses.get(fact.name);
    if (known === undefined) this.directUses.set(fact.name, new Set(names));
    else for (const name of names) known.add(name);
  }

  /** Forgets what was under way when a mistake of ours broke it off. */
  abandon(): void {
    this.active.length = 0;
    this.trail.length = 0;
    this.uses = new Set();
    this.moded = false;
  }

  /** Notes that the result depends on which mode is taken. */
  noteMode(): void {
    this.moded = true;
  }

  /** Runs work that takes a mode of its own: that it is moded says nothing of what stands around it. */
  inOwnMode<Result>(work: () => Result): Result {
    const before = this.moded;
    const result = work();
    this.moded = before;
    return result;
  }

  noteUse(name: string): void {
    this.uses.add(name);
  }

  /** Runs the work and says which names it used and whether a mode decided anything. */
  tracked<Result>(work: () => Result): Tracked<Result> {
    const before = { uses: this.uses, moded: this.moded };
    this.uses = new Set();
    this.moded = false;
    const result = work();
    const outcome = { result, uses: this.uses, moded: this.moded };
    this.uses = before.uses;
    this.moded = before.moded;
    return outcome;
  }

  /** Marks that the present values of these decide what a term is made of. */
  hold(support: Support): void {
    for (const variable of support) this.held.add(variable);
  }

  /** Whether a condition holds as the design stands, whatever its spread; null where that leaves it open. */
  known(condition: Condition): boolean | null {
    if (condition.type === 'known') return condition.holds;
    const decided = this.extremes.decide(condition, 'full');
    if (decided === null) return null;
    for (const variable of condition.support) {
      const known = this.heldConditions.get(variable);
      if (known === undefined) this.heldConditions.set(variable, new Set([condition]));
      else known.add(condition);
    }
    return decided;
  }

  /** The term of an own unit's or currency's declared value (`units.USD`); null where it has none. */
  rate(name: string): { readonly term: Term; readonly place: Place } | null {
    const fact = this.product.facts.get(name);
    const typed = fact === undefined ? null : this.fact(fact, null, 'item');
    if (fact === undefined || typed?.type !== 'quantity') return null;
    return { term: typed.term, place: { file: fact.file, span: fact.span } };
  }

  /** How far a value lies between two derived ends: any share from 0 to 1, unbounded past an end that is open. */
  share(id: string, name: string, place: Place, hasLow: boolean, hasHigh: boolean): Variable {
    const extent =
      hasLow && hasHigh ? SHARE : hasLow ? { low: rational.ZERO, high: null } : { low: null, high: rational.ZERO };
    return this.variableOnce({
      id,
      name,
      place,
      spread: 'range',
      isSymmetric: false,
      unit: null,
      full: extent,
      typical: extent,
    });
  }

  /** Which share of a row's other items meets a condition that their spread leaves open. */
  openShare(id: string, name: string, place: Place, condition: Condition): Variable {
    const decided = this.extremes.decide(condition, 'typical');
    const typical = decided === true ? interval.point(rational.ONE) : decided === false ? interval.ZERO : SHARE;
    return this.variableOnce({
      id,
      name,
      place,
      spread: 'tolerance',
      isSymmetric: false,
      unit: null,
      full: SHARE,
      typical,
    });
  }

  /** Every text that the field has somewhere in the product; what is on trial does not make a slip of the pen of another. */
  textsOf(field: string): ReadonlySet<string> {
    const { facts, writtenFacts } = this.product;
    this.note(keys.allTexts);
    const all = facts === writtenFacts ? [facts] : [writtenFacts, facts];
    this.texts ??= this.unnoted(() => collectTexts(all.flatMap((some) => [...some.values()])));
    return this.texts.get(field) ?? NO_TEXTS;
  }

  /** An end of a computed figure of which only bounds are known. */
  unsureEnd(id: string, name: string, place: Place, within: Interval): Variable {
    return this.variableOnce({
      id,
      name,
      place,
      spread: 'tolerance',
      isSymmetric: false,
      unit: null,
      full: within,
      typical: within,
    });
  }

  private variableOnce(created: Variable): Variable {
    this.note(keys.variable(created.id));
    const known = this.variables.get(created.id);
    if (known !== undefined) return known;
    this.variables.set(created.id, created);
    return created;
  }

  private set(node: Expression & { type: 'set' }, environment: Environment): Typed {
    const items = node.items.map((item) => this.expression(item, environment));
    const wrong = items.find((item) => item.type !== 'quantity' && item.type !== 'text');
    if (wrong?.type === 'undecided') return wrong;
    return { type: 'set', items: items.filter((item) => item.type === 'quantity' || item.type === 'text') };
  }
}
