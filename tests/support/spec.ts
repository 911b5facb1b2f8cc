/** Specifications as Markdown with marks: headings are test names, four-backtick blocks are files, carets name findings. */

import { checkText, type TextStyle } from '../../server/reports/check-text';
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

/** A line of carets under a text: a finding of this code is expected exactly there. */
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
const PLAIN: TextStyle = { paint: (_, text) => text, pad: (text, columns) => text.padEnd(columns) };

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

/** What differs between the case and what the product says; empty when nothing does. */
export function differences(specCase: SpecCase): readonly string[] {
  const result = analyseFiles(specCase.files);
  const found = result.findings
    .filter(({ severity }) => severity !== 'hint')
    .map((finding) => {
      const index = createLineIndex(result.texts.get(finding.place.file) ?? '');
      const start = index.positionAt(finding.place.span.start);
      const end = index.positionAt(finding.place.span.end);
      const to = end.line === start.line ? end.character : Number.POSITIVE_INFINITY;
      return { ...finding, line: start.line, from: start.character, to };
    });
  const unmatched = new Set(found);
  const missing: string[] = [];
  for (const mark of specCase.marks) {
    const match = [...unmatched].find(
      (finding) =>
        finding.place.file === mark.file &&
        finding.line === mark.line &&
        finding.from === mark.from &&
        (finding.to === mark.to || finding.to === Number.POSITIVE_INFINITY) &&
        finding.code === mark.code &&
        finding.message.includes(mark.words),
    );
    if (match === undefined)
      missing.push(
        `expected ${mark.code} at ${mark.file}:${mark.line + 1}:${mark.from + 1}-${mark.to} “${mark.words}”`,
      );
    else unmatched.delete(match);
  }
  const surplus = [...unmatched].map(
    ({ code, message, place, line, from, to }) =>
      `found ${code} at ${place.file}:${line + 1}:${from + 1}-${to} “${message}”`,
  );
  const verdicts = specCase.verdicts.flatMap((expected) => verdictDifference(expected, result));
  return [...missing, ...surplus, ...verdicts];
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
  return checkText(analyseFiles(files), 'Test', PLAIN).trimEnd();
}

/** The specification with the snapshot of one case replaced. */
export function withReport(text: string, { report }: SpecCase, renewed: string): string {
  if (report === null) return text;
  const lines = text.split('\n');
  return [...lines.slice(0, report.from), renewed, ...lines.slice(report.to)].join('\n');
}
