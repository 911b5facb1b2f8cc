/** How often a server that stops by itself is started again. */

export interface Restarts {
  /** Called when the server has stopped; false: enough. */
  mayRestart(now: number): boolean;
  /** Somebody starts it by hand. */
  forget(): void;
}

/** @param within milliseconds in which no more than `most` restarts happen */
export function createRestarts(most: number, within: number): Restarts {
  let stops: readonly number[] = [];
  return {
    mayRestart(now) {
      stops = [...stops.filter((stop) => now - stop < within), now];
      return stops.length <= most;
    },
    forget() {
      stops = [];
    },
  };
}
