/** What the workspace hands out and reports are made from: an analysis, its findings and the texts they speak of. */
import type { Analysis } from '../engine/analysis';
import type { RangeAnalysis } from '../engine/ranges/ranges';
import type { CodeSpan } from '../syntax/markdown/block';
import type { FindingsByFile } from './collect';
import type { Finding } from './finding';

export interface ProductAnalysis {
  readonly analysis: Analysis;
  /** In order of file, place, then code. */
  readonly findings: readonly Finding[];
  /** The same by file; while nothing of a file is other, the same array. */
  readonly byFile: FindingsByFile;
  /** How far figures may move; null where that was not asked for. */
  readonly ranges: RangeAnalysis | null;
  /** Texts of all files with findings or requirements, plimsoll.yaml among them. */
  readonly texts: ReadonlyMap<string, string>;
  /** Code spans of a document's prose, in text order; its Markdown is read when they are asked for. */
  readonly codeSpansOf: (file: string) => readonly CodeSpan[];
  /** plimsoll.yaml has mistakes. */
  readonly badConfiguration: boolean;
  /** The day that it speaks of, ISO 8601; null where none was given. */
  readonly today: string | null;
}
