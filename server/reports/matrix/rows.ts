/** A row of the matrix for each requirement. */
import type { RequirementResult } from '../../engine/analysis';
import type { EvidenceItem } from '../../engine/evidence/state';
import type { Finding } from '../../findings/finding';
import { isAtLeast } from '../../findings/severity';
import type { Fact } from '../../model/fact';
import { attributesOf, isSafety, listOf, type Requirement } from '../../model/requirement';
import type { CodeSpan } from '../../syntax/markdown/block';
import { criterionRow } from './criteria';
import type { MatrixRow, MethodEntry, Remark, Statement, StatementPiece } from './record';
import { linePlace, type Scene } from './scene';

export function matrixRows(scene: Scene): readonly MatrixRow[] {
  const remarks = remarksById(scene.result.findings);
  return scene.result.analysis.requirements.map((result) => ({
    ...written(scene, result.requirement),
    ...judged(scene, result),
    key: scene.keys.get(result) ?? result.requirement.id,
    remarks: remarks.get(result.requirement.id) ?? [],
  }));
}

function written(scene: Scene, requirement: Requirement) {
  const { id, title, obligation, file, idSpan } = requirement;
  return {
    id,
    title,
    place: linePlace(scene, { file, span: idSpan }),
    obligation,
    statement: statementOf(scene, requirement),
    priority: wordsOf(requirement, 'Priority'),
    owner: wordsOf(requirement, 'Owner'),
    rationale: wordsOf(requirement, 'Rationale'),
    source: wordsOf(requirement, 'Source'),
    safety: isSafety(requirement),
    derivesFrom: listOf(requirement, 'Derives from').map((parent) => ({
      id: parent,
      key: scene.keyOfId.get(parent) ?? null,
    })),
  };
}

function judged(scene: Scene, result: RequirementResult) {
  const { verdict, basis, withoutWaiver, provisional, criteria, evidence } = result;
  const { facts, parts } = namesOf(scene, result);
  return {
    verdict,
    basis,
    withoutWaiver,
    overSpecified: scene.generous.has(result),
    provisional,
    criteria: criteria.map((criterion) => criterionRow(scene, criterion)),
    facts,
    parts,
    evidence: verdict === 'not applicable' ? null : evidence.state,
    methods: evidence.items.map((item) => methodEntry(scene, item)),
  };
}

/** The values of an attribute, code spans with their backticks. */
export function wordsOf(requirement: Requirement, key: string): string {
  return attributesOf(requirement, key)
    .map(({ text, codes }) => withCodes(text, codes))
    .join('; ');
}

function withCodes(text: string, codes: readonly CodeSpan[]): string {
  return piecesOf(text, codes)
    .map((piece) => (piece.isCode ? `\`${piece.text}\`` : piece.text))
    .join('')
    .trim();
}

function piecesOf(text: string, codes: readonly CodeSpan[]): readonly StatementPiece[] {
  return text.split('\uFFFC').flatMap((words, index) => {
    const code = codes[index - 1];
    const piece = { text: words, isCode: false };
    return code === undefined ? [piece] : [{ text: code.code, isCode: true }, piece];
  });
}

function statementOf({ result }: Scene, { statement, statementSource, file }: Requirement): Statement | null {
  if (statement === null) return null;
  const source = result.texts.get(file) ?? '';
  const text = withCodes(statement.text, statement.codes);
  const pieces = piecesOf(statement.text, statement.codes);
  if (statementSource.type === 'cell') {
    const { row, column } = statementSource;
    const width = column + 1;
    const head = `|${' |'.repeat(width)}\n|${'-|'.repeat(width)}\n`;
    return { text, pieces, markdown: [head + source.slice(row.start, row.end)], column, file };
  }
  const markdown = statementSource.spans.map(({ start, end }) => source.slice(start, end));
  return { text, pieces, markdown, column: null, file };
}

/** Facts and rows that it rests on; the names that it writes itself first, then in the order they were reached. */
function namesOf({ result }: Scene, { uses }: RequirementResult) {
  const facts: string[] = [];
  const parts = new Set<string>();
  for (const name of uses) {
    const fact = result.analysis.product.facts.get(name);
    if (fact === undefined) continue;
    const part = partOf(fact);
    if (part === null) facts.push(name);
    else parts.add(part);
  }
  return { facts, parts: [...parts] };
}

/** The full name of the row that a fact is a field of: `parts.cam`. */
export function partOf({ row }: Fact): string | null {
  return row === null ? null : `${row.table}.${row.id}`;
}

function methodEntry(scene: Scene, { method, named, verification, state, run, moved }: EvidenceItem): MethodEntry {
  const missing = named?.records[0];
  const unknown = missing === undefined ? null : { id: missing, title: '', place: null };
  const record =
    verification === null
      ? unknown
      : {
          id: verification.id,
          title: verification.title ?? '',
          place: linePlace(scene, { file: verification.file, span: verification.idSpan }),
        };
  return {
    method: method ?? '',
    record,
    state,
    run: run === null ? null : { date: run.date, result: run.result },
    moved: moved.length > 0,
  };
}

function remarksById(findings: readonly Finding[]): ReadonlyMap<string, readonly Remark[]> {
  const remarks = new Map<string, Remark[]>();
  for (const { requirement, code, severity, message } of findings) {
    if (requirement === null || !isAtLeast(severity, 'warning')) continue;
    const own = remarks.get(requirement) ?? [];
    remarks.set(requirement, own);
    own.push({ code, severity, message: withoutId(message, requirement) });
  }
  return remarks;
}

/** Messages stand alone; beside their requirement its id says nothing. */
function withoutId(message: string, id: string): string {
  return message.startsWith(`${id}: `) ? message.slice(id.length + 2) : message;
}
