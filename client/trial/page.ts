/** The page of the trial panel: a field and a slider for each figure, and what follows from them. */
import type { FiguresResult, TrialResult } from '../../server/lsp/messages';
import { inOrderOfConcern } from './changes';
import { sliderOf, writtenAt } from './slider';
import type { FromPage, ToPage, TriedValue } from './trial-messages';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void };

interface Row {
  readonly name: string;
  readonly element: HTMLElement;
  readonly field: HTMLInputElement;
  readonly complaint: HTMLElement;
  written: string;
}

/** So long, in milliseconds, nothing moves before what came of it is said. */
const SAID_AFTER = 700;

const editor = acquireVsCodeApi();
const rows = new Map<string, Row>();
let shown: FiguresResult | null = null;
let toBeSaid: ReturnType<typeof setTimeout> | undefined;

window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  if (data.type === 'figures') showFigures(data.figures);
  else if (data.type === 'begin') begin(data.values);
  else if (data.type === 'result') showResult(data.result);
  else showStand('The requirement is no longer there.');
});
part('apply').addEventListener('click', () => editor.postMessage({ type: 'apply', values: tried() }));
part('reset').addEventListener('click', () => {
  for (const row of rows.values()) setField(row, row.written);
  send();
});
editor.postMessage({ type: 'ready' });

/** What was asked to be tried, as if it were typed. */
function begin(values: readonly TriedValue[]): void {
  for (const { name, value } of values) {
    const row = rows.get(name);
    if (row !== undefined) setField(row, value);
  }
}

/** Fields that somebody has changed keep what was typed. */
function showFigures(figures: FiguresResult): void {
  shown = figures;
  part('requirement').textContent = `${figures.id} ${figures.title}`;
  const names = new Set(figures.figures.map(({ name }) => name));
  for (const [name, { element }] of rows) {
    if (names.has(name)) continue;
    element.remove();
    rows.delete(name);
  }
  for (const { name, written } of figures.figures) {
    const row = rows.get(name);
    if (row === undefined) part('figures').append(createRow(name, written));
    else follow(row, written);
  }
  part('none').hidden = figures.figures.length > 0;
  send();
}

function follow(row: Row, written: string): void {
  const isUntouched = row.field.value === row.written;
  row.written = written;
  if (isUntouched) setField(row, written);
}

function createRow(name: string, written: string): HTMLElement {
  const element = make('div', 'figure');
  const label = make('label', 'name', name);
  const field = make('input', 'field');
  const complaint = make('p', 'complaint');
  field.id = `figure ${name}`;
  complaint.id = `complaint ${name}`;
  label.htmlFor = field.id;
  field.value = written;
  field.spellcheck = false;
  field.setAttribute('aria-describedby', complaint.id);
  element.append(label, field, ...sliderFor(name, written, field), complaint);
  rows.set(name, { name, element, field, complaint, written });
  field.addEventListener('input', send);
  return element;
}

function sliderFor(name: string, written: string, field: HTMLInputElement): readonly HTMLElement[] {
  const scale = sliderOf(written);
  if (scale === null) return [];
  const slider = make('input', 'slider');
  slider.type = 'range';
  slider.min = String(scale.low);
  slider.max = String(scale.high);
  slider.step = String(scale.step);
  slider.value = String(scale.value);
  slider.setAttribute('aria-label', `${name}, slider`);
  slider.setAttribute('aria-valuetext', written);
  slider.addEventListener('input', () => {
    field.value = writtenAt(scale, Number(slider.value));
    slider.setAttribute('aria-valuetext', field.value);
    send();
  });
  field.addEventListener('input', () => {
    const typed = sliderOf(field.value);
    if (typed !== null) slider.value = String(typed.value);
    slider.setAttribute('aria-valuetext', field.value);
  });
  return [slider];
}

function setField({ field }: Row, value: string): void {
  field.value = value;
  field.dispatchEvent(new Event('input'));
}

function tried(): readonly TriedValue[] {
  return [...rows.values()]
    .filter(({ field, written }) => field.value.trim() !== written)
    .map(({ name, field }) => ({ name, value: field.value.trim() }));
}

function send(): void {
  const values = tried();
  for (const { element, field, written } of rows.values())
    element.classList.toggle('changed', field.value.trim() !== written);
  editor.postMessage({ type: 'try', values });
}

function showResult({ changes, problems }: TrialResult): void {
  for (const { name, field, complaint } of rows.values()) {
    const message = problems.find((problem) => problem.name === name)?.message ?? '';
    complaint.textContent = message;
    field.setAttribute('aria-invalid', String(message !== ''));
  }
  const isTried = tried().length > 0;
  for (const name of ['apply', 'reset']) (part(name) as HTMLButtonElement).disabled = !isTried;
  if (problems.length > 0) (part('apply') as HTMLButtonElement).disabled = true;
  showStand(standText(changes));
  part('changes').hidden = changes.length === 0;
  part('rows').replaceChildren(...inOrderOfConcern(changes).map(changeRow));
}

/** Seen at once; a screen reader says it when it rests, and once, not at every step of a slider. */
function showStand(text: string): void {
  part('stand').textContent = text;
  clearTimeout(toBeSaid);
  toBeSaid = setTimeout(() => {
    if (part('said').textContent !== text) part('said').textContent = text;
  }, SAID_AFTER);
}

/** One line: the requirement itself, then others whose verdict would be another. */
function standText(changes: TrialResult['changes']): string {
  if (shown === null) return '';
  const own = changes.find(({ id }) => id === shown?.id);
  const before = standing(shown.verdict, shown.margin);
  const stand = own === undefined ? before : `${before} → ${standing(own.trial.verdict, own.trial.margin)}`;
  const turned = changes.filter(({ id, today, trial }) => id !== shown?.id && today.verdict !== trial.verdict);
  if (turned.length === 0) return stand;
  return `${stand}; ${turned.map(({ id, trial }) => `${id} would be ${trial.verdict}`).join(', ')}`;
}

function changeRow({ id, today, trial }: TrialResult['changes'][number]): HTMLElement {
  const row = make('tr', today.verdict === trial.verdict ? '' : 'turned');
  const head = make('th', '');
  head.scope = 'row';
  const link = make('button', 'link', id);
  link.addEventListener('click', () => editor.postMessage({ type: 'open', id }));
  head.append(link);
  row.append(head, make('td', '', standing(today.verdict, today.margin)));
  row.append(make('td', `verdict-${trial.verdict.replace(/\s/g, '-')}`, standing(trial.verdict, trial.margin)));
  return row;
}

function standing(verdict: string, margin: string): string {
  return margin === '' ? verdict : `${verdict}, margin ${margin}`;
}

function part(id: string): HTMLElement {
  const found = document.getElementById(id);
  if (found === null) throw new Error(`the page has no ${id}`);
  return found;
}

function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  className: string,
  text = '',
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name);
  if (className !== '') element.className = className;
  element.textContent = text;
  return element;
}
