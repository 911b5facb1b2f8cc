/** What has the focus in a page that is made anew: it gets it back, and never takes it from another window or frame. */

export interface FocusKeeper {
  /** Before the page becomes another. */
  remember(): void;
  /** Once it is another. */
  giveBack(): void;
}

/** An element, and where its like is once it is no more: the so-many-th in the nearest element with an id. */
interface Remembered {
  readonly element: HTMLElement;
  readonly id: string;
  readonly place: number;
}

export function createFocusKeeper(): FocusKeeper {
  let remembered: Remembered | null = null;
  /** Gets the focus once the page has it again: whoever types elsewhere goes on typing there. */
  let waiting: HTMLElement | null = null;
  window.addEventListener('focus', () => {
    if (!hasFocusWithin()) waiting?.focus({ preventScroll: true });
    waiting = null;
  });
  return {
    remember: () => {
      const { activeElement } = document;
      const element = hasFocusWithin() && activeElement instanceof HTMLElement ? activeElement : waiting;
      const around = element?.closest('[id]') ?? null;
      remembered = element && around && { element, id: around.id, place: reachable(around).indexOf(element) };
    },
    giveBack: () => {
      waiting = null;
      const heir = remembered && heirOf(remembered);
      if (heir === null || heir === document.activeElement) return;
      if (document.hasFocus()) heir.focus({ preventScroll: true });
      else waiting = heir;
    },
  };
}

function hasFocusWithin(): boolean {
  const { activeElement, body } = document;
  return activeElement !== null && activeElement !== body;
}

function heirOf({ element, id, place }: Remembered): HTMLElement | null {
  if (element.isConnected) return element;
  const around = document.getElementById(id);
  return (around && reachable(around)[place]) ?? null;
}

function reachable(element: Element): readonly HTMLElement[] {
  const own = element instanceof HTMLElement && element.matches(REACHABLE) ? [element] : [];
  return [...own, ...element.querySelectorAll<HTMLElement>(REACHABLE)];
}

const REACHABLE = 'a[href], button, input, select, summary';
