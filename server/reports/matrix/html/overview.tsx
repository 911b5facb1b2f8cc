/** How far the product is: counts by verdict and evidence that are the legend at once, and by document. */
import { EVIDENCE_STATES } from '../../../engine/evidence/state';
import { Ledger } from '../../page/ledger';
import type { Links } from '../../page/links';
import { PlaceLink } from '../../page/parts';
import { VERDICTS } from '../coverage';
import type { Coverage, Matrix } from '../record';
import { EVIDENCE_MEANINGS, VERDICT_MEANINGS } from '../words';
import { VerdictMark } from './marks';

export function Overview({ matrix, links }: { readonly matrix: Matrix; readonly links: Links }) {
  const { coverage } = matrix;
  return (
    <>
      <div class="columns">
        <VerdictCounts coverage={coverage} />
        <EvidenceCounts coverage={coverage} />
      </div>
      <DocumentCounts matrix={matrix} links={links} />
    </>
  );
}

function VerdictCounts({ coverage }: { readonly coverage: Coverage }) {
  const { verdicts, requirements, metByRss, overSpecified, provisional } = coverage;
  const notes = [
    metByRss > 0 ? `${metByRss} met by root sum square` : '',
    overSpecified > 0 ? `${overSpecified} over-specified` : '',
    provisional > 0 ? `${provisional} resting on a provisional figure` : '',
  ].filter((note) => note !== '');
  return (
    <table class="counts">
      <caption>Verdicts</caption>
      <thead>
        <tr>
          <th scope="col">Verdict</th>
          <th scope="col" class="number">
            Requirements
          </th>
          <th scope="col">Meaning</th>
        </tr>
      </thead>
      <tbody>
        {VERDICTS.map((verdict) => (
          <tr key={verdict} class={verdicts[verdict] === 0 ? 'none' : ''}>
            <th scope="row">
              <VerdictMark verdict={verdict} />
            </th>
            <td class="number">
              {verdicts[verdict]}
              <Share count={verdicts[verdict]} of={requirements} kind={verdict.replace(' ', '-')} />
            </td>
            <td>{VERDICT_MEANINGS[verdict]}</td>
          </tr>
        ))}
      </tbody>
      {notes.length > 0 && (
        <tfoot>
          <tr>
            <td colSpan={3}>Of these, {notes.join('; ')}.</td>
          </tr>
        </tfoot>
      )}
    </table>
  );
}

function EvidenceCounts({ coverage: { evidence } }: { readonly coverage: Coverage }) {
  const asked = Object.values(evidence).reduce((sum, count) => sum + count, 0);
  return (
    <table class="counts">
      <caption>Evidence</caption>
      <thead>
        <tr>
          <th scope="col">Evidence</th>
          <th scope="col" class="number">
            Requirements
          </th>
          <th scope="col">Meaning</th>
        </tr>
      </thead>
      <tbody>
        {EVIDENCE_STATES.map((state) => (
          <tr key={state} class={evidence[state] === 0 ? 'none' : ''}>
            <th scope="row">
              <span class={`evidence ${state}`}>{state}</span>
            </th>
            <td class="number">
              {evidence[state]}
              <Share count={evidence[state]} of={asked} kind={state} />
            </td>
            <td>{EVIDENCE_MEANINGS[state]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

const BAR = 100;

/** A bar beside its number, for the eye alone. */
function Share({ count, of, kind }: { readonly count: number; readonly of: number; readonly kind: string }) {
  const length = of === 0 ? 0 : Math.ceil((count / of) * BAR);
  return (
    <svg class={`share ${kind}`} width={BAR} height="4" aria-hidden="true" focusable="false">
      <rect x={BAR - length} width={length} height="4" />
    </svg>
  );
}

function DocumentCounts({ matrix, links }: { readonly matrix: Matrix; readonly links: Links }) {
  const shown = VERDICTS.filter((verdict) => matrix.coverage.verdicts[verdict] > 0);
  const rows = matrix.documents.map(({ file, requirements, verdicts, evidence }) => ({
    name: (
      <PlaceLink place={{ file, line: 1 }} links={links}>
        {file}
      </PlaceLink>
    ),
    cells: [
      requirements,
      ...shown.map((verdict) => (verdicts[verdict] === 0 ? NOTHING : verdicts[verdict])),
      evidence.verified + evidence.calculated,
    ],
  }));
  return (
    <>
      <h3>By document</h3>
      <Ledger
        caption="Requirements by document and verdict"
        columns={['Document', 'Requirements', ...shown, 'verified or calculated']}
        rows={rows}
        numbers
      />
    </>
  );
}

const NOTHING = <span class="nothing">0</span>;
