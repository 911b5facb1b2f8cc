/** `matrix --format json`: the records as they are, with the statement as text. */
import type { Matrix } from './record';

/** The version of this shape; it changes only when a program that reads it would have to. */
const SCHEMA = 1;

export function matrixJson(matrix: Matrix): Readonly<Record<string, unknown>> {
  const requirements = matrix.requirements.map((row) => ({ ...row, statement: row.statement?.text ?? null }));
  return { schema: SCHEMA, ...matrix, requirements };
}
