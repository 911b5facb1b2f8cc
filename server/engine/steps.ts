/** Long work in steps, for whoever has something else to do in between, or gives it up. */

/** What the work comes to, done at once. */
export function finished<Result>(steps: Generator<void, Result>): Result {
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}
