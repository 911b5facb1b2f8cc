/** How far the product is: counts by verdict and evidence that are the legend at once, and by document. */
import type { ComponentChildren } from 'preact';
import { EVIDENCE_STATES } from '../../../engine/evidence/state';
import { verdictKey } from '../../../engine/verdict';
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
  const rows = VERDICTS.map((verdict) => ({
    kind: verdictKey(verdict),
    mark: <VerdictMark verdict={verdict} />,
    count: verdicts[verdict],
    meaning: VERDICT_MEANINGS[verdict],
  }));
  return <Counts of={requirements} what="Verdict" caption="Verdicts" rows={rows} notes={notes} />;
}

function EvidenceCounts({ coverage: { evidence } }: { readonly coverage: Coverage }) {
  const asked = Object.values(evidence).reduce((sum, count) => sum + count, 0);
  const rows = EVIDENCE_STATES.map((state) => ({
    kind: state,
    mark: <span class={`evidence ${state}`}>{state}</span>,
    count: evidence[state],
    meaning: EVIDENCE_MEANINGS[state],
  }));
  return <Counts of={asked} what="Evidence" caption="Evidence" rows={rows} notes={[]} />;
}

/** How many there are of each kind, with what the kind means: the legend at once. */
function Counts({
  caption,
  what,
  of,
  rows,
  notes,
}: {
  readonly caption: string;
  /** The head of the column of kinds. */
  readonly what: string;
  readonly of: number;
  readonly rows: readonly {
    readonly kind: string;
    readonly mark: ComponentChildren;
    readonly count: number;
    readonly meaning: string;
  }[];
  readonly notes: readonly string[];
}) {
  return (
    <table class="counts">
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">{what}</th>
          <th scope="col" class="number">
            Requirements
          </th>
          <th scope="col">Meaning</th>
        </tr>
      </thead>
      <tbody>
        {rows.map(({ kind, mark, count, meaning }) => (
          <tr key={kind} class={count === 0 ? 'none' : ''}>
            <th scope="row">{mark}</th>
            <td class="number">
              {count}
              <Share count={count} of={of} kind={kind} />
            </td>
            <td>{meaning}</td>
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
