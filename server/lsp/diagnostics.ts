/** Findings → diagnostics of the protocol, each related to the figures it rests on, and the figures to what they break. */
import { type Diagnostic, type DiagnosticRelatedInformation, DiagnosticSeverity } from 'vscode-languageserver';
import type { Severity } from '../../grammar/findings';
import type { Finding, Related } from '../findings/finding';
import type { Place } from '../model/place';
import type { Positions } from './positions';

/** How places of a product become places of the protocol. */
export interface Placing {
  uriOf(file: string): string;
  positionsOf(file: string): Positions;
}

const SOURCE = 'plimsoll';

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

/** Figures beside a broken limit that are marked themselves. */
const MOST_FIGURES = 3;

/** By file: what is found in it, and on its figures what they break; in order of place. */
export function diagnosticsOf(
  findings: readonly Finding[],
  placing: Placing,
): ReadonlyMap<string, readonly Diagnostic[]> {
  const byFile = new Map<string, Diagnostic[]>();
  const add = (file: string, diagnostic: Diagnostic) => {
    const known = byFile.get(file);
    if (known === undefined) byFile.set(file, [diagnostic]);
    else known.push(diagnostic);
  };
  for (const finding of findings) add(finding.place.file, diagnosticOf(finding, placing));
  for (const { place, breaks } of figuresThatBreak(findings)) add(place.file, figureDiagnostic(place, breaks, placing));
  for (const diagnostics of byFile.values()) diagnostics.sort(byPlace);
  return byFile;
}

export function diagnosticOf(finding: Finding, placing: Placing): Diagnostic {
  const { code, severity, message, place, related } = finding;
  return {
    range: rangeOf(place, placing),
    severity: SEVERITIES[severity],
    code,
    source: SOURCE,
    message,
    ...(related.length > 0 && { relatedInformation: related.map((one) => relatedOf(one, placing)) }),
  };
}

interface BreakingFigure {
  readonly place: Place;
  readonly breaks: readonly Finding[];
}

/** The figures that broken limits name, each with all that it breaks. */
function figuresThatBreak(findings: readonly Finding[]): Iterable<BreakingFigure> {
  const byPlace = new Map<string, { readonly place: Place; readonly breaks: Finding[] }>();
  for (const finding of findings) {
    if (finding.code !== 'unmet' && finding.code !== 'at-risk') continue;
    for (const { place } of finding.related.slice(0, MOST_FIGURES)) {
      const key = `${place.file} ${place.span.start}`;
      const known = byPlace.get(key) ?? { place, breaks: [] };
      byPlace.set(key, known);
      known.breaks.push(finding);
    }
  }
  return byPlace.values();
}

function figureDiagnostic(place: Place, breaks: readonly Finding[], placing: Placing): Diagnostic {
  const [first] = breaks;
  const more = breaks.length > 1 ? ` (and ${breaks.length - 1} more)` : '';
  return {
    range: rangeOf(place, placing),
    severity: DiagnosticSeverity.Information,
    code: first?.code ?? 'unmet',
    source: SOURCE,
    message: `${first?.code === 'unmet' ? 'breaks' : 'puts at risk'} ${first?.message ?? ''}${more}`,
    relatedInformation: breaks.map((finding) => relatedOf({ place: finding.place, message: finding.message }, placing)),
  };
}

function relatedOf({ place, message }: Related, placing: Placing): DiagnosticRelatedInformation {
  return { location: { uri: placing.uriOf(place.file), range: rangeOf(place, placing) }, message };
}

function rangeOf({ file, span }: Place, placing: Placing): Diagnostic['range'] {
  return placing.positionsOf(file).rangeOf(span);
}

function byPlace(a: Diagnostic, b: Diagnostic): number {
  return (
    a.range.start.line - b.range.start.line ||
    a.range.start.character - b.range.start.character ||
    a.range.end.line - b.range.end.line ||
    a.range.end.character - b.range.end.character ||
    compare(String(a.code), String(b.code)) ||
    compare(String(a.message), String(b.message))
  );
}

function compare(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
