/** A criterion as read with its figures, decimal points in line. */
import { Code, Figure } from '../../page/parts';
import type { MatrixCriterion } from '../record';
import { worstWords } from '../words';

/** Digits before the point that the columns of figures have room for. */
export interface Columns {
  readonly value: number;
  readonly margin: number;
}

export function CriterionCells({
  criterion,
  several,
  columns,
}: {
  readonly criterion: MatrixCriterion | null;
  readonly several: boolean;
  readonly columns: Columns;
}) {
  if (criterion === null) {
    return (
      <td role="cell" colSpan={3} class="of-criterion nothing" data-label="Criterion">
        nothing to compute
      </td>
    );
  }
  const worst = worstWords(criterion);
  return (
    <>
      <td role="cell" class="of-criterion" data-label="Criterion">
        <Code>{criterion.text}</Code>
        {worst !== '' && <div class="notes">{worst}</div>}
        {several && <div class="notes">{criterion.verdict}</div>}
      </td>
      <td role="cell" class="of-value" data-label="Value">
        <Value criterion={criterion} digits={columns.value} />
      </td>
      <td role="cell" class="of-margin" data-label="Margin">
        {criterion.margin === null ? (
          <span class="nothing">none</span>
        ) : (
          <Figure figure={criterion.margin} digitsBefore={columns.margin} />
        )}
      </td>
    </>
  );
}

function Value({ criterion, digits }: { readonly criterion: MatrixCriterion; readonly digits: number }) {
  const { low, high, word, typical } = criterion;
  if (low === null && high === null) return word === null ? <span class="nothing">none</span> : <span>{word}</span>;
  const isPoint = low !== null && high !== null && low.digits === high.digits;
  return (
    <>
      <span class="line">{low === null ? 'no least' : <Figure figure={low} digitsBefore={digits} />}</span>
      {!isPoint && (
        <span class="line">
          <span class="end"> to </span>
          {high === null ? 'no greatest' : <Figure figure={high} digitsBefore={digits} />}
        </span>
      )}
      {typical !== null && <div class="notes">typical {endsWords(typical)}</div>}
    </>
  );
}

function endsWords({ low, high }: NonNullable<MatrixCriterion['typical']>): string {
  const shown = [low, high].map((end) => (end === null ? 'open' : `${end.digits} ${end.unit}`.trim()));
  return shown[0] === shown[1] ? (shown[0] ?? '') : shown.join(' to ');
}
