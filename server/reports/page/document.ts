/** A page as one file: markup, style and script in it, and nothing that any browser may fetch or run besides. */
import type { VNode } from 'preact';
import { renderToString } from 'preact-render-to-string';
import { sha256OfText } from '../../model/digest';
import panelScript from '../scripts/panel?text';
import { wellFormed } from '../well-formed';
import panelStyle from './panel.css?text';

export interface PageParts {
  readonly title: string;
  readonly body: VNode;
  /** CSS, ours alone. */
  readonly style: string;
  /** JavaScript, ours alone; the page reads well without it. */
  readonly script: string;
}

/** Where a page is shown: as a file in a browser, or in an editor's panel, which it follows and which opens its places. */
export type Frame = 'file' | 'panel';

/** The same parts give the same bytes. */
export function htmlDocument({ title, body, ...own }: PageParts, frame: Frame = 'file'): string {
  const style = own.style + (frame === 'panel' ? panelStyle : '');
  const script = own.script + (frame === 'panel' ? panelScript : '');
  const policy = [
    "default-src 'none'",
    `style-src '${integrityOf(style)}'`,
    `script-src '${integrityOf(script)}'`,
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  // What stands in script and style elements is not escaped by any reader, so these two are put in as they are.
  return clean(`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)}</title>
<style>${style}</style>
</head>
<body>
${renderToString(body)}
<script>${script}</script>
</body>
</html>
`);
}

function escaped(text: string): string {
  return text.replace(/[&<>]/g, (character) => `&#${character.charCodeAt(0)};`);
}

/** No reader of HTML takes U+0000 (HTML Living Standard, 13.2.5), nor UTF-8 lone surrogates. */
function clean(html: string): string {
  return wellFormed(html).replaceAll('\0', '\uFFFD');
}

/** Content Security Policy Level 3, 2.3.1: a digest as hash-source. */
function integrityOf(text: string): string {
  const bytes = sha256OfText(text).match(/../g) ?? [];
  return `sha256-${btoa(String.fromCharCode(...bytes.map((byte) => Number.parseInt(byte, 16))))}`;
}
