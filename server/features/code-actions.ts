/** What an editor offers for a part of a document: fixes of findings, stubs of what is missing, other figures to try. */
import type { RequirementResult } from '../engine/analysis';
import type { Finding } from '../findings/finding';
import type { ProductAnalysis } from '../findings/product-analysis';
import type { Span } from '../syntax/span';
import { type CodeAction, editAction, trialAction } from './code-actions/action';
import { attributeStubs } from './code-actions/attribute-stubs';
import { designStubs } from './code-actions/design-stubs';
import { figureActions } from './code-actions/figure-actions';

export type { CodeAction, Trial } from './code-actions/action';

/** In the order of the findings, their own fixes first; a trial of what the part speaks of is the last. */
export function codeActionsIn(whole: ProductAnalysis, file: string, span: Span): readonly CodeAction[] {
  const touched = whole.findings.filter(({ place }) => place.file === file && touches(place.span, span));
  return distinct([
    ...touched.flatMap((finding) => finding.fixes.map((fix) => fixAction(finding, fix))),
    ...touched.flatMap((finding) => offersFor(whole, finding)),
    ...trialsAt(whole, file, span),
  ]);
}

function fixAction(finding: Finding, { title, edits }: Finding['fixes'][number]): CodeAction {
  return editAction(title, finding, finding.place.file, edits, finding.fixes.length === 1);
}

function offersFor(whole: ProductAnalysis, finding: Finding): readonly CodeAction[] {
  const { analysis, texts } = whole;
  const text = texts.get(finding.place.file) ?? '';
  const result = analysis.requirements.find(({ requirement }) => requirement.id === finding.requirement) ?? null;
  return [
    ...(result === null ? [] : figureActions(whole, finding, result)),
    ...(result === null ? [] : attributeStubs(finding, result, text)),
    ...designStubs(analysis, finding, result, text),
  ];
}

/** On a requirement's id or sentence. */
function trialsAt(whole: ProductAnalysis, file: string, span: Span): readonly CodeAction[] {
  const { requirements } = whole.analysis;
  return requirements
    .filter((result) => result.requirement.file === file && isOn(result, span) && result.criteria.length > 0)
    .map(({ requirement: { id } }) => trialAction(`Try other figures for ${id}`, null, id));
}

function isOn({ requirement: { idSpan, statementSpan } }: RequirementResult, span: Span): boolean {
  return touches(idSpan, span) || touches(statementSpan, span);
}

/** Two findings of one requirement may offer the same. */
function distinct(actions: readonly CodeAction[]): readonly CodeAction[] {
  const known = new Set<string>();
  return actions.filter(({ title, edits }) => {
    const key = JSON.stringify([title, [...edits]]);
    if (known.has(key)) return false;
    known.add(key);
    return true;
  });
}

/** A cursor at either end of a finding is on it. */
function touches(a: Span, b: Span): boolean {
  return a.start <= b.end && b.start <= a.end;
}
