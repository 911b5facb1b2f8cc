/** What rests on each figure and part, what is still open, and what was granted. */
import { Ledger } from '../../page/ledger';
import type { Links } from '../../page/links';
import { Code, PlaceLink, Words } from '../../page/parts';
import type { FactUse, OpenPoint, PartUse, WaiverEntry } from '../record';
import { factId, partId, RequirementLink, RequirementLinks } from './marks';

export function FactTable({ facts, links }: { readonly facts: readonly FactUse[]; readonly links: Links }) {
  if (facts.length === 0) return <p>No requirement rests on a figure.</p>;
  const rows = facts.map(({ name, place, given, source, value, allowed, requirements }) => ({
    id: factId(name),
    name: (
      <>
        <PlaceLink place={place} links={links}>
          <Code>{name}</Code>
        </PlaceLink>
        <div class="notes">
          {given ? 'given' : 'derived'}
          {source !== '' && `, ${source}`}
        </div>
      </>
    ),
    cells: [value, allowed, <RequirementLinks key="requirements" requirements={requirements} />],
  }));
  return (
    <Ledger
      caption="Figures of the design and the requirements that rest on them"
      columns={['Figure', 'Value', 'May go', 'Requirements']}
      rows={rows}
    />
  );
}

export function PartTable({ parts, links }: { readonly parts: readonly PartUse[]; readonly links: Links }) {
  if (parts.length === 0) return <p>No requirement rests on a part.</p>;
  const rows = parts.map(({ name, label, place, fields, requirements }) => ({
    id: partId(name),
    name: (
      <>
        <PlaceLink place={place} links={links}>
          <Code>{name}</Code>
        </PlaceLink>
        {label !== '' && <div class="notes">{label}</div>}
      </>
    ),
    cells: [fields.join(', '), <RequirementLinks key="requirements" requirements={requirements} />],
  }));
  return (
    <Ledger
      caption="Parts and the requirements that rest on them"
      columns={['Part', 'By its', 'Requirements']}
      rows={rows}
    />
  );
}

export function OpenPointTable({ points, links }: { readonly points: readonly OpenPoint[]; readonly links: Links }) {
  if (points.length === 0) return <p>Nothing is to be determined, resolved or confirmed.</p>;
  const rows = points.map(({ message, place, owners, requirements }) => ({
    name: message,
    cells: [
      owners.length === 0 ? <span class="nothing">nobody named</span> : owners.join(', '),
      <PlaceLink key="place" place={place} links={links}>
        {place.file}:{place.line}
      </PlaceLink>,
      <RequirementLinks key="requirements" requirements={requirements} />,
    ],
  }));
  return (
    <Ledger
      caption="What is to be determined, resolved or confirmed"
      columns={['Open point', 'Owner', 'Place', 'Requirements']}
      rows={rows}
    />
  );
}

export function WaiverTable({ waivers, links }: { readonly waivers: readonly WaiverEntry[]; readonly links: Links }) {
  if (waivers.length === 0) return <p>No exception was granted.</p>;
  const rows = waivers.map(({ requirement, place, state, problem, extent, reason, who, until }) => ({
    name: <RequirementLink id={requirement.id} of={requirement.key} />,
    cells: [
      <>
        <PlaceLink place={place} links={links}>
          {state}
        </PlaceLink>
        {problem !== '' && <div class="notes">{problem}</div>}
      </>,
      extent,
      reason,
      who,
      <Words key="until">{until}</Words>,
    ],
  }));
  return (
    <Ledger
      caption="Exceptions that were granted"
      columns={['Requirement', 'State', 'To', 'Reason', 'By', 'Until']}
      rows={rows}
    />
  );
}
