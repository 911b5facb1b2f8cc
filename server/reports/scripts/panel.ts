/** Runs in a page that an editor shows in a panel: places are opened by the editor, and the page follows the text. */
import { follow } from './patch';

declare function acquireVsCodeApi(): { postMessage(message: PanelMessage): void };

/** What a page in a panel asks of its editor; `file` is below the product's folder, `line` counts from 1. */
type PanelMessage = { readonly type: 'open'; readonly file: string; readonly line: number | null };

const editor = acquireVsCodeApi();
let given: readonly Element[] = contentOf(document).map((element) => element.cloneNode(true) as Element);

document.addEventListener('click', opened, true);
window.addEventListener('message', ({ data }: MessageEvent<{ readonly html: string }>) => shown(data.html));

/** Other sites and places on the page are the editor's own affair. */
function opened(event: MouseEvent): void {
  const link = event.target instanceof Element ? event.target.closest('a[href]') : null;
  const href = link?.getAttribute('href') ?? '#';
  if (!(link instanceof HTMLElement) || href.startsWith('#') || /^(?:https?|mailto):/i.test(href)) return;
  event.preventDefault();
  event.stopPropagation();
  const { file = decodeURIComponent(href.replace(/[?#].*$/s, '')), line } = link.dataset;
  editor.postMessage({ type: 'open', file, line: line === undefined ? null : Number(line) });
}

function shown(html: string): void {
  const next = new DOMParser().parseFromString(html, 'text/html');
  const [live, after] = [contentOf(document), contentOf(next)];
  document.title = next.title;
  if (live.length === after.length && given.length === after.length)
    for (const [place, one] of live.entries()) follow(one, given[place] as Element, after[place] as Element);
  given = after;
  document.dispatchEvent(new Event('plimsoll-page'));
}

/** What the editor adds to the body itself is none of the page. */
function contentOf({ body }: Document): readonly Element[] {
  return [...body.children].filter(({ tagName }) => tagName !== 'SCRIPT');
}
