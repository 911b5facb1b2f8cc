/** Values as people give them: what is written in the design, and what is said on the command line or in a panel. */
import type { SimpleValue } from '../quantity/value';
import { spanOf } from '../syntax/span';
import type { Content } from './fact';
import type { Product } from './product';
import { readContent } from './read-content';

/** A fact's name with the value that it is to have. */
export interface NamedText {
  readonly name: string;
  readonly value: string;
}

/** Reads what a fact's value may be, by the same rules as front matter. */
export function readWrittenValue(
  { units, modes }: Product,
  text: string,
): { readonly value: SimpleValue } | { readonly mistake: string } {
  const context = { units, modes, data: new Map<string, string>() };
  const span = spanOf(0, text.length);
  const { content, problems } = readContent({ type: 'scalar', style: 'plain', text, span, textStart: 0 }, context);
  const [problem] = problems;
  if (problem !== undefined) return { mistake: problem.message };
  return content.type === 'value' ? { value: content.value } : { mistake: `“${text}” is no value` };
}

/** The value that is written, in a mode where each has its own; null for what is derived or not known. */
export function writtenValue(content: Content, mode: string | null): SimpleValue | null {
  const own = content.type === 'modes' && mode !== null ? content.modes.get(mode) : content;
  return own?.type === 'value' ? own.value : null;
}
