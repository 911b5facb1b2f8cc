/** Runs in a page that an editor shows in a panel: places are opened by the editor, and the page follows the text. */
import { createFocusKeeper } from './focus';
import type { FromPage, ToPage } from './panel-messages';
import { follow } from './patch';

declare function acquireVsCodeApi(): { postMessage(message: FromPage): void };

const editor = acquireVsCodeApi();
const focus = createFocusKeeper();
let given: readonly Element[] = contentOf(document).map((element) => element.cloneNode(true) as Element);

document.addEventListener('click', opened, true);
window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  if (data.html !== null) shown(data.html);
  markAsOfBefore(data.html === null);
});

/** Other sites and places on the page are the editor's own affair. */
function opened(event: MouseEvent): void {
  const link = event.target instanceof Element ? event.target.closest('a[href]') : null;
  const href = link?.getAttribute('href') ?? '#';
  if (!(link instanceof HTMLElement) || href.startsWith('#') || /^(?:https?|mailto):/i.test(href)) return;
  event.preventDefault();
  event.stopPropagation();
  const { file = decoded(href.replace(/[?#].*$/s, '')), line } = link.dataset;
  if (file !== null) editor.postMessage({ type: 'open', file, line: line === undefined ? null : Number(line) });
}

/** Null: no file can be called so. */
function decoded(path: string): string | null {
  try {
    return decodeURIComponent(path);
  } catch {
    return null;
  }
}

function shown(html: string): void {
  const next = new DOMParser().parseFromString(html, 'text/html');
  const [live, after] = [contentOf(document), contentOf(next)];
  document.title = next.title;
  focus.remember();
  if (live.length === after.length && given.length === after.length)
    for (const [place, one] of live.entries()) follow(one, given[place] as Element, after[place] as Element);
  else replaceAll(live, after);
  given = after;
  document.dispatchEvent(new Event('plimsoll-page'));
  focus.giveBack();
}

/** A page of other parts has nothing whose place could be kept. */
function replaceAll(live: readonly Element[], after: readonly Element[]): void {
  for (const one of live) one.remove();
  document.body.prepend(...after.map((one) => document.importNode(one, true)));
}

/** Verdicts that nobody keeps up to date are never shown without a word. */
function markAsOfBefore(isOfBefore: boolean): void {
  const mark = document.querySelector('.of-before');
  if (!isOfBefore) mark?.remove();
  if (!isOfBefore || mark !== null) return;
  const said = document.createElement('p');
  said.className = 'of-before';
  said.setAttribute('role', 'alert');
  said.textContent = 'This page is of before: the product is no longer there, or the language server is off.';
  document.body.prepend(said);
}

/** What the editor adds to the body itself is none of the page, and neither is our own word on it. */
function contentOf({ body }: Document): readonly Element[] {
  return [...body.children].filter((element) => !element.matches('script, .of-before'));
}
