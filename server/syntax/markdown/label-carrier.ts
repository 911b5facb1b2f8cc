/** Makes labels that are defined elsewhere in the file known to the parser, and tells which ones a section defines. */
import type { Labels } from './label';
import type { TokenizeContext, TokenizerExtension } from './micromark-types';

export interface LabelCarrier {
  readonly extension: TokenizerExtension;
  /** After the parse: the labels given before it and those the section defines. */
  readonly defined: () => Labels;
}

/** The parser keeps its labels in these two lists, internals of micromark 4; a test pins them. */
interface ParserLabels {
  readonly defined: string[];
  gfmFootnotes?: string[];
}

/** A construct that is tried at the start of the first line, fills the parser's lists, and declines. */
export function createLabelCarrier(labels: Labels): LabelCarrier {
  let parser: ParserLabels | null = null;
  const fill = (context: TokenizeContext): void => {
    if (parser) return;
    parser = context.parser;
    parser.defined.push(...labels.links);
    parser.gfmFootnotes = [...(parser.gfmFootnotes ?? []), ...labels.footnotes];
  };
  const extension: TokenizerExtension = {
    document: {
      null: {
        tokenize(_effects, _ok, nok) {
          fill(this);
          return nok;
        },
      },
    },
  };
  return { extension, defined: () => ({ links: parser?.defined ?? [], footnotes: parser?.gfmFootnotes ?? [] }) };
}
