/** A table whose rows become cards where there is no room: first cell the name of the row, the others under their labels. */
import type { ComponentChildren } from 'preact';

export interface LedgerRow {
  /** An anchor that links lead to. */
  readonly id?: string;
  readonly name: ComponentChildren;
  /** As many as there are columns after the first. */
  readonly cells: readonly ComponentChildren[];
}

/** Roles are written out, since a table that is laid out as blocks is no table to a screen reader any more. */
export function Ledger({
  caption,
  columns,
  rows,
  numbers = false,
}: {
  /** For those who do not see the heading above it. */
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly LedgerRow[];
  /** All cells but the first are counts. */
  readonly numbers?: boolean;
}) {
  return (
    <table class="ledger cards" role="table">
      <caption class="hidden-text">{caption}</caption>
      <thead role="rowgroup">
        <tr role="row">
          {columns.map((column, at) => (
            <th key={column} scope="col" role="columnheader" class={numbers && at > 0 ? 'number' : undefined}>
              {column}
            </th>
          ))}
        </tr>
      </thead>
      <tbody role="rowgroup">
        {rows.map(({ id, name, cells }, index) => (
          <tr key={id ?? index} id={id} role="row">
            <th scope="row" role="rowheader">
              {name}
            </th>
            {cells.map((cell, at) => (
              <td key={columns[at + 1]} role="cell" class={numbers ? 'number' : undefined} data-label={columns[at + 1]}>
                <div>{cell}</div>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
