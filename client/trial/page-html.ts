/** The trial panel's page as it is before anything is known: nothing but its own script and style may run in it. */
import script from './page?text';
import style from './page.css?text';

/** @param nonce of the script and the style, another for each page */
export function trialPageHtml(nonce: string): string {
  const policy = `default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width">
<title>Trial</title>
<style nonce="${nonce}">${style}</style>
</head>
<body>
<main>
<h1 id="requirement"></h1>
<p id="stand"></p>
<p id="said" role="status"></p>
<section id="figures" aria-label="Given figures that the requirement rests on"></section>
<p id="none" hidden>No given figure of one line lies behind this requirement.</p>
<div class="actions"><button id="apply" disabled>Apply to the Documents</button><button id="reset" disabled>As Written</button></div>
<table id="changes" hidden>
<caption>What would change</caption>
<thead><tr><th scope="col">Requirement</th><th scope="col">As written</th><th scope="col">On trial</th></tr></thead>
<tbody id="rows"></tbody>
</table>
<p>Nothing is written before you apply it. Figures are declared by the design’s authors; <em>met</em> is neither a safety nor a compliance certificate.</p>
</main>
<script nonce="${nonce}">${script}</script>
</body>
</html>
`;
}
