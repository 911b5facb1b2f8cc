/** Runs in the page of the matrix: filters and sorts its rows, and keeps what was asked for in the address. */
import { EVERYTHING, type FilterState, fragmentOfState, isShown, stateOfFragment } from './filter-state';
import { inOrderOf, type MatrixElement, matrixElements } from './matrix-rows';
import { createSlicer } from './slices';

/** How long typing has to rest, in milliseconds, before the rows follow. */
const REST = 120;

/** One at work, whatever page it began on. */
const slicer = createSlicer();

/** What the reader asked for last: it stays when a panel makes the page anew. */
let last: FilterState | null = null;

/** @param signal ends it, when another beginning takes its place */
function start(form: HTMLFormElement, table: HTMLTableElement, signal: AbortSignal): void {
  const rows = matrixElements(table);
  const bring = follower(form, table, rows);
  const follow = (state: FilterState) => {
    last = state;
    bring(state);
  };
  const asked = () => ({ ...stateOfForm(form), ...sortOf(table) });
  const changed = () => {
    const now = asked();
    history.replaceState(null, '', fragmentOfState(now) || location.pathname + location.search);
    follow(now);
  };
  listen(form, table, changed, signal);
  const reveal = (fragment: string) => revealTarget(form, table, changed, fragment);
  const arrive = (fragment: string) => {
    const target = reveal(fragment);
    if (target === null) return;
    location.hash = fragment;
    target.scrollIntoView();
  };
  const obeyAddress = () => {
    const state = stateOfFragment(location.hash);
    if (state === null) return arrive(location.hash);
    show(form, table, state);
    follow(state);
  };
  window.addEventListener('hashchange', obeyAddress, { signal });
  // Before the link is followed, and where it is an editor that follows it, which leaves the address as it is.
  document.addEventListener('click', (event) => reveal(fragmentOfLink(event)), { capture: true, signal });
  form.hidden = false;
  if (last !== null) {
    show(form, table, last);
    // What there is no choice for any more narrows nothing down, since nobody could take it back.
    follow(asked());
  } else if (location.hash === '') sayShown(form, rows.length, rows.length);
  else obeyAddress();
}

function listen(form: HTMLFormElement, table: HTMLTableElement, changed: () => void, signal: AbortSignal): void {
  addSortButtons(table, changed, signal);
  let resting = 0;
  const later = () => {
    clearTimeout(resting);
    resting = window.setTimeout(changed, REST);
  };
  const showAll = (event: Event) => {
    event.preventDefault();
    show(form, table, EVERYTHING);
    changed();
  };
  form.addEventListener('input', later, { signal });
  form.addEventListener('submit', (event) => event.preventDefault(), { signal });
  form.addEventListener('reset', showAll, { signal });
}

/** Brings the rows to a state: first their order, then which of them are shown. */
function follower(form: HTMLFormElement, table: HTMLTableElement, rows: readonly MatrixElement[]) {
  // Rows of a page that was made anew stand in whatever order was asked for last.
  let order = last === null ? orderOf(EVERYTHING) : '';
  return (state: FilterState) => {
    const asked = orderOf(state);
    const sorted = inOrderOf(rows, state.sort, state.down, (column) => wordsOf(form, column));
    const moves = asked !== order;
    // Until the last row is moved the order is none, so that whatever is asked for next moves all of them.
    if (moves) order = '';
    let shown = 0;
    let next: Element | null = table.tBodies[0] ?? null;
    table.setAttribute('aria-busy', 'true');
    slicer.run(
      sorted.length,
      (step) => {
        // The rows in sight come last: else each slice would bring others into sight, to be laid out and hidden in turn.
        const row = sorted[moves ? step : sorted.length - 1 - step] as MatrixElement;
        const hidden = !isShown(row, state);
        if (!hidden) shown += 1;
        // What stands in its place already is not moved: it would lose the focus.
        if (row.element === next) next = row.element.nextElementSibling;
        else if (moves) table.insertBefore(row.element, next);
        if (row.element.hidden !== hidden) row.element.hidden = hidden;
      },
      () => {
        order = asked;
        table.removeAttribute('aria-busy');
        // A table without a row is none to whoever has it read out.
        table.hidden = shown === 0;
        sayShown(form, shown, rows.length);
      },
    );
  };
}

