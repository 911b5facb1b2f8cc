/** `verification` and `verifications` of front matter → records, each mistake in them at its place. */
import * as z from 'zod';
import { isDay } from '../quantity/calendar';
import type { Problem, Span } from '../syntax/span';
import { doubtIn, type YamlEntry, type YamlMap, type YamlNode } from '../syntax/yaml-node';
import { problemsOfEntry } from './configuration-problems';
import {
  type Complaint,
  type ConfigurationText,
  choice,
  complain,
  fixedKeys,
  freeKeys,
  jsonSchemaOf,
  list,
  placedText,
  scalar,
} from './configuration-reading';
import { type ReadingContext, readContent } from './read-content';
import { METHODS, type ProvedValue, RESULTS, type RunValue, type TestRun, type Verification } from './verification';

export interface ReadVerifications {
  readonly verifications: readonly Verification[];
  readonly problems: readonly Problem[];
}

/** Reads the records of one document. A record or a run with a mistake is left out, and the rest is read. */
export function readVerifications(frontMatter: YamlMap, file: string, context: ReadingContext): ReadVerifications {
  const reader: Reader = { file, context, verifications: [], problems: [] };
  for (const entry of frontMatter.entries) {
    if (entry.key === 'verification') readRecord(reader, entry, singleRecord(frontMatter, entry));
    else if (entry.key === 'verifications') readList(reader, entry);
  }
  return reader;
}

interface Reader {
  readonly file: string;
  readonly context: ReadingContext;
  readonly verifications: Verification[];
  readonly problems: Problem[];
}

const node = () => z.custom<YamlNode>((value) => value !== undefined);

const date = scalar({ type: 'string', format: 'date' }, (written): ConfigurationText | Complaint =>
  isDay(written.text)
    ? { text: written.text, scalar: written }
    : complain(`“${written.text}” is no day of the calendar: write year-month-day (2026-10-02)`),
);

/** The keys of a record, in the order in which they are written. */
export const RECORD_SHAPE = {
  id: placedText().describe('What attributes and other records call it.'),
  title: placedText().optional().describe('What people call it.'),
  method: choice(METHODS).describe('How it verifies.'),
  verifies: list(placedText(), ({ text }) => text)
    .optional()
    .describe('Ids of the requirements that it speaks for.'),
  runs: node().optional().describe('Each time that it was done.'),
};

/** The keys of a run, in the order in which they are written. */
export const RUN_SHAPE = {
  date: date.describe('The day.'),
  result: choice(RESULTS).describe('What came of it.'),
  article: placedText().optional().describe('Which one was tested.'),
  measured: freeKeys(node()).optional().describe('What was measured, by the name of the fact.'),
  at: freeKeys(node()).optional().describe('The conditions, by the name of the fact.'),
  proved: freeKeys(node()).optional().describe('What it proved; written by the program.'),
  against: freeKeys(node()).optional().describe('The figures of the design then; written by the program.'),
  evidence: freeKeys(placedText()).optional().describe('Digests of documents; written by the program.'),
};

const recordSchema = fixedKeys(RECORD_SHAPE);
const runSchema = fixedKeys(RUN_SHAPE);

/** JSON Schema (draft-07) of one record with its runs. */
export function recordJsonSchema(): Readonly<Record<string, unknown>> {
  const { $schema: _, ...schema } = jsonSchemaOf(fixedKeys({ ...RECORD_SHAPE, runs: z.array(runSchema).nullish() }));
  return schema;
}

/** The record whose keys stand beside `verification: TP-03`; the document's other keys are its own affair. */
function singleRecord({ entries, flow, span }: YamlMap, id: YamlEntry): YamlNode {
  if (id.value.type === 'map') return id.value;
  const own = entries.filter(({ key }) => key !== 'id' && key in RECORD_SHAPE);
  return { type: 'map', entries: [{ ...id, key: 'id' }, ...own], flow, span };
}

function readList(reader: Reader, { key, keySpan, value }: YamlEntry): void {
  if (value.type === 'list') {
    for (const [index, item] of value.items.entries())
      readRecord(reader, { key: `${key}[${index + 1}]`, keySpan: item.span, value: item, hasColon: true }, item);
    return;
  }
  if (value.type === 'scalar' && value.style === 'empty') return;
  const message = `“${key}” is a list of records: - {id: TP-03, method: test, verifies: [TRN-020]}`;
  reader.problems.push({ code: 'bad-value', message, span: keySpan });
}

function readRecord(reader: Reader, entry: YamlEntry, value: YamlNode): void {
  const read = recordSchema.safeParse(value, { reportInput: false });
  if (!read.success) {
    complainOf(reader, { ...entry, value }, read.error.issues);
    return;
  }
  const { id, title, method, verifies = [], runs } = read.data;
  const idSpan = spanOfText(id, entry.keySpan);
  const readable = runs === undefined ? { runs: [], isWhole: true } : readRuns(reader, id.text, runs, idSpan);
  const isInDoubt =
    value.type === 'map' && value.entries.some(({ key, doubt }) => key === 'runs' && doubt !== undefined);
  reader.verifications.push({
    id: id.text,
    idSpan,
    title: title?.text ?? null,
    method,
    file: reader.file,
    span: entry.key === 'verification' ? idSpan : entry.value.span,
    verifies: verifies.map((one) => ({ text: one.text, span: spanOfText(one, idSpan) })),
    runs: isInDoubt ? [] : readable.runs,
    hasUnreadRuns: isInDoubt || !readable.isWhole,
  });
}

