/** Code lenses: over a requirement how it stands, over a fact what rests on it and what it breaks. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { Place } from '../model/place';
import type { Span } from '../syntax/span';
import { marginOf } from './figures';

export interface CodeLens {
  readonly span: Span;
  readonly title: string;
  /** What it is about: a requirement's id or a fact's full name. */
  readonly subject: string;
  /** Where it leads to. */
  readonly places: readonly Place[];
}

/** In text order. Their form is fixed, so that lines do not come and go while somebody types. */
export function lensesIn(analysis: Analysis, file: string): readonly CodeLens[] {
  const lenses = analysis.requirements
    .filter(({ requirement }) => requirement.file === file)
    .map((result) => requirementLens(analysis, result));
  return [...lenses, ...factLenses(analysis, file)].sort((a, b) => a.span.start - b.span.start);
}

function requirementLens({ product }: Analysis, result: RequirementResult): CodeLens {
  const { requirement, verdict, evidence, uses } = result;
  const margin = marginOf(result);
  const parts = [verdict, margin === '' ? 'no margin' : `margin ${margin}`, evidence.state];
  const places = [...uses].flatMap((name) => {
    const fact = product.facts.get(name);
    return fact === undefined || fact.content.type === 'expression' ? [] : [{ file: fact.file, span: fact.nameSpan }];
  });
  return { span: requirement.idSpan, title: parts.join(' · '), subject: requirement.id, places };
}

function factLenses({ product, requirements }: Analysis, file: string): readonly CodeLens[] {
  const document = product.documents.find((one) => one.file === file);
  const own = (document?.facts ?? []).filter((fact) => fact.file === file);
  if (own.length === 0) return [];
  const names = new Set(own.map(({ name }) => name));
  const resting = new Map<string, RequirementResult[]>();
  for (const result of requirements)
    for (const name of result.uses) if (names.has(name)) resting.set(name, [...(resting.get(name) ?? []), result]);
  return own.flatMap((fact) => {
    const all = resting.get(fact.name) ?? [];
    if (all.length === 0) return [];
    const broken = all.filter(({ verdict }) => verdict === 'unmet' || verdict === 'at risk');
    const kept = `${all.length} ${all.length === 1 ? 'requirement rests' : 'requirements rest'} on it`;
    const ids = broken.map(({ requirement, verdict }) => `${requirement.id} ${verdict}`).join(', ');
    return {
      span: fact.nameSpan,
      title: broken.length === 0 ? kept : `${kept} · ${ids}`,
      subject: fact.name,
      places: all.map(({ requirement }) => ({ file: requirement.file, span: requirement.idSpan })),
    };
  });
}
