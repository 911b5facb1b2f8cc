/** Work on many elements in slices between two frames, so that a page never stands still. */

/**
 * A frame that takes longer, in milliseconds, asks for smaller slices; a shorter one allows larger ones. Of a page of ten
 * thousand rows every frame has its price however little has changed, so that many small slices take the longest.
 */
const LONG_FRAME = 150;
const SHORT_FRAME = 75;
const FIRST_SLICE = 1000;
const SMALLEST_SLICE = 500;

/** Steps through work; only the last one asked for goes on. */
export interface Slicer {
  /** `step` is called with 0, 1, … below `count`; `done` after the last. */
  run(count: number, step: (index: number) => void, done: () => void): void;
}

export function createSlicer(): Slicer {
  let current = 0;
  let size = FIRST_SLICE;
  return {
    run: (count, step, done) => {
      current += 1;
      const own = current;
      let next = 0;
      const slice = () => {
        if (own !== current) return;
        const started = performance.now();
        const end = Math.min(count, next + size);
        for (; next < end; next += 1) step(next);
        if (next >= count) return done();
        // After the frame that shows this slice, which is where the time goes.
        requestAnimationFrame(() =>
          setTimeout(() => {
            size = nextSize(size, performance.now() - started);
            slice();
          }),
        );
      };
      slice();
    },
  };
}

function nextSize(size: number, milliseconds: number): number {
  if (milliseconds > LONG_FRAME) return Math.max(SMALLEST_SLICE, Math.floor(size / 2));
  return milliseconds < SHORT_FRAME ? size * 2 : size;
}
