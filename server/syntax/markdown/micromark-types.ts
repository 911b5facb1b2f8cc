/** Types of the tokenizer underneath the Markdown parser, reached through the parser's own declarations. */
import type { Options } from 'mdast-util-from-markdown';

type ExtensionOrList = NonNullable<Options['extensions']>[number];

/** An extension of the tokenizer: constructs by content type and first character. */
export type TokenizerExtension = Exclude<ExtensionOrList, readonly unknown[]>;
type ConstructRecord = NonNullable<TokenizerExtension['text']>;
/** Something that is tried at a character. */
export type Construct = Exclude<NonNullable<ConstructRecord[string]>, readonly unknown[]>;
export type Tokenize = Construct['tokenize'];
export type TokenizeContext = ThisParameterType<Tokenize>;
