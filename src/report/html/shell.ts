import { SCRIPT, SCRIPT_SHA256, STYLE, STYLE_SHA256 } from './embedded.js';
import { drawings } from './marks.js';
import { html, type Markup, trusted } from './markup.js';

/** A page of its own, for screen and paper. */
export interface Shell {
  readonly title: string;
  readonly heading: string;
  /** What the page is, in one line below the heading. */
  readonly about: string;
  /** What a reader with a keyboard may jump to first: the id of its heading and the words of the link. */
  readonly skip: { readonly id: string; readonly words: string };
  /** The parts that are shown, by the ids of their headings, and what their list is called. */
  readonly parts: readonly (readonly [id: string, words: string])[];
  readonly contents: string;
  readonly body: Markup;
  /** What the script of the page reads; null for a page without a script. */
  readonly data: Markup | null;
  /** True for a page that shows pictures of the return, which lie beside it on the disk. */
  readonly pictures?: boolean;
}

/** Nothing is loaded but pictures from where the page lies, and nothing is sent (Content Security Policy Level 3); of scripts and styles only those that are named by their digest. */
function policy(scripted: boolean, pictures: boolean): string {
  return [
    "default-src 'none'",
    ...(scripted ? [`script-src 'sha256-${SCRIPT_SHA256}'`] : []),
    `style-src 'sha256-${STYLE_SHA256}'`,
    // A page from the disk has no origin that 'self' could name.
    ...(pictures ? ["img-src 'self' file:"] : []),
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
}

/** The page as one HTML file that needs nothing beside it. */
export function inShell({ title, heading, about, skip, parts, contents, body, data, pictures = false }: Shell): string {
  return html`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${trusted(policy(data !== null, pictures))}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<meta name="color-scheme" content="light dark">
<title>${title}</title>
<style>${trusted(STYLE)}</style>
</head>
<body>
<a class="skip" href="#${skip.id}">${skip.words}</a>
${drawings()}
<header><h1>${heading}</h1>
<p class="quiet">${about}</p>
<nav aria-label="${contents}"><ul>${parts.map(([id, words]) => html`<li><a href="#${id}">${words}</a></li>`)}</ul></nav></header>
<main>
${body}</main>
${data === null ? '' : html`${data}\n<script>${trusted(SCRIPT)}</script>\n`}</body>
</html>
`.markup;
}
