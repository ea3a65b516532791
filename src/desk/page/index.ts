// The page of the desk: it is empty, and its script fills it with what the desk tells.
import { createHash } from 'node:crypto';
import { script, style } from './assets.generated.js';

/** The page, and the Content Security Policy that it is served with. */
export interface DeskPage {
  readonly html: string;
  readonly policy: string;
}

/** All texts come to it as data and are shown as text, so that nothing of a file stands in its markup. */
export function deskPage(): DeskPage {
  return { html, policy };
}

const html = `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<meta name="color-scheme" content="light dark">
<link rel="icon" href="data:,">
<title>The desk</title>
<style>${style}</style>
</head>
<body>
<header aria-label="The desk"><h1 id="title">The desk</h1><p id="state" role="status">The files are being read.</p></header>
<main aria-label="The sheet, and what can be moved">
<div class="words">
<section id="problems" aria-labelledby="problems-heading" hidden><h2 id="problems-heading">What is wrong in the files</h2><ul></ul></section>
<section id="changes" aria-labelledby="changes-heading" hidden><h2 id="changes-heading">Since the save before</h2><p></p><ul></ul></section>
<section id="moved" tabindex="-1" aria-labelledby="moved-heading"><h2 id="moved-heading">Moved, and not written</h2><p class="effect" role="status">Nothing is moved.</p><ul class="refused"></ul><ul class="moves"></ul><ul class="effects"></ul><p class="acts"><button type="button" id="write" disabled>Write it into the files</button><button type="button" id="drop" disabled>Put all of it back</button></p></section>
<section id="values" aria-label="Bounds and levels"></section>
</div>
<section class="paper" aria-label="Sheet"></section>
</main>
<script>${script}</script>
</body>
</html>
`;

const policy = [
  "default-src 'none'",
  `script-src ${hashOf(script)}`,
  `style-src ${hashOf(style)}`,
  'img-src data:',
  "connect-src 'self'",
  "frame-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

function hashOf(text: string): string {
  return `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
}
