/** Work put off until the messages that wait now were taken in. */

export const later: (work: () => void) => void = createLater();

/** Lets waiting messages, a cancellation among them, come in. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => later(resolve));
}

/**
 * Node has a queue for it. A browser's worker has timers, each of which waits 4 ms once they follow one another (HTML
 * Standard, 8.6), and messages to itself, which do not.
 */
function createLater(): typeof later {
  if (typeof setImmediate === 'function') return (work) => void setImmediate(work);
  const waiting: (() => void)[] = [];
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => waiting.shift()?.();
  return (work) => {
    waiting.push(work);
    port2.postMessage(null);
  };
}
