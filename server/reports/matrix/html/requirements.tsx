/** The table of requirements: a group of rows a requirement, a row a criterion. */
import type { Links } from '../../page/links';
import { digitsBefore } from '../../page/parts';
import type { MatrixRow } from '../record';
import { type Columns, CriterionCells } from './criterion';
import { rowId } from './marks';
import { Remarks, StatementCell, VerdictCell } from './statement';
import { EvidenceCell, SupportCell } from './support';

export function RequirementTable({
  rows,
  links,
  knownFacts,
  knownParts,
}: {
  readonly rows: readonly MatrixRow[];
  readonly links: Links;
  readonly knownFacts: ReadonlySet<string>;
  readonly knownParts: ReadonlySet<string>;
}) {
  const criteria = rows.flatMap((row) => row.criteria);
  const columns = {
    value: digitsBefore(criteria.flatMap(({ low, high }) => [low, high])),
    margin: digitsBefore(criteria.map(({ margin }) => margin)),
  };
  return (
    <table class="matrix cards" id="matrix-table" role="table">
      <caption class="hidden-text">Requirements, what the design says of them, and what they rest on</caption>
      <thead role="rowgroup">
        <tr role="row">
          <th scope="col" role="columnheader" class="of-requirement" data-sort="id">
            Requirement
          </th>
          <th scope="col" role="columnheader" class="of-verdict" data-sort="verdict">
            Verdict
          </th>
          <th scope="col" role="columnheader" class="of-criterion">
            Criterion as read
          </th>
          <th scope="col" role="columnheader" class="of-value">
            Value, worst case
          </th>
          <th scope="col" role="columnheader" class="of-margin" data-sort="margin">
            Margin
          </th>
          <th scope="col" role="columnheader" class="of-support">
            Rests on
          </th>
          <th scope="col" role="columnheader" class="of-evidence" data-sort="evidence">
            Evidence
          </th>
        </tr>
      </thead>
      {rows.map((row) => (
        <RequirementRows
          key={row.key}
          row={row}
          links={links}
          columns={columns}
          knownFacts={knownFacts}
          knownParts={knownParts}
        />
      ))}
    </table>
  );
}

function RequirementRows({
  row,
  links,
  columns,
  knownFacts,
  knownParts,
}: {
  readonly row: MatrixRow;
  readonly links: Links;
  readonly columns: Columns;
  readonly knownFacts: ReadonlySet<string>;
  readonly knownParts: ReadonlySet<string>;
}) {
  const [first, ...others] = row.criteria;
  const span = Math.max(1, row.criteria.length);
  const several = row.criteria.length > 1;
  return (
    <tbody
      role="rowgroup"
      id={rowId(row.key)}
      data-verdict={row.verdict}
      data-evidence={row.evidence ?? ''}
      data-document={row.place.file}
      data-share={tightest(row)}
    >
      <tr role="row">
        <th scope="rowgroup" role="rowheader" rowSpan={span} class="of-requirement">
          <StatementCell row={row} links={links} />
        </th>
        <td role="cell" rowSpan={span} class="of-verdict" data-label="Verdict">
          <VerdictCell row={row} />
        </td>
        <CriterionCells criterion={first ?? null} several={several} columns={columns} />
        <td role="cell" rowSpan={span} class="of-support" data-label="Rests on">
          <SupportCell row={row} knownFacts={knownFacts} knownParts={knownParts} />
        </td>
        <td role="cell" rowSpan={span} class="of-evidence" data-label="Evidence">
          <EvidenceCell row={row} links={links} />
        </td>
      </tr>
      {others.map((criterion, index) => (
        <tr key={index} role="row">
          <CriterionCells criterion={criterion} several columns={columns} />
        </tr>
      ))}
      <Remarks row={row} />
    </tbody>
  );
}

/** The smallest share of a limit that is left; empty where nothing can be told. */
function tightest({ criteria }: MatrixRow): string {
  const shares = criteria.flatMap(({ share }) => (share === null ? [] : [share]));
  return shares.length === 0 ? '' : String(Math.min(...shares));
}
