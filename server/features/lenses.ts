/** Code lenses: over a requirement how it stands, over a fact what rests on it and what it breaks. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { Verdict } from '../engine/verdict';
import type { Place } from '../model/place';
import type { Span } from '../syntax/span';
import type { Trial } from './code-actions/action';
import { marginOf } from './figures';

export interface CodeLens {
  readonly span: Span;
  readonly title: string;
  /** What it is about: a requirement's id or a fact's full name. */
  readonly subject: string;
  /** Where it leads to. */
  readonly places: readonly Place[];
  /** Other figures can be tried for it; null where nothing is judged by figures. */
  readonly trial: Trial | null;
}

export type HeldVerdicts = ReadonlyMap<string, { readonly verdict: Verdict }>;

/**
 * In text order. Their form is fixed, so that lines do not come and go while somebody types.
 *
 * @param held by id, verdicts that stand for a moment longer while a figure is being typed
 */
export function lensesIn(analysis: Analysis, file: string, held: HeldVerdicts = new Map()): readonly CodeLens[] {
  const lenses = analysis.requirements
    .filter(({ requirement }) => requirement.file === file)
    .map((result) => requirementLens(analysis, result, held));
  return [...lenses, ...factLenses(analysis, file, held)].sort((a, b) => a.span.start - b.span.start);
}

/** The verdict that is shown. */
export function shownVerdict({ requirement: { id }, verdict }: RequirementResult, held: HeldVerdicts): Verdict {
  return held.get(id)?.verdict ?? verdict;
}

/** The margin that is shown; empty where there is none. A verdict that only stands for a moment longer has one of before. */
export function shownMargin(result: RequirementResult, held: HeldVerdicts): string {
  return shownVerdict(result, held) === result.verdict ? marginOf(result) : '…';
}

function requirementLens({ product }: Analysis, result: RequirementResult, held: HeldVerdicts): CodeLens {
  const { requirement, evidence, uses } = result;
  const margin = shownMargin(result, held);
  const parts = [shownVerdict(result, held), margin === '' ? 'no margin' : `margin ${margin}`, evidence.state];
  const places = [...uses].flatMap((name) => {
    const fact = product.facts.get(name);
    return fact === undefined || fact.content.type === 'expression' ? [] : [{ file: fact.file, span: fact.nameSpan }];
  });
  return {
    span: requirement.idSpan,
    title: parts.join(' · '),
    subject: requirement.id,
    places,
    trial: trialOf(result),
  };
}

function trialOf({ requirement: { id }, criteria }: RequirementResult): Trial | null {
  return criteria.length === 0 ? null : { requirement: id, values: [] };
}

function factLenses({ product, requirements }: Analysis, file: string, held: HeldVerdicts): readonly CodeLens[] {
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
    const broken = all.filter((result) => ['unmet', 'at risk'].includes(shownVerdict(result, held)));
    const kept = `${all.length} ${all.length === 1 ? 'requirement rests' : 'requirements rest'} on it`;
    const ids = broken.map((result) => `${result.requirement.id} ${shownVerdict(result, held)}`).join(', ');
    return {
      span: fact.nameSpan,
      title: broken.length === 0 ? kept : `${kept} · ${ids}`,
      subject: fact.name,
      places: all.map(({ requirement }) => ({ file: requirement.file, span: requirement.idSpan })),
      trial: null,
    };
  });
}
