/** Seeded random edits of a product's files: typing, deleting, pasting, renaming files, configuration, options. */

/** A product's files by path; `plimsoll.yaml` among them is its configuration. */
export type Files = ReadonlyMap<string, string>;

/** A number from 0 up to and without `below`. */
export type Draw = (below: number) => number;

/** The same numbers for the same seed (mulberry32, public domain, from memory). */
export function drawing(seed: number): Draw {
  let state = seed >>> 0;
  return (below) => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return Math.floor((((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296) * below);
  };
}

const CONFIGURATION = 'plimsoll.yaml';

export function editAtRandom(files: Files, draw: Draw): Files {
  const path = pick([...files.keys()], draw);
  const kind = draw(20);
  if (kind === 0) return renamed(files, path, draw);
  if (kind === 1) return configured(files, draw);
  if (kind === 2 && path !== CONFIGURATION)
    return new Map([...files].filter(([other]) => other !== path || files.size < 4));
  const text = files.get(path) ?? '';
  const at = lineStarts(text)[draw(lineStarts(text).length)] ?? 0;
  return new Map(files).set(path, edited(files, text, at, kind, draw));
}

/** Something comes, goes or changes places, so that what stands behind it stands elsewhere and says the same. */
export function moveAtRandom(files: Files, draw: Draw): Files {
  const path = pick([...files.keys()], draw);
  const text = files.get(path) ?? '';
  return new Map(files).set(path, moved(text, draw));
}

function moved(text: string, draw: Draw): string {
  const starts = lineStarts(text);
  // Mostly near the top, so that much is behind.
  const index = draw(draw(3) === 0 ? starts.length : Math.min(8, starts.length));
  const at = starts[index] ?? 0;
  const end = lineEnd(text, at);
  switch (draw(8)) {
    case 0:
      return text.slice(0, end) + text.slice(lineEnd(text, end));
    case 1:
      return `${text.slice(0, at)}\n${text.slice(at)}`;
    case 2:
      return (
        text.slice(0, at) + text.slice(end, lineEnd(text, end)) + text.slice(at, end) + text.slice(lineEnd(text, end))
      );
    case 3:
      return sectionsSwapped(text, draw);
    case 4:
      return text.replace(/^facts:\n/m, `facts:\n  added${draw(20)}: ${draw(9)} W ± 1 W\n`);
    case 5:
      return text.replace(
        /^requirements: (.*)$/m,
        (_, title: string) => `requirements: ${draw(2) === 0 ? `${title}x` : title.slice(0, -1)}`,
      );
    case 6:
      return text.replace(/^(# .*)$/m, (title) => `${title}${'y'.repeat(draw(3))}\n\nProse ${draw(9)}.`);
    default:
      return (
        text.slice(0, Math.max(at, end - 1)) +
        pick([' ', 'a', ' # note', '  '], draw) +
        text.slice(Math.max(at, end - 1))
      );
  }
}

function sectionsSwapped(text: string, draw: Draw): string {
  const sections = text.split(/^(?=## )/m);
  if (sections.length < 3) return text;
  const at = 1 + draw(sections.length - 2);
  const [one = '', other = ''] = [sections[at], sections[at + 1]];
  return [...sections.slice(0, at), other, one, ...sections.slice(at + 2)].join('');
}

function edited(files: Files, text: string, at: number, kind: number, draw: Draw): string {
  const other = files.get(pick([...files.keys()], draw)) ?? '';
  const end = lineEnd(text, at);
  if (kind < 5) return text.slice(0, at) + text.slice(end);
  if (kind < 7) return text.slice(0, at) + lineAt(other, draw) + text.slice(at);
  if (kind < 9) return text.slice(0, end) + text.slice(at, end) + text.slice(end);
  if (kind < 14) return figureChanged(text, draw);
  const place = at + draw(Math.max(1, end - at));
  return text.slice(0, place) + pick(TYPED, draw) + text.slice(place + draw(2));
}

const TYPED = [
  'a',
  ' ',
  '1',
  '.',
  '`',
  ' W',
  '\n',
  '\n\n',
  ':',
  '= 1',
  '#',
  '- ',
  'TBD',
  '{',
  'shall ',
  '5 %',
  '|',
  'é',
];

function figureChanged(text: string, draw: Draw): string {
  const figures = [...text.matchAll(/\d+(?:\.\d+)?/g)];
  const figure = figures[draw(figures.length)];
  if (figure === undefined) return text;
  return `${text.slice(0, figure.index)}${draw(500)}${text.slice(figure.index + figure[0].length)}`;
}

function renamed(files: Files, path: string, draw: Draw): Files {
  if (path === CONFIGURATION) return files;
  return new Map([...files].map(([other, text]) => [other === path ? `renamed-${draw(100)}.md` : other, text]));
}

function configured(files: Files, draw: Draw): Files {
  const text = files.get(CONFIGURATION) ?? '';
  return new Map(files).set(CONFIGURATION, draw(2) === 0 ? figureChanged(text, draw) : chosen(text, draw));
}

function chosen(text: string, draw: Draw): string {
  const other = pick(['alder', 'birch', 'cedar', 'elm'], draw);
  return text.replace(/(choose:[\s\S]*?processor: *)\w+/, `$1${other}`);
}

function lineStarts(text: string): readonly number[] {
  return [0, ...[...text.matchAll(/\n/g)].map(({ index }) => index + 1)];
}

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}

function lineAt(text: string, draw: Draw): string {
  const starts = lineStarts(text);
  const at = starts[draw(starts.length)] ?? 0;
  return text.slice(at, lineEnd(text, at));
}

function pick<Item>(items: readonly Item[], draw: Draw): Item {
  return items[draw(items.length)] as Item;
}
