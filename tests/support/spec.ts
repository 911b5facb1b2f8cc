/** Specifications as Markdown with marks: headings are test names, four-backtick blocks are files, carets name findings. */

import { checkText } from '../../server/reports/check-text';
import type { TextStyle } from '../../server/reports/text-style';
import { createLineIndex } from '../../server/syntax/line-index';
import { analyseFiles } from './analyse';

export interface SpecCase {
  readonly name: string;
  /** Where its heading stands, counted from 1. */
  readonly line: number;
  readonly files: Readonly<Record<string, string>>;
  readonly marks: readonly Mark[];
  /** `P-1: met` or `P-1: met supply.draw <= 60 W; within …`: verdicts, and with them the criteria as read. */
  readonly verdicts: readonly string[];
  /** A snapshot of the text report, and where it stands in the specification. */
  readonly report: { readonly text: string; readonly from: number; readonly to: number } | null;
}

/** A line of carets under a text: a finding of this code is expected exactly there; one caret for an empty place. */
export interface Mark {
  readonly file: string;
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly code: string;
  /** Words that its message must hold. */
  readonly words: string;
}

const MARK = /^(\s*)(\^+) ([a-z-]+)(?: (.*))?$/;
const PLAIN: TextStyle = {
  paint: (_, text) => text,
  pad: (text, columns) => text.padEnd(columns),
  padStart: (text, columns) => text.padStart(columns),
};

export function readSpec(text: string): readonly SpecCase[] {
  const lines = text.split('\n');
  const cases: SpecCase[] = [];
  let trail: string[] = [];
  let current = emptyCase('', 1);
  const finish = () => {
    if (Object.keys(current.files).length > 0) cases.push(current);
  };
  for (let index = 0; index < lines.length; index += 1) {
    const line = lines[index] as string;
    const heading = /^(#+) (.*)$/.exec(line);
    const fence = /^(`{3,})(\S+)(?: (\S+))?$/.exec(line);
    if (heading) {
      finish();
      const [, marks = '', title = ''] = heading;
      trail = [...trail.slice(0, marks.length - 1), title];
      current = emptyCase(trail.join(' › '), index + 1);
    } else if (fence) {
      const end = lines.indexOf(fence[1] as string, index + 1);
      current = withBlock(current, fence, lines.slice(index + 1, end), index + 1, end);
      index = end;
    }
  }
  finish();
  return cases;
}

function emptyCase(name: string, line: number): SpecCase {
  return { name, line, files: {}, marks: [], verdicts: [], report: null };
}

function withBlock(
  current: SpecCase,
  fence: RegExpExecArray,
  body: readonly string[],
  from: number,
  to: number,
): SpecCase {
  const [, , language = '', path = ''] = fence;
  if (language === 'verdicts')
    return { ...current, verdicts: [...current.verdicts, ...body.filter((line) => line.trim() !== '')] };
  if (language === 'report') return { ...current, report: { text: body.join('\n'), from, to } };
  const file = path === '' ? 'product.md' : path;
  const { text, marks } = takeMarks(body, file);
  return { ...current, files: { ...current.files, [file]: text }, marks: [...current.marks, ...marks] };
}

function takeMarks(body: readonly string[], file: string): { readonly text: string; readonly marks: readonly Mark[] } {
  const kept: string[] = [];
  const marks: Mark[] = [];
  for (const line of body) {
    const mark = MARK.exec(line);
    if (mark === null) kept.push(line);
    else {
      const [, space = '', carets = '', code = '', words = ''] = mark;
      marks.push({ file, line: kept.length - 1, from: space.length, to: space.length + carets.length, code, words });
    }
  }
  return { text: `${kept.join('\n')}\n`, marks };
}

/** Findings of what most small cases leave out; they count only in cases that mark one. */
const UNASKED: readonly string[] = [
  'contradiction',
  'no-source',
  'over-specified',
  'planned',
  'tighter-than-parent',
  'unneeded',
  'untested',
  'weaker-than-parent',
  'wording',
];

/** What differs between the case and what the product says; empty when nothing does. */
export function differences(specCase: SpecCase): readonly string[] {
  const result = analyseFiles(specCase.files, 'ranges');
  const verdicts = specCase.verdicts.flatMap((expected) => verdictDifference(expected, result));
  // A snapshot of the report shows every finding, so they need no marks besides.
  const onlyReport = specCase.report !== null && specCase.marks.length === 0;
  return onlyReport ? verdicts : [...findingDifferences(specCase.marks, placedFindings(specCase, result)), ...verdicts];
}

interface PlacedFinding extends Omit<Mark, 'words'> {
  readonly message: string;
}

function placedFindings(
  { marks }: SpecCase,
  { findings, texts }: ReturnType<typeof analyseFiles>,
): readonly PlacedFinding[] {
  const asked = marks.map(({ code }) => code);
  return findings
    .filter(({ severity, code }) => severity !== 'hint' && (asked.includes(code) || !UNASKED.includes(code)))
    .map(({ code, message, place: { file, span } }) => {
      const index = createLineIndex(texts.get(file) ?? '');
      const start = index.positionAt(span.start);
      const end = index.positionAt(span.end);
      const width = Math.max(1, end.character - start.character);
      const to = end.line === start.line ? start.character + width : Number.POSITIVE_INFINITY;
      return { code, message, file, line: start.line, from: start.character, to };
    });
}

function findingDifferences(marks: readonly Mark[], found: readonly PlacedFinding[]): readonly string[] {
  const unmatched = new Set(found);
  const missing: string[] = [];
  for (const mark of marks) {
    const match = [...unmatched].find((finding) => isMarked(finding, mark));
    if (match === undefined) missing.push(`expected ${placeOf(mark)} “${mark.words}”`);
    else unmatched.delete(match);
  }
  return [...missing, ...[...unmatched].map((finding) => `found ${placeOf(finding)} “${finding.message}”`)];
}

function isMarked(finding: PlacedFinding, mark: Mark): boolean {
  const isThere = finding.file === mark.file && finding.line === mark.line && finding.from === mark.from;
  const ends = finding.to === mark.to || finding.to === Number.POSITIVE_INFINITY;
  return isThere && ends && finding.code === mark.code && finding.message.includes(mark.words);
}

function placeOf({ code, file, line, from, to }: Omit<Mark, 'words'>): string {
  return `${code} at ${file}:${line + 1}:${from + 1}-${to}`;
}

function verdictDifference(expected: string, { analysis }: ReturnType<typeof analyseFiles>): readonly string[] {
  const [id = '', rest = ''] = expected.split(/: (.*)/);
  const requirement = analysis.requirements.find((result) => result.requirement.id === id.trim());
  if (requirement === undefined) return [`there is no ${id}`];
  const criteria = requirement.criteria.map(({ criterion }) => criterion.text).join('; ');
  const full = `${requirement.verdict} ${criteria}`.trim();
  return rest.trim() === full || rest.trim() === requirement.verdict
    ? []
    : [`${id}: expected “${rest.trim()}”, is “${full}”`];
}

/** The text report of a case, as a snapshot block holds it. */
export function reportOf({ files }: SpecCase): string {
  return checkText(analyseFiles(files, 'ranges'), 'Test', PLAIN).trimEnd();
}

/** The specification with the snapshot of one case replaced. */
export function withReport(text: string, { report }: SpecCase, renewed: string): string {
  if (report === null) return text;
  const lines = text.split('\n');
  return [...lines.slice(0, report.from), renewed, ...lines.slice(report.to)].join('\n');
}
