/** Runs in the page of the matrix: filters and sorts its rows, and keeps what was asked for in the address. */
import { EVERYTHING, type FilterState, fragmentOfState, isShown, stateOfFragment } from './filter-state';
import { inOrderOf, type MatrixElement, matrixElements } from './matrix-rows';
import { createSlicer } from './slices';

/** How long typing has to rest, in milliseconds, before the rows follow. */
const REST = 120;

function start(form: HTMLFormElement, table: HTMLTableElement): void {
  const rows = matrixElements(table);
  const follow = follower(form, table, rows);
  const state = () => ({ ...stateOfForm(form), ...sortOf(table) });
  const changed = () => {
    const now = state();
    history.replaceState(null, '', fragmentOfState(now) || location.pathname + location.search);
    follow(now);
  };
  addSortButtons(table, changed);
  let resting = 0;
  form.addEventListener('input', () => {
    clearTimeout(resting);
    resting = window.setTimeout(changed, REST);
  });
  form.addEventListener('submit', (event) => event.preventDefault());
  form.addEventListener('reset', (event) => {
    event.preventDefault();
    show(form, table, EVERYTHING);
    changed();
  });
  const obeyAddress = () => {
    const asked = stateOfFragment(location.hash);
    if (asked === null) return revealTarget(form, table, changed);
    show(form, table, asked);
    follow(asked);
  };
  window.addEventListener('hashchange', obeyAddress);
  form.hidden = false;
  if (location.hash === '') sayShown(form, rows.length, rows.length);
  else obeyAddress();
}

/** Brings the rows to a state: first their order, then which of them are shown. */
function follower(form: HTMLFormElement, table: HTMLTableElement, rows: readonly MatrixElement[]) {
  const slicer = createSlicer();
  let order = orderOf(EVERYTHING);
  return (state: FilterState) => {
    const asked = orderOf(state);
    const sorted = inOrderOf(rows, state.sort, state.down, (column) => wordsOf(form, column));
    const moves = asked !== order;
    // Until the last row is moved the order is none, so that whatever is asked for next moves all of them.
    if (moves) order = '';
    let shown = 0;
    table.setAttribute('aria-busy', 'true');
    slicer.run(
      sorted.length,
      (step) => {
        // The rows in sight come last: else each slice would bring others into sight, to be laid out and hidden in turn.
        const row = sorted[moves ? step : sorted.length - 1 - step] as MatrixElement;
        const hidden = !isShown(row, state);
        if (!hidden) shown += 1;
        if (moves) table.append(row.element);
        if (row.element.hidden !== hidden) row.element.hidden = hidden;
      },
      () => {
        order = asked;
        table.removeAttribute('aria-busy');
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
function addSortButtons(table: HTMLTableElement, changed: () => void): void {
  const heads = [...table.querySelectorAll<HTMLElement>('th[data-sort]')];
  for (const head of heads) {
    const button = document.createElement('button');
    button.type = 'button';
    button.append(...head.childNodes);
    button.addEventListener('click', () => {
      const before = head.getAttribute('aria-sort');
      const sort = before === 'descending' ? '' : (head.dataset.sort ?? '');
      for (const other of heads) setSort(other, sort, before === 'ascending');
      changed();
    });
    head.append(button);
  }
}

/** The words of a column in the order of its choices. */
function wordsOf(form: HTMLFormElement, column: string): readonly string[] {
  return [...form.querySelectorAll<HTMLInputElement>(`input[name="${column}"]`)].map(({ value }) => value);
}

/** A link to a row that is filtered out shows everything again. */
function revealTarget(form: HTMLFormElement, table: HTMLTableElement, changed: () => void): void {
  const target = document.getElementById(decoded(location.hash.slice(1)));
  if (target === null || !target.hidden) return;
  const { hash } = location;
  target.hidden = false;
  show(form, table, EVERYTHING);
  changed();
  location.hash = hash;
  target.scrollIntoView();
}

/** An address that somebody cut short is no reason to stop. */
function decoded(fragment: string): string {
  try {
    return decodeURIComponent(fragment);
  } catch {
    return fragment;
  }
}

const form = document.querySelector<HTMLFormElement>('#filters');
const table = document.querySelector<HTMLTableElement>('#matrix-table');
if (form !== null && table !== null) start(form, table);
