/** What is written of a requirement and what was found of it: statement, verdict, remarks. */
import type { ComponentChildren } from 'preact';
import { SAFETY_CAUTION } from '../../../../grammar/cautions';
import type { Links } from '../../page/links';
import { Markdown } from '../../page/markdown';
import { PlaceLink } from '../../page/parts';
import type { MatrixRow } from '../record';
import { verdictWords } from '../words';
import { RequirementLink, VerdictMark } from './marks';

export function StatementCell({ row, links }: { readonly row: MatrixRow; readonly links: Links }) {
  return (
    <>
      <PlaceLink place={row.place} links={links}>
        <span class="id">{row.id}</span>
      </PlaceLink>
      {row.title !== '' && <span class="title"> {row.title}</span>}
      {row.statement !== null && (
        <div class="statement">
          <Markdown text={row.statement} links={links} />
        </div>
      )}
      <Notes row={row} />
    </>
  );
}

/** What else is written of it, in one quiet line. */
function Notes({ row }: { readonly row: MatrixRow }) {
  const { derivesFrom, owner, priority, source, obligation } = row;
  const notes: ComponentChildren[] = [];
  if (derivesFrom.length > 0)
    notes.push(
      <>
        derives from{' '}
        {derivesFrom.map(({ id, key }, index) => [
          index === 0 ? '' : ', ',
          <RequirementLink key={id} id={id} of={key} />,
        ])}
      </>,
    );
  if (obligation !== 'shall') notes.push(OBLIGATIONS[obligation] ?? obligation);
  if (priority !== '') notes.push(`priority ${priority}`);
  if (owner !== '') notes.push(`owner ${owner}`);
  if (source !== '') notes.push(`source ${source}`);
  if (notes.length === 0) return null;
  return <div class="notes">{notes.map((note, index) => [index === 0 ? '' : ' · ', note])}</div>;
}

const OBLIGATIONS: Readonly<Record<string, string>> = {
  should: 'a goal (should)',
  may: 'a permission (may)',
  will: 'a statement of fact (will)',
};

export function VerdictCell({ row }: { readonly row: MatrixRow }) {
  const words = verdictWords(row);
  return (
    <>
      <VerdictMark verdict={row.verdict} />
      {words !== row.verdict && <div class="notes">{words.slice(row.verdict.length).replace(/[()]/g, '').trim()}</div>}
      {row.overSpecified && <div class="notes">over-specified</div>}
      {row.provisional && <div class="notes">provisional</div>}
    </>
  );
}

/** What was found, and the caution of a safety requirement, across the whole row. */
export function Remarks({ row }: { readonly row: MatrixRow }) {
  if (row.remarks.length === 0 && !row.safety) return null;
  return (
    <tr class="remarks" role="row">
      <td role="cell" colSpan={7}>
        <ul class="plain">
          {row.safety && <li class="caution">{SAFETY_CAUTION}</li>}
          {row.remarks.map(({ code, severity, message }, index) => (
            <li key={index}>
              <span class={`code ${severity}`}>{code.replaceAll('-', ' ')}</span> {message}
            </li>
          ))}
        </ul>
      </td>
    </tr>
  );
}
