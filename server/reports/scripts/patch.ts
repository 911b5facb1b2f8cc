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

/** Rows that a script has put in another order stay in it, and those that are new come last. */
function followRows(live: HTMLTableElement, before: HTMLTableElement, after: HTMLTableElement): void {
  const isInOrder = idsOf(live) === idsOf(before);
  const rows = madeNewer(live, byId(before), after);
  if (isInOrder) bringInOrder(live, rows);
  else for (const row of rows) if (row.parentElement !== live) live.append(row);
  for (const [place, row] of rows.entries()) row.dataset.place = String(place);
}

/** In the order of the newer page; rows that it has no more are gone from the one that is shown. */
function madeNewer(
  live: HTMLTableElement,
  known: ReadonlyMap<string, HTMLTableSectionElement>,
  after: HTMLTableElement,
): readonly HTMLTableSectionElement[] {
  const shown = byId(live);
  const rows = [...after.tBodies].map((group) => {
    const old = shown.get(group.id);
    shown.delete(group.id);
    if (old === undefined) return document.importNode(group, true);
    return known.get(group.id)?.isEqualNode(group) ? old : replaceRow(old, group);
  });
  for (const gone of shown.values()) gone.remove();
  return rows;
}

/** What is moved loses the focus and its place in sight: only rows that stand elsewhere are. */
function bringInOrder(table: HTMLTableElement, rows: readonly HTMLTableSectionElement[]): void {
  let next: Element | null = table.tBodies[0] ?? null;
  for (const row of rows) {
    if (row === next) next = row.nextElementSibling;
    else table.insertBefore(row, next);
  }
}

/** What was filtered out is not in sight until it is filtered again. */
function replaceRow(live: HTMLTableSectionElement, after: HTMLTableSectionElement): HTMLTableSectionElement {
  const next = replace(live, after);
  next.hidden = live.hidden;
  return next;
}

function idsOf(table: HTMLTableElement): string {
  return [...table.tBodies].map(({ id }) => id).join(' ');
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

/** What was opened stays open. */
function replace<Kind extends Element>(live: Element, after: Kind): Kind {
  const next = document.importNode(after, true);
  const open = [...live.querySelectorAll('details')].map((details) => details.open);
  for (const [index, details] of [...next.querySelectorAll('details')].entries())
    details.open = open[index] ?? details.open;
  live.replaceWith(next);
  return next;
}
