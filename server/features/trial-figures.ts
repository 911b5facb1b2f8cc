/** The given figures that a requirement rests on, each as it is written and where, for somebody who tries others. */
import type { Analysis, RequirementResult } from '../engine/analysis';
import type { Content, Fact } from '../model/fact';
import type { Place } from '../model/place';
import { type Span, spanOf } from '../syntax/span';

export interface TrialFigure {
  /** As a trial takes it: `supply.draw`, `parts.soc.power.record`, `supply.input.max`. */
  readonly name: string;
  /** The value alone: `0.91 ± 0.02`. */
  readonly written: string;
  readonly place: Place;
}

/** In the order of documents; what is not a figure of one line is left out. */
export function trialFigures(
  { product }: Analysis,
  texts: ReadonlyMap<string, string>,
  { uses }: RequirementResult,
): readonly TrialFigure[] {
  const rested = [...product.facts.values()].filter(({ name }) => uses.has(name));
  return rested.flatMap((fact) => {
    const text = texts.get(fact.file);
    return text === undefined ? [] : figuresOf(fact, text);
  });
}

function figuresOf(fact: Fact, text: string): readonly TrialFigure[] {
  const { content, span, name, file } = fact;
  const written = text.slice(span.start, span.end);
  const isMapping = /^\{|\n/.test(written) || /^[\w-]+:\s/.test(written);
  const figure = (ending: string, where: Span | null): readonly TrialFigure[] =>
    where === null || where.start === where.end
      ? []
      : [{ name: `${name}${ending}`, written: text.slice(where.start, where.end), place: { file, span: where } }];
  if (content.type === 'modes')
    return [...content.modes].flatMap(([mode, own]) =>
      isOne(own) ? figure(`.${mode}`, spanBehind(text, span, mode)) : [],
    );
  if (!isOne(content)) return [];
  if (!isMapping) return figure('', figureIn(text, span));
  const value = spanBehind(text, span, 'value');
  if (value !== null) return figure('', value);
  return ['min', 'typ', 'max'].flatMap((end) => figure(`.${end}`, spanBehind(text, span, end)));
}

function isOne({ type }: Content): boolean {
  return type === 'value';
}

/** The value behind a key that stands in the text once; null where it cannot be told for certain. */
function spanBehind(text: string, span: Span, key: string): Span | null {
  const inside = text.slice(span.start, span.end);
  const end = inside.startsWith('{') ? '[^,{}\\n]*' : '[^\\n#{}]*';
  const found = [...inside.matchAll(new RegExp(`(?<![\\w.-])${key}:[ \\t]+(${end})`, 'g'))];
  const [only] = found;
  const value = only?.[1];
  if (only === undefined || value === undefined || found.length > 1) return null;
  const start = span.start + only.index + only[0].length - value.length;
  return figureIn(text, spanOf(start, start + value.trimEnd().length));
}

/** Without the mark of what is to be confirmed, which stays; null for what is quoted or goes on. */
function figureIn(text: string, { start, end }: Span): Span | null {
  const written = text.slice(start, end);
  if (/["'\n]/.test(written)) return null;
  return spanOf(start, start + written.replace(/\s*\(TB[CDR]\)\s*$/, '').length);
}
