/** Pieces of Markdown that open, close and cross one another; documents for properties are put together from them. */
import * as fc from 'fast-check';

const HEADINGS = [
  '# H\n',
  '## TRN-1 Title\n',
  '###### Six ##\n',
  '#\n',
  '#\tTab\n',
  '#no heading\n',
  ' # indented\n',
  '    # code\n',
];
const FENCES = [
  '```\n',
  '````\n',
  '```js\n',
  '``` a`b\n',
  '~~~\n',
  '~~~~ x\n',
  '   ```\n',
  '  ```\n',
  '\t```\n',
  '    ```\n',
];
const HTML = [
  '<!-- note\n',
  '-->\n',
  '<!-- one line -->\n',
  '<div>\n',
  '</div>\n',
  '<pre>\n',
  '</pre>\n',
  '<script>\n',
  '</script>\n',
  '<?php\n',
  '?>\n',
  '<!DOCTYPE x\n',
  '>\n',
  '<![CDATA[\n',
  ']]>\n',
  '<span class="x">\n',
  '<x-y/>\n',
  '</x>\n',
  '  <div>\n',
  '   <!--\n',
  'text <b>bold</b> <i\n',
];
const CONTAINERS = [
  '- a\n',
  '- \n',
  '-\n',
  '* a\n',
  '+ 5 %\n',
  '1. one\n',
  '2) two\n',
  '  - nested\n',
  '    - deep\n',
  '- ```\n',
  '- - ~~~\n',
  '-     code\n',
  '-\ttab\n',
  '1. ```x\n',
  '> quote\n',
  '> ```\n',
  '> # in quote\n',
  '> - in\n',
  '>\n',
  '> > twice\n',
  '- > both\n',
  '2) c | d\n',
  '    > # far in\n',
  '>     > - far in\n',
  '- # in list\n',
  '- <div>\n',
  '- <!--\n',
  '- [ ] task\n',
  '[^n]: note\n',
  '[^n]: ```\n',
  '    more of it\n',
  '  two in\n',
  '   three in\n',
];
const LABELS = [
  '[a]: /url\n',
  '[a b]: </u> "title"\n',
  "[c]: /u 'over\n",
  "two'\n",
  '[d\n',
  'd]: /u\n',
  '> [q]: /u\n',
  '- [l]: /u\n',
  '[e\\]f]: /u\n',
  '[ẞ]: /u\n',
  'see [a] and [x][a b] and [c][] `k`\n',
  '[d d], [Q], ![l], [e\\]f], [SS]\n',
  '> [d\n',
  '> d] [a\n',
  '> b]\n',
  'a note[^n] and ![^n]\n',
  '[a](/x) [not defined]\n',
  '*[a*]\n',
];
const PROSE = [
  'The `x` shall draw no more than 60 W.\n',
  'plain\n',
  'two  \n',
  'back\\\n',
  '===\n',
  '---\n',
  '- - -\n',
  '***\n',
  '| a | b |\n',
  '| - | - |\n',
  '|:-:|-\n',
  '| `c\\|d` | e\\|f | g |\n',
  'a | b\n',
  '-|-\n',
  '  a | b\n',
  '| a | b |\n| - | - |\n',
  'over\nlines\n',
  '*em **strong** ~~del~~* &amp; &nbsp; \\* \\\\\n',
  '`` a ` b `` ` pad ` `over\n',
  'lines`\n',
  '<http://x.test> a@b.test www.x.test\n',
  '\0 \uFEFF \uD800 é 𝄞\n',
];
const BLANKS = ['\n', '\n', '\n\n', '  \n', '\t\n', '\r\n', '\r'];

/** Lines that decide how the lines after them are read. */
export const FRAGMENTS: readonly string[] = [
  ...HEADINGS,
  ...FENCES,
  ...HTML,
  ...CONTAINERS,
  ...LABELS,
  ...PROSE,
  ...BLANKS,
];

const line: fc.Arbitrary<string> = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(...HEADINGS) },
  { weight: 4, arbitrary: fc.constantFrom(...BLANKS) },
  { weight: 3, arbitrary: fc.constantFrom(...FENCES) },
  { weight: 3, arbitrary: fc.constantFrom(...HTML) },
  { weight: 5, arbitrary: fc.constantFrom(...CONTAINERS) },
  { weight: 3, arbitrary: fc.constantFrom(...LABELS) },
  { weight: 4, arbitrary: fc.constantFrom(...PROSE) },
);

const lineEnd = fc.constantFrom('\n', '\n', '\n', '\r\n', '\r');

/** Markdown documents of up to 30 lines, with one kind of line end for the most part. */
export const markdownText: fc.Arbitrary<string> = fc
  .tuple(
    fc.constantFrom('', '', '\uFEFF', '---\na: b\n---\n', '---\na: b\n'),
    fc.array(line, { maxLength: 30, size: 'max' }),
    lineEnd,
  )
  .map(([start, lines, end]) => (start + lines.join('')).replaceAll('\n', end));

/** An edit: where (as a share of the text), how much is removed, what is put there. */
export interface TextEdit {
  readonly at: number;
  readonly removed: number;
  readonly inserted: string;
}

export const textEdit: fc.Arbitrary<TextEdit> = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  removed: fc.nat({ max: 12 }),
  inserted: fc.oneof(fc.constant(''), fc.constantFrom('x', '`', '#', '[', '\n', ' ', '>', '<'), line),
});

export function applyEdit(text: string, edit: TextEdit): string {
  const start = Math.floor(edit.at * text.length);
  return text.slice(0, start) + edit.inserted + text.slice(start + edit.removed);
}