function orderOf({ sort, down }: FilterState): string {
  return `by ${sort} ${down ? 'down' : 'up'}`;
}

function sayShown(form: HTMLFormElement, shown: number, all: number): void {
  const status = form.querySelector('#shown');
  if (status !== null)
    status.textContent =
      shown === all ? `All ${all} requirements are shown` : `${shown} of ${all} requirements are shown`;
}

function stateOfForm(form: HTMLFormElement): Omit<FilterState, 'sort' | 'down'> {
  const values = new FormData(form);
  const words = (name: string) => values.getAll(name).map(String);
  return {
    verdicts: words('verdict'),
    evidence: words('evidence'),
    document: String(values.get('document') ?? ''),
    text: String(values.get('text') ?? '').trim(),
  };
}

/** Puts a state into the controls. */
function show(form: HTMLFormElement, table: HTMLTableElement, state: FilterState): void {
  for (const box of form.querySelectorAll<HTMLInputElement>('input[type=checkbox]'))
    box.checked = (box.name === 'verdict' ? state.verdicts : state.evidence).includes(box.value);
  for (const field of form.querySelectorAll<HTMLInputElement | HTMLSelectElement>('[name=text], [name=document]'))
    field.value = field.name === 'text' ? state.text : state.document;
  for (const head of table.querySelectorAll<HTMLElement>('th[data-sort]')) setSort(head, state.sort, state.down);
}

function setSort(head: HTMLElement, sort: string, down: boolean): void {
  if (head.dataset.sort === sort) head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
  else head.removeAttribute('aria-sort');
}

function sortOf(table: HTMLTableElement): Pick<FilterState, 'sort' | 'down'> {
  const head = table.querySelector<HTMLElement>('th[aria-sort]');
  return { sort: head?.dataset.sort ?? '', down: head?.getAttribute('aria-sort') === 'descending' };
}

/** Up, down, and back to the order of the documents. */
function addSortButtons(table: HTMLTableElement, changed: () => void, signal: AbortSignal): void {
  const heads = [...table.querySelectorAll<HTMLElement>('th[data-sort]')];
  for (const head of heads) {
    const button = head.querySelector('button') ?? createSortButton(head);
    const turn = () => {
      const before = head.getAttribute('aria-sort');
      const sort = before === 'descending' ? '' : (head.dataset.sort ?? '');
      for (const other of heads) setSort(other, sort, before === 'ascending');
      changed();
    };
    button.addEventListener('click', turn, { signal });
  }
}

function createSortButton(head: HTMLElement): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.append(...head.childNodes);
  head.append(button);
  return button;
}

/** The words of a column in the order of its choices. */
function wordsOf(form: HTMLFormElement, column: string): readonly string[] {
  return [...form.querySelectorAll<HTMLInputElement>(`input[name="${column}"]`)].map(({ value }) => value);
}

/** A link to a row that is filtered out shows everything again; null where it leads to no such row. */
function revealTarget(
  form: HTMLFormElement,
  table: HTMLTableElement,
  changed: () => void,
  fragment: string,
): HTMLElement | null {
  const target = document.getElementById(decoded(fragment.slice(1)));
  if (target === null || !target.hidden) return null;
  target.hidden = false;
  table.hidden = false;
  show(form, table, EVERYTHING);
  changed();
  return target;
}

/** `#r-P-1`; empty where no link within the page was clicked. */
function fragmentOfLink({ target }: MouseEvent): string {
  const link = target instanceof Element ? target.closest<HTMLAnchorElement>('a[href^="#"]') : null;
  return link?.hash ?? '';
}

/** An address that somebody cut short is no reason to stop. */
function decoded(fragment: string): string {
  try {
    return decodeURIComponent(fragment);
  } catch {
    return fragment;
  }
}

let beginning = new AbortController();

function begin(): void {
  beginning.abort();
  beginning = new AbortController();
  const form = document.querySelector<HTMLFormElement>('#filters');
  const table = document.querySelector<HTMLTableElement>('#matrix-table');
  if (form !== null && table !== null) start(form, table, beginning.signal);
}

begin();
document.addEventListener('plimsoll-page', begin);
