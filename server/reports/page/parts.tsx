/** Small pieces that every page is made of: names that wrap, places that are linked, figures that stand in line. */
import type { ComponentChildren } from 'preact';
import { type Links, placeLink } from './links';

/** A name or a criterion in the type of code; long ones break after a dot or around an operator. */
export function Code({ children }: { readonly children: string }) {
  const pieces = children.split(/(?<=[.(,])|(?= (?:[<>=]|within|spans|where|over|and|or) ?)/);
  return <code>{pieces.map((piece, index) => (index === 0 ? piece : [<wbr key={index} />, piece]))}</code>;
}

/** A link to a line of a document, for browsers as an address, for editors as file and line. */
export function PlaceLink({
  place,
  links,
  children,
}: {
  readonly place: { readonly file: string; readonly line: number };
  readonly links: Links;
  readonly children: ComponentChildren;
}) {
  const href = placeLink(links, place.file, place.line);
  if (href === null) return <>{children}</>;
  return (
    <a href={href} data-file={place.file} data-line={place.line} title={`${place.file}, line ${place.line}`}>
      {children}
    </a>
  );
}

/** A figure in digits of one width, moved so that its point stands under those above it. */
export function Figure({
  figure,
  digitsBefore,
}: {
  readonly figure: { readonly digits: string; readonly unit: string };
  /** Digits before the point that the column has room for. */
  readonly digitsBefore: number;
}) {
  const missing = Math.max(0, digitsBefore - wholeDigits(figure.digits));
  return (
    <span class={`figure shift-${Math.min(missing, MOST_DIGITS)}`}>
      {figure.digits}
      {figure.unit === '' ? '' : `\u00A0${figure.unit}`}
    </span>
  );
}

/** Columns make room for so many digits before the point; longer figures stand out to the right. */
const MOST_DIGITS = 7;

/** The room before the point that these figures need; dates ask for none. */
export function digitsBefore(figures: readonly ({ readonly digits: string } | null)[]): number {
  const lengths = figures.map((figure) => (figure === null || isDate(figure.digits) ? 0 : wholeDigits(figure.digits)));
  return lengths.reduce((most, length) => (length > MOST_DIGITS ? most : Math.max(most, length)), 0);
}

function wholeDigits(digits: string): number {
  return /^-?\d*/.exec(digits)?.[0].length ?? 0;
}

function isDate(digits: string): boolean {
  return /^\d{4}-\d{2}-\d{2}$/.test(digits);
}

/** Words in which no date is broken over two lines. */
export function Words({ children }: { readonly children: string }) {
  const pieces = children.split(/(\d{4}-\d{2}-\d{2})/);
  return (
    <>
      {pieces.map((piece, index) =>
        index % 2 === 0 ? (
          piece
        ) : (
          <span key={index} class="unbroken">
            {piece}
          </span>
        ),
      )}
    </>
  );
}

/** A part of a page under a heading that links lead to. */
export function Section({
  id,
  title,
  children,
}: {
  readonly id: string;
  readonly title: string;
  readonly children: ComponentChildren;
}) {
  return (
    <section id={id} aria-labelledby={`${id}-heading`}>
      <h2 id={`${id}-heading`}>{title}</h2>
      {children}
    </section>
  );
}

/** The first few, the rest folded away until asked for. Printed, all are shown. */
export function Few({
  items,
  shown,
  rest,
}: {
  readonly items: readonly ComponentChildren[];
  readonly shown: number;
  /** What the fold is called: `19 more`. */
  readonly rest: (count: number) => string;
}) {
  const folded = items.length - shown;
  if (folded <= 1) return <ul class="plain">{items.map(listed)}</ul>;
  return (
    <>
      {shown > 0 && <ul class="plain">{items.slice(0, shown).map(listed)}</ul>}
      <details>
        <summary>{rest(folded)}</summary>
        <ul class="plain">{items.slice(shown).map(listed)}</ul>
      </details>
    </>
  );
}

function listed(item: ComponentChildren, index: number) {
  return <li key={index}>{item}</li>;
}
