/** hides: a name that means one fact inside its group and another outside, so that the outer one cannot be read by it. */
import type { Analysis } from '../engine/analysis';
import { CONFIGURATION_FILE } from '../model/configuration';
import type { Fact } from '../model/fact';
import type { Draft } from './finding';

export function* hidingNames({ product }: Analysis): Iterable<Draft> {
  const fields = new Set<string>();
  for (const fact of product.facts.values()) {
    if (fact.file === CONFIGURATION_FILE || isRepeated(fact, fields)) continue;
    const hiding = hiddenBy(fact, product.facts);
    if (hiding !== null) yield draft(fact, hiding);
  }
}

/** A field hides the same name in every row of its table: it is told once. */
function isRepeated({ name, row }: Fact, fields: Set<string>): boolean {
  if (row === null) return false;
  const field = `${row.table}.*${name.slice(row.table.length + row.id.length + 1)}`;
  const isKnown = fields.has(field);
  fields.add(field);
  return isKnown;
}

interface Hiding {
  readonly hidden: Fact;
  /** The name that both can be called by. */
  readonly called: string;
  /** The group inside which it means the hiding one. */
  readonly inside: string;
}

/** The nearest further out that is called by the same last parts; null where there is none. */
function hiddenBy({ name }: Fact, facts: ReadonlyMap<string, Fact>): Hiding | null {
  const parts = name.split('.');
  for (let own = 1; own < parts.length; own += 1) {
    const called = parts.slice(-own);
    for (let outer = parts.length - own - 1; outer >= 0; outer -= 1) {
      const hidden = facts.get([...parts.slice(0, outer), ...called].join('.'));
      if (hidden !== undefined) return { hidden, called: called.join('.'), inside: parts.slice(0, -own).join('.') };
    }
  }
  return null;
}

function draft(fact: Fact, { hidden, called, inside }: Hiding): Draft {
  const where = fact.row === null ? inside : `a row of ${fact.row.table}`;
  const mend =
    hidden.name === called ? 'rename one of them' : `rename one of them, or write ${hidden.name} for the outer one`;
  return {
    code: 'hides',
    message: `${fact.name} hides ${hidden.name}: in ${where}, “${called}” means ${fact.name}; ${mend}`,
    place: { file: fact.file, span: fact.nameSpan },
    related: [{ place: { file: hidden.file, span: hidden.nameSpan }, message: `${hidden.name} stands here` }],
  };
}