function readRuns(reader: Reader, id: string, value: YamlNode, idSpan: Span) {
  const runs: TestRun[] = [];
  if (value.type === 'scalar' && value.style === 'empty') return { runs, isWhole: true };
  if (value.type !== 'list') {
    const message = `${id}: “runs” is a list: - {date: 2026-10-02, result: pass}`;
    reader.problems.push({ code: 'bad-value', message, span: value.span.end > value.span.start ? value.span : idSpan });
    return { runs, isWhole: false };
  }
  for (const [index, item] of value.items.entries()) {
    const run = readRun(reader, `${id}.runs[${index + 1}]`, item);
    if (run !== null) runs.push(run);
  }
  return { runs, isWhole: runs.length === value.items.length };
}

function readRun(reader: Reader, name: string, item: YamlNode): TestRun | null {
  // Reported where the key stands again; a run that passed and failed proves nothing.
  if (doubtIn(item) !== null) return null;
  const read = runSchema.safeParse(item, { reportInput: false });
  if (!read.success) {
    complainOf(reader, { key: name, keySpan: item.span, value: item, hasColon: true }, read.error.issues);
    return null;
  }
  const { date: day, result, article, measured, at, proved, against, evidence } = read.data;
  const valuesOf = (key: string, values: ReadonlyMap<string, YamlNode> | undefined) =>
    [...(values ?? [])].map(([fact, value]) => readRunValue(reader, item, key, fact, value));
  const resultNode = valueAt(item, 'result');
  const values = {
    measured: valuesOf('measured', measured),
    at: valuesOf('at', at),
    against: valuesOf('against', against),
  };
  const provedValues =
    proved === undefined ? null : [...proved].map(([name, value]) => readProved(reader, item, name, value));
  const all = [...values.measured, ...values.at, ...values.against, ...(provedValues ?? [])];
  reader.problems.push(...all.flatMap(({ problems }) => problems));
  return {
    span: item.span,
    date: day.text,
    dateSpan: spanOfText(day, item.span),
    result,
    resultSpan: resultNode?.span ?? item.span,
    article: article?.text ?? null,
    ...values,
    proved: provedValues,
    documents: new Map([...(evidence ?? [])].map(([path, { text }]) => [path, text])),
  };
}

function readRunValue(reader: Reader, item: YamlNode, key: string, name: string, value: YamlNode): RunValue {
  const map = valueAt(item, key);
  const entry = map?.type === 'map' ? map.entries.find((candidate) => candidate.key === name) : undefined;
  const read = readContent(value, reader.context);
  const isValue = read.content.type === 'value' || read.content.type === 'bad' || read.content.type === 'modes';
  // `against` keeps facts as they were, whatever was known of them.
  const problem: Problem = {
    code: 'bad-value',
    message: `${key}: ${name} has no value here: write what it was`,
    span: value.span.end > value.span.start ? value.span : (entry?.keySpan ?? item.span),
  };
  const problems = isValue || key === 'against' ? read.problems : [...read.problems, problem];
  return { ...read, problems, name, nameSpan: entry?.keySpan ?? item.span, span: value.span };
}

const DIGEST = /^[0-9a-f]{6,64}$/;

/** A digest may look like a figure (`123456`, `12e456`), so it is taken as it is written. */
function readProved(reader: Reader, item: YamlNode, name: string, value: YamlNode): ProvedValue {
  if (name !== 'statement') return { ...readRunValue(reader, item, 'proved', name, value), digests: [] };
  const written = value.type === 'list' ? value.items : [value];
  const digests = written.flatMap((one) => (one.type === 'scalar' ? [one.text.trim()] : []));
  const isDigest = digests.length === written.length && digests.every((text) => DIGEST.test(text));
  const message = 'proved: statement holds the digest of a statement, as “plimsoll record” writes it';
  return {
    name,
    nameSpan: value.span,
    span: value.span,
    content: { type: 'tbd' },
    provisional: false,
    source: null,
    choices: null,
    problems: isDigest ? [] : [{ code: 'bad-value', message, span: value.span }],
    digests,
  };
}

function complainOf(reader: Reader, entry: YamlEntry, issues: readonly z.core.$ZodIssue[]): void {
  for (const problem of problemsOfEntry(entry, issues)) reader.problems.push({ ...problem, code: 'bad-value' });
}

function valueAt(item: YamlNode, key: string): YamlNode | undefined {
  return item.type === 'map' ? item.entries.find((entry) => entry.key === key)?.value : undefined;
}

function spanOfText({ scalar: written }: ConfigurationText, otherwise: Span): Span {
  return written?.span ?? otherwise;
}
