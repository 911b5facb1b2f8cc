/** hides: a name that means one fact inside its group and another outside, so that the outer one cannot be read by it. */
import type { Analysis } from '../engine/analysis';
import type { AnalysisPart } from '../engine/parts';
import { namesOf } from '../engine/recorder';
import type { Fact } from '../model/fact';
import type { Draft } from './finding';

export function* hidingNames({ product }: Analysis, { document, facts }: AnalysisPart): Iterable<Draft> {
  if (document === null) return;
  const fields = new Set<string>();
  const names = namesOf(product.facts);
  for (const { fact } of facts) {
    if (isRepeated(fact, fields)) continue;
    const hiding = hiddenBy(fact, product.facts, names);
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

type Names = ReturnType<typeof namesOf>;

interface Hiding {
  readonly hidden: Fact;
  /** The name that both can be called by. */
  readonly called: string;
  /** The group inside which it means the hiding one. */
  readonly inside: string;
}

/** The nearest further out that is called by the same last parts; null where there is none. */
function hiddenBy({ name }: Fact, facts: ReadonlyMap<string, Fact>, names: Names): Hiding | null {
  const parts = name.split('.');
  for (let own = 1; own < parts.length; own += 1) {
    const called = parts.slice(-own);
    for (let outer = parts.length - own - 1; outer >= 0; outer -= 1) {
      const further = [...parts.slice(0, outer), ...called].join('.');
      const hidden = names.has(further) ? facts.get(further) : undefined;
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
