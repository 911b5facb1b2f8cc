/** Verdicts in words with a form of their own, and links between the tables of the page. */

import { type Verdict, verdictKey } from '../../../engine/verdict';
import { Code } from '../../page/parts';
import type { RestingRequirement } from '../record';

/** The word says it; weight, border and colour only repeat it. */
export function VerdictMark({ verdict }: { readonly verdict: Verdict }) {
  return <span class={`verdict ${verdictKey(verdict)}`}>{verdict}</span>;
}

/** The anchor of a requirement's rows. */
export function rowId(key: string): string {
  return `r-${key}`;
}

/** @param of its key; null where there is no such requirement */
export function RequirementLink({ id, of }: { readonly id: string; readonly of: string | null }) {
  if (of === null) return <span class="nothing">{id} (no such requirement)</span>;
  return (
    <a class="id" href={`#${encodeURIComponent(rowId(of))}`}>
      {id}
    </a>
  );
}

/** Requirements with what the design says of each, where it is anything but met. */
export function RequirementLinks({ requirements }: { readonly requirements: readonly RestingRequirement[] }) {
  return (
    <ul class="inline">
      {requirements.map(({ key, id, verdict }) => (
        <li key={key}>
          <RequirementLink id={id} of={key} />
          {verdict !== 'met' && (
            <>
              {' '}
              <VerdictMark verdict={verdict} />
            </>
          )}
        </li>
      ))}
    </ul>
  );
}

export function factId(name: string): string {
  return anchor('f', name);
}

export function partId(name: string): string {
  return anchor('p', name);
}

export function FactLink({ name, isKnown }: { readonly name: string; readonly isKnown: boolean }) {
  return isKnown ? <NameLink name={name} id={factId(name)} /> : <Code>{name}</Code>;
}

export function PartLink({ name, isKnown }: { readonly name: string; readonly isKnown: boolean }) {
  return isKnown ? <NameLink name={name} id={partId(name)} /> : <Code>{name}</Code>;
}

function NameLink({ name, id }: { readonly name: string; readonly id: string }) {
  return (
    <a href={`#${encodeURIComponent(id)}`}>
      <Code>{name}</Code>
    </a>
  );
}

/** An id holds no space (HTML Living Standard, 3.2.6); names may. */
function anchor(kind: string, name: string): string {
  return `${kind}-${name.replace(/\s/g, '_')}`;
}
