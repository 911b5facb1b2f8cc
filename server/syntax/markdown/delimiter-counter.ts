/** Stops the parser at a paragraph with more delimiters than it can match in reasonable time: matching is quadratic. */
import type { Construct, TokenizeContext, TokenizerExtension } from './micromark-types';

/** Runs of `*`, `_`, `` ` ``, `~` and single `[`, `]`, `!`, `<` in one paragraph, heading or table cell. */
export const MAXIMUM_DELIMITERS = 1_000;

export interface DelimiterCounter {
  readonly extension: TokenizerExtension;
  /** Where the first delimiter past the limit stands, an offset in the parsed text; null if there was none. */
  readonly exceededAt: () => number | null;
}

const COUNTED_BY_RUN = '*_`~';
const COUNTED_SINGLY = '[]!<';

/** A counter for one parse. Past the limit its construct throws, which is the only way to stop the parser. */
export function createDelimiterCounter(): DelimiterCounter {
  const counts = new WeakMap<TokenizeContext, number>();
  let exceededAt: number | null = null;
  const count = (context: TokenizeContext): void => {
    const total = (counts.get(context) ?? 0) + 1;
    counts.set(context, total);
    if (total <= MAXIMUM_DELIMITERS) return;
    exceededAt = context.now().offset;
    throw new Error('too many delimiters in one paragraph');
  };
  const constructs = Object.fromEntries([
    ...[...COUNTED_BY_RUN].map((character) => [character.charCodeAt(0), counting(count, character.charCodeAt(0))]),
    ...[...COUNTED_SINGLY].map((character) => [character.charCodeAt(0), counting(count, null)]),
  ]);
  const definitions = { ['['.charCodeAt(0)]: counting(count, null) };
  return { extension: { text: constructs, contentInitial: definitions }, exceededAt: () => exceededAt };
}

/** A construct that counts and then declines, so that the real one is tried next. */
function counting(count: (context: TokenizeContext) => void, notAfter: number | null): Construct {
  return {
    previous: (code) => code === null || code !== notAfter,
    tokenize(_effects, _ok, nok) {
      return (code) => {
        count(this);
        return nok(code);
      };
    },
  };
}
