/** What a requirement rests on, and the evidence there is of it. */
import type { EvidenceState } from '../../../engine/evidence/state';
import type { Links } from '../../page/links';
import { Few, PlaceLink, Words } from '../../page/parts';
import type { MatrixRow, MethodEntry } from '../record';
import { outcomeWords } from '../words';
import { FactLink, PartLink } from './marks';

/** Facts that are named before the rest is folded away. */
const SHOWN_NAMES = 3;

export function SupportCell({
  row,
  knownFacts,
  knownParts,
}: {
  readonly row: MatrixRow;
  readonly knownFacts: ReadonlySet<string>;
  readonly knownParts: ReadonlySet<string>;
}) {
  const facts = row.facts.map((name) => <FactLink key={name} name={name} isKnown={knownFacts.has(name)} />);
  const parts = row.parts.map((name) => <PartLink key={name} name={name} isKnown={knownParts.has(name)} />);
  if (facts.length + parts.length === 0) return <span class="nothing">nothing</span>;
  return (
    <>
      {facts.length > 0 && <Few items={facts} shown={SHOWN_NAMES} rest={(count) => `${count} more figures`} />}
      {parts.length > 0 && <Few items={parts} shown={0} rest={(count) => `${count} parts`} />}
    </>
  );
}

export function EvidenceCell({ row, links }: { readonly row: MatrixRow; readonly links: Links }) {
  const { evidence } = row;
  if (evidence === null) return <span class="nothing">none needed</span>;
  return (
    <>
      <span class={`evidence ${evidence}`}>{evidence}</span>
      {row.methods.length > 0 && (
        <ul class="plain notes">
          {row.methods.map((entry, index) => (
            <li key={index}>
              <Method entry={entry} of={evidence} links={links} />
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

/** Its state is said where it is another than the whole requirement's. */
function Method({
  entry,
  of,
  links,
}: {
  readonly entry: MethodEntry;
  readonly of: EvidenceState;
  readonly links: Links;
}) {
  const { method, record, state } = entry;
  const words = [...(state === of ? [] : [state]), ...outcomeWords(entry)];
  return (
    <>
      {method}
      {record !== null && (
        <>
          {method === '' ? '' : ' '}
          {record.place === null ? (
            record.id
          ) : (
            <PlaceLink place={record.place} links={links}>
              {record.id}
            </PlaceLink>
          )}
        </>
      )}
      {words.length > 0 && <Words>{`: ${words.join(', ')}`}</Words>}
    </>
  );
}
