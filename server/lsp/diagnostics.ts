/** Findings → diagnostics of the protocol, each related to the figures it rests on, and the figures to what they break. */
import { type Diagnostic, type DiagnosticRelatedInformation, DiagnosticSeverity } from 'vscode-languageserver';
import type { Severity } from '../../grammar/findings';
import type { FindingsByFile } from '../findings/collect';
import type { Finding, Related } from '../findings/finding';
import { groupBy } from '../model/group-by';
import type { Place } from '../model/place';
import { holdsSame } from '../model/same';
import { calm } from './calm';
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

/** Diagnostics as they were made last, and what they were made from. */
export interface DiagnosticMemory {
  /** By file. */
  readonly files: Map<string, MadeDiagnostics>;
  breaking: Breaking;
}

/** Figures that broken limits name, and the limits by file. */
interface Breaking {
  readonly limits: readonly (readonly Finding[])[];
  readonly figures: ReadonlyMap<string, readonly BreakingFigure[]>;
}

export function createDiagnosticMemory(): DiagnosticMemory {
  return { files: new Map(), breaking: { limits: [], figures: new Map() } };
}

interface MadeDiagnostics {
  readonly findings: readonly Finding[];
  readonly figures: readonly BreakingFigure[];
  /** Of every file that they point into. */
  readonly positions: ReadonlyMap<string, Positions>;
  readonly diagnostics: readonly Diagnostic[];
}

/**
 * By file: what is found in it, and on its figures what they break; in order of place.
 * @param memory of the same documents under the same URIs; a file's diagnostics are the same array while nothing is other
 */
export function diagnosticsOf(
  byFile: FindingsByFile,
  placing: Placing,
  memory: DiagnosticMemory,
): ReadonlyMap<string, readonly Diagnostic[]> {
  const { figures } = figuresThatBreak(byFile, memory);
  const made = new Map<string, readonly Diagnostic[]>();
  for (const file of new Set([...byFile.keys(), ...figures.keys()])) {
    const findings = byFile.get(file) ?? [];
    made.set(file, diagnosticsIn(file, findings, figures.get(file) ?? [], placing, memory));
  }
  for (const file of memory.files.keys()) if (!made.has(file)) memory.files.delete(file);
  return made;
}

function diagnosticsIn(
  file: string,
  findings: readonly Finding[],
  figures: readonly BreakingFigure[],
  placing: Placing,
  memory: DiagnosticMemory,
): readonly Diagnostic[] {
  const known = memory.files.get(file);
  if (known?.findings === findings && isSameFigures(known.figures, figures) && isPlacedAsBefore(known, placing))
    return known.diagnostics;
  const positions = new Map<string, Positions>();
  const noting: Placing = {
    uriOf: (of) => placing.uriOf(of),
    positionsOf: (of) => {
      const found = positions.get(of) ?? placing.positionsOf(of);
      positions.set(of, found);
      return found;
    },
  };
  const diagnostics = [
    ...calm(findings).map((finding) => diagnosticOf(finding, noting)),
    ...figures.map(({ place, breaks }) => figureDiagnostic(place, breaks, noting)),
  ].sort(byPlace);
  memory.files.set(file, { findings, figures, positions, diagnostics });
  return diagnostics;
}

function isSameFigures(a: readonly BreakingFigure[], b: readonly BreakingFigure[]): boolean {
  if (a === b) return true;
  return a.length === b.length && a.every(({ breaks }, index) => holdsSame(breaks, b[index]?.breaks ?? []));
}

function isPlacedAsBefore({ positions }: MadeDiagnostics, placing: Placing): boolean {
  for (const [file, known] of positions) if (placing.positionsOf(file) !== known) return false;
  return true;
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

/** By file, the figures that broken limits name, each with all that it breaks; as before while the limits are. */
function figuresThatBreak(byFile: FindingsByFile, memory: DiagnosticMemory): Breaking {
  const limits = [...byFile.values()].map(brokenIn).filter(({ length }) => length > 0);
  if (!holdsSame(limits, memory.breaking.limits)) memory.breaking = { limits, figures: figuresOf(limits) };
  return memory.breaking;
}

function figuresOf(limits: readonly (readonly Finding[])[]): Breaking['figures'] {
  const byPlace = new Map<string, { readonly place: Place; readonly breaks: Finding[] }>();
  for (const findings of limits) {
    for (const finding of findings) {
      for (const { place } of finding.related.slice(0, MOST_FIGURES)) {
        const key = `${place.file} ${place.span.start}`;
        const known = byPlace.get(key) ?? { place, breaks: [] };
        byPlace.set(key, known);
        known.breaks.push(finding);
      }
    }
  }
  return groupBy([...byPlace.values()], ({ place }) => place.file);
}

const broken = new WeakMap<readonly Finding[], readonly Finding[]>();

function brokenIn(findings: readonly Finding[]): readonly Finding[] {
  const known = broken.get(findings) ?? findings.filter(({ code }) => code === 'unmet' || code === 'at-risk');
  broken.set(findings, known);
  return known;
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
