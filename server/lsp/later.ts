/** Work put off until the messages that wait now were taken in. */

/** Node has a queue for it; a browser's worker has timers only. */
export function later(work: () => void): void {
  if (typeof setImmediate === 'function') setImmediate(work);
  else setTimeout(work, 0);
}

/** Lets waiting messages, a cancellation among them, come in. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => later(resolve));
}
