/** All figures of a product that may be moved, in the order of its facts. */
import type { Fact } from '../../model/fact';
import type { Product } from '../../model/product';
import type { Rational } from '../../quantity/rational';
import { figureName } from '../lowering/literals';
import type { Lowering } from '../lowering/lowering';
import type { Variable } from '../term';
import type { Changes } from '../trial';
import { type Figure, figuresOf, valueAt } from './figure';

/** @param lowering one in which figures are variables, after all terms were made that are asked about */
export function* allFigures(lowering: Lowering): Iterable<Figure> {
  const kinds = ownKinds(lowering.product);
  for (const fact of lowering.product.facts.values()) yield* figuresOfFact(lowering, fact, kinds);
}

/** The figures of one fact: none of a derived one, one or several of each written quantity. */
export function figuresOfFact(lowering: Lowering, fact: Fact, kinds: ReadonlySet<string>): readonly Figure[] {
  const { content } = fact;
  const contents =
    content.type === 'modes'
      ? [...content.modes]
      : ([[null, content]] as const).map(([mode, own]) => [mode, own] as const);
  return contents.flatMap(([mode, own]) => {
    if (own.type !== 'value' || own.value.type !== 'quantity') return [];
    const name = figureName(fact, mode);
    return figuresOf(name, fact, mode, own.value, lowering.written.get(name) ?? null, kinds);
  });
}

/** Units that the product declares to count something. */
export function ownKinds({ configuration }: Product): ReadonlySet<string> {
  return new Set([...configuration.units].flatMap(([name, { text }]) => (text === 'kind' ? [name] : [])));
}

/** The variables that stand for the figure in terms. */
export function variablesOf({ written }: Figure): readonly Variable[] {
  return written === null ? [] : [...written.variables, ...written.ends.values()];
}

/** The figure moved, as a change of the design. */
export function changeTo(figure: Figure, at: Rational): Changes {
  return { values: [{ name: figure.fact.name, mode: figure.mode, value: valueAt(figure, at) }], without: [] };
}
