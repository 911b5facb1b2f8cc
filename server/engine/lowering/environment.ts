/** Where an expression stands: what its bare names mean and in which mode it is judged. */
import type { Row } from '../../model/fact';
import type { Place } from '../../model/place';
import type { Table } from '../../model/product';
import type { Span } from '../../syntax/span';

export interface Environment {
  readonly file: string;
  /** The mapping that names are looked up in first; empty for prose and checks. */
  readonly scope: readonly string[];
  /** The mode of operation; null while none was taken. */
  readonly mode: string | null;
  /** The row that an aggregate stands at. */
  readonly row: RowEnvironment | null;
  /** For a row's own expression: the row whose siblings belong to the same item. */
  readonly item: Item | null;
}

/** A row reached by an aggregate, inside others where aggregates nest. */
export interface RowEnvironment {
  readonly table: Table;
  readonly row: Row;
  readonly tag: ItemTag;
  /** The row's name after *as*; its fields are then reached through it only. */
  readonly alias: string | null;
  readonly outer: RowEnvironment | null;
}

export interface Item {
  readonly row: Row;
  readonly tag: ItemTag;
}

/**
 * Which of a row's identical items a figure belongs to. A row of `quantity` n is n facts with one declaration that
 * move apart: the one that names mean, the mean of the others, and whichever is most extreme.
 */
export type ItemTag = 'item' | 'others' | 'extreme';

export function placeIn(environment: Environment, span: Span): Place {
  return { file: environment.file, span };
}

/** The environment of prose and checks in a document. */
export function atRoot(file: string, mode: string | null): Environment {
  return { file, scope: [], mode, row: null, item: null };
}
