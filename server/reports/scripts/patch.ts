/** A page that is shown made into a newer one: only what is other is replaced, so that nothing else loses its place. */

/**
 * @param live what is shown, made from `before` and since then changed by scripts of the page
 * @param before the page as it was given
 * @param after the page as it is given now
 */
export function follow(live: Element, before: Element, after: Element): void {
  if (before.isEqualNode(after)) return;
  if (isRows(live) && isRows(before) && isRows(after) && isSameHead(before, after)) followRows(live, before, after);
  else if (mayDescend(live, before, after)) {
    const [shown, old, young] = [[...live.children], [...before.children], [...after.children]];
    for (const [place, one] of shown.entries()) follow(one, old[place] as Element, young[place] as Element);
  } else replace(live, after);
}

/** A table with a group of rows under an id each, which scripts may put in another order. */
function isRows(element: Element): element is HTMLTableElement {
  return element instanceof HTMLTableElement && [...element.tBodies].some(({ id }) => id !== '');
}

function isSameHead(a: HTMLTableElement, b: HTMLTableElement): boolean {
  return a.tHead !== null && b.tHead !== null && a.tHead.isEqualNode(b.tHead);
}

/** In the order of the page; whoever had sorted them sorts them again. */
function followRows(live: HTMLTableElement, before: HTMLTableElement, after: HTMLTableElement): void {
  const shown = byId(live);
  const known = byId(before);
  for (const group of after.tBodies) {
    const old = shown.get(group.id);
    shown.delete(group.id);
    if (old === undefined) live.append(document.importNode(group, true));
    else {
      const isSame = known.get(group.id)?.isEqualNode(group) ?? false;
      live.append(isSame ? old : replace(old, group));
    }
  }
  for (const gone of shown.values()) gone.remove();
}

function byId(table: HTMLTableElement): Map<string, HTMLTableSectionElement> {
  return new Map([...table.tBodies].map((group) => [group.id, group]));
}

function mayDescend(live: Element, before: Element, after: Element): boolean {
  return (
    before.tagName === after.tagName &&
    before.cloneNode(false).isEqualNode(after.cloneNode(false)) &&
    holdsElementsOnly(before) &&
    holdsElementsOnly(after) &&
    live.children.length === before.children.length &&
    [...before.children].map(({ tagName }) => tagName).join() ===
      [...after.children].map(({ tagName }) => tagName).join()
  );
}

function holdsElementsOnly({ childNodes }: Element): boolean {
  return [...childNodes].every((node) => node instanceof Element || (node.textContent ?? '').trim() === '');
}

/** What was opened stays open, and what was focused stays focused. */
function replace(live: Element, after: Element): Element {
  const next = document.importNode(after, true);
  const [focusable, focused] = [reachable(live), document.activeElement];
  const place = focused instanceof HTMLElement ? focusable.indexOf(focused) : -1;
  const open = [...live.querySelectorAll('details')].map((details) => details.open);
  for (const [index, details] of [...next.querySelectorAll('details')].entries())
    details.open = open[index] ?? details.open;
  live.replaceWith(next);
  if (place >= 0) reachable(next)[place]?.focus({ preventScroll: true });
  return next;
}

function reachable(element: Element): readonly HTMLElement[] {
  return [...element.querySelectorAll<HTMLElement>('a[href], button, input, select, summary')];
}
