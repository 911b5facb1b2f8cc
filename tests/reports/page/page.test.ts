/** The machinery of pages: links that lead nowhere else, Markdown that runs nothing, one file that fetches nothing. */
import fc from 'fast-check';
import { h } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { describe, expect, test } from 'vitest';
import { sha256OfText } from '../../../server/model/digest';
import { htmlDocument } from '../../../server/reports/page/document';
import { documentLink, placeLink } from '../../../server/reports/page/links';
import { Markdown } from '../../../server/reports/page/markdown';
import { digitsBefore } from '../../../server/reports/page/parts';

const LINKS = { base: '../tern/' };

describe('links', () => {
  test.each([
    ['https://example.org/a?b#c', 'https://example.org/a?b#c'],
    ['HTTP://example.org', 'HTTP://example.org'],
    ['mailto:a.person@example.org', 'mailto:a.person@example.org'],
    ['notes/bank.md', '../tern/requirements/notes/bank.md'],
    ['./bank.md#top', '../tern/requirements/bank.md#top'],
    ['../design/power.md', '../tern/design/power.md'],
    ['../../other/x.md', '../tern/../other/x.md'],
    ['#draw', '../tern/requirements/power.md#draw'],
    ['a\\b.md', '../tern/requirements/a/b.md'],
  ])('%s leads to %s', (href, target) => {
    expect(documentLink(LINKS, 'requirements/power.md', href)).toBe(target);
  });

  test.each([
    'javascript:alert(1)',
    ' java\nscript:alert(1)',
    '\u0001javascript:alert(1)',
    'JAVASCRIPT:alert(1)',
    'vbscript:x',
    'data:text/html,<script>alert(1)</script>',
    'file:///etc/passwd',
    '//example.org/x',
    '\\\\example.org\\x',
    '/etc/passwd',
    'blob:x',
    '',
    ' ',
  ])('%j is no link', (href) => {
    expect(documentLink(LINKS, 'requirements/power.md', href)).toBeNull();
  });

  test('a path that looks like a scheme is made plain', () => {
    expect(documentLink({ base: '' }, 'power.md', './javascript:alert(1)')).toBe('./javascript:alert(1)');
  });

  test('whatever is written, a browser never finds another scheme', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.webUrl(),
          fc.string().map((text) => `java${text}script:x`),
        ),
        (href) => {
          const target = documentLink({ base: '' }, 'a.md', href);
          if (target === null) return;
          const { protocol } = new URL(target, 'https://page.example/folder/');
          expect(['http:', 'https:', 'mailto:']).toContain(protocol);
        },
      ),
    );
  });

  test('to lines of documents; none where documents are out of reach', () => {
    expect(placeLink(LINKS, 'a b/ü.md', 7)).toBe('../tern/a%20b/%C3%BC.md#L7');
    expect(placeLink({ base: null }, 'a.md', 7)).toBeNull();
    expect(documentLink({ base: null }, 'a.md', 'b.md')).toBeNull();
    expect(documentLink({ base: null }, 'a.md', 'https://example.org')).toBe('https://example.org');
  });
});

describe('Markdown', () => {
  const shown = (markdown: readonly string[], column: number | null = null) =>
    renderToString(h(Markdown, { text: { markdown, column, file: 'a.md' }, links: { base: '' } }));

  test('keeps emphasis, code, lists and links', () => {
    expect(shown(['It **shall** *draw* `a.b` [more](b.md).'])).toBe(
      'It <strong>shall</strong> <em>draw</em> <code>a.b</code> <a href="b.md" rel="noreferrer">more</a>.',
    );
    expect(shown(['The cover:', 'is red'])).toBe('The cover: <br/>is red');
  });

  test('a cell has no spaces that are not written', () => {
    expect(shown(['| | |\n|-|-|\n| P-1 | at 5 Bd (`x`). |'], 1)).toBe('at 5 Bd (<code>x</code>).');
  });

  test('HTML is shown as it is written', () => {
    expect(shown(['a <b onclick="x">b</b> <script>alert(1)</script>'])).toBe(
      'a &lt;b onclick=&quot;x&quot;>b&lt;/b> &lt;script>alert(1)&lt;/script>',
    );
  });

  test('images are their words, forbidden links are their text', () => {
    expect(shown(['![a picture](https://example.org/x.png) [x](javascript:alert(1))'])).toBe('a picture x');
  });

  test('only known elements come out, whatever goes in', () => {
    const pieces = fc.constantFrom(
      '<',
      '>',
      '"',
      "'",
      '[',
      '](',
      ')',
      '`',
      '*',
      '_',
      '\n',
      '- ',
      '|',
      '&lt;',
      'x',
      'javascript:',
      '![',
      '<!--',
      '-->',
      '<script>',
      '~~',
      '# ',
      '> ',
    );
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 30 }), (parts) => {
        const html = shown([parts.join('')]);
        const tags = [...html.matchAll(/<\/?([a-z]\w*)([^>]*)>/gi)];
        for (const [, tag = '', rest = ''] of tags) {
          expect(['em', 'strong', 'del', 'code', 'a', 'br', 'ul', 'ol', 'li', 'blockquote']).toContain(tag);
          expect(rest).toMatch(/^(?: ?\/| href="[^"]*" rel="noreferrer")?$/);
        }
        expect(html).not.toMatch(/href="\s*(?:javascript|data|vbscript)/i);
      }),
    );
  });
});

describe('a page', () => {
  const html = htmlDocument({
    title: 'a </title><script>',
    body: h('p', null, '\0 \ud800 <b>'),
    style: 'p{color:red}',
    script: 'let a=1<2',
  });

  test('lets only its own style and script be used, by their digests', () => {
    const base64 = (text: string) => Buffer.from(sha256OfText(text), 'hex').toString('base64');
    expect(html).toContain(
      `content="default-src 'none'; style-src 'sha256-${base64('p{color:red}')}'; script-src 'sha256-${base64('let a=1<2')}'; base-uri 'none'; form-action 'none'"`,
    );
    expect(html).toContain('<style>p{color:red}</style>');
    expect(html).toContain('<script>let a=1<2</script>');
  });

  test('has nothing in it that readers of HTML or of UTF-8 stumble over', () => {
    expect(html).toContain('<title>a &#60;/title&#62;&#60;script&#62;</title>');
    expect(html).toContain('<p>\uFFFD \uFFFD &lt;b></p>');
  });
});

test('columns have room for the digits before the point of all but the longest figures', () => {
  const digits = (...texts: readonly string[]) => digitsBefore(texts.map((text) => ({ digits: text })));
  expect(digits('47.63', '-5.64', '2')).toBe(2);
  expect(digits('204800', '0.5')).toBe(6);
  expect(digits('1.25×10^-7', '2026-10-02', '123456789')).toBe(1);
  expect(digits()).toBe(0);
});
