/** The style of the worksheet: one column, light and dark, text and edges with the contrast of WCAG 2.2 AA. */
export const STYLE = `
:root { color-scheme: light dark; --ink: #1c1b18; --soft: #55524a; --paper: #fbfaf6; --card: #ffffff; --line: #8b8778; --accent: #14507c; --on-accent: #ffffff; --wrong: #9a2a12; --done: #2b6131; }
@media (prefers-color-scheme: dark) {
  :root { --ink: #ece9e0; --soft: #bbb6a8; --paper: #1a1a18; --card: #242420; --line: #8f8b7d; --accent: #9ccbf0; --on-accent: #10212d; --wrong: #ffab91; --done: #a4d6a5; }
}
* { box-sizing: border-box; }
body { margin: 0; background: var(--paper); color: var(--ink); font: 1rem/1.5 system-ui, sans-serif; }
header, main { max-width: 60rem; margin: 0 auto; padding: 1rem; }
h1 { font-size: 1.5rem; margin: 0 0 .5rem; }
h2 { font-size: 1.25rem; margin: 2rem 0 .5rem; }
h3 { font-size: 1.1rem; margin: 0 0 .5rem; overflow-wrap: anywhere; }
p { margin: .5rem 0; max-width: 70ch; }
a { color: var(--accent); overflow-wrap: anywhere; }
code { overflow-wrap: anywhere; }
svg { display: block; width: 100%; max-width: 30rem; height: auto; color: var(--ink); }
svg text { font-size: 11px; fill: var(--soft); }
svg .grid { stroke: var(--line); stroke-width: .5; }
svg polyline { fill: none; stroke: var(--accent); stroke-width: 2; }
table { border-collapse: collapse; }
th, td { text-align: right; padding: .1rem .75rem .1rem 0; font-weight: normal; }
kbd { font: inherit; border: 1px solid var(--line); border-radius: .25rem; padding: 0 .35rem; }
dl { display: grid; grid-template-columns: minmax(7rem, max-content) 1fr; gap: .15rem 1rem; margin: .5rem 0; }
dt { color: var(--soft); }
dd { margin: 0; overflow-wrap: anywhere; }
.skip { position: absolute; left: -99rem; }
.skip:focus { left: 1rem; top: 1rem; background: var(--card); padding: .5rem 1rem; z-index: 2; }
.bar { position: sticky; top: 0; z-index: 1; background: var(--paper); border-bottom: 1px solid var(--line); }
.bar div { max-width: 60rem; margin: 0 auto; padding: .5rem 1rem; display: flex; flex-wrap: wrap; gap: .5rem 1rem; align-items: center; }
.bar progress { width: 8rem; accent-color: var(--accent); }
article { background: var(--card); border: 1px solid var(--line); border-left-width: .4rem; border-radius: .4rem; padding: 1rem; margin: 0 0 1rem; scroll-margin-top: 5rem; }
article[data-state=done] { border-left-color: var(--done); }
article[data-state=wrong] { border-left-color: var(--wrong); }
.state { color: var(--soft); font-weight: normal; }
article[data-state=done] .state { color: var(--done); }
article[data-state=wrong] .state { color: var(--wrong); }
fieldset { border: 0; min-width: 0; padding: 0; margin: .25rem 0; display: flex; flex-wrap: wrap; gap: .25rem 1rem; align-items: center; }
legend { float: left; min-width: 22rem; max-width: 100%; padding: 0; }
label { display: inline-flex; flex-wrap: wrap; max-width: 100%; gap: .4rem; align-items: center; min-height: 1.75rem; padding: 0 .25rem; }
input[type=radio], input[type=checkbox] { width: 1.25rem; height: 1.25rem; accent-color: var(--accent); }
input[type=text], input[type=file] { font: inherit; color: inherit; background: var(--card); border: 1px solid var(--line); border-radius: .25rem; padding: .25rem .5rem; max-width: 100%; }
.note { display: flex; flex-wrap: wrap; }
.note input { flex: 1 1 16rem; min-width: 0; }
button { font: inherit; min-height: 2rem; padding: .25rem .9rem; border: 1px solid var(--accent); border-radius: .3rem; background: var(--accent); color: var(--on-accent); cursor: pointer; }
:focus-visible, article:focus { outline: 3px solid var(--accent); outline-offset: 2px; }
figure { margin: .5rem 0; }
.sheet { overflow: auto; max-height: 88vh; }
img { display: block; max-width: 100%; max-height: 84vh; width: auto; height: auto; border: 1px solid var(--line); }
figcaption, .none { color: var(--soft); margin: .25rem 0; }
@media (min-width: 64rem) { .beside:has(img) { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 24rem); gap: 0 1.25rem; align-items: start; } .beside:has(img) .asked { position: sticky; top: 4.5rem; } .beside:has(img) legend { min-width: 0; float: none; } }
[hidden] { display: none; }
ul { margin: .25rem 0; padding-left: 1.25rem; }
@media (max-width: 30rem) { dl { grid-template-columns: 1fr; } legend { min-width: 0; float: none; } .bar { position: static; } }
@media print {
  @page { margin: 12mm 13mm; }
  body { font-size: 8.5pt; line-height: 1.25; background: none; }
  header, main { max-width: none; padding: 0; }
  .bar, .skip, button, .keys, .asked p { display: none; }
  h1 { font-size: 13pt; }
  h2 { font-size: 11pt; margin: .6rem 0 .2rem; }
  h3 { font-size: 9pt; margin: 0; }
  h1, h2, h3 { break-after: avoid; }
  p, ul, figure, dl { margin: .15rem 0; max-width: none; }
  header dd { font-size: 7.5pt; white-space: nowrap; }
  svg { max-width: 10cm; }
  article { break-inside: avoid; padding: .2rem .5rem; margin: 0 0 .3rem; }
  article > dl { display: flex; flex-wrap: wrap; gap: 0 .3rem; }
  article > dl dd { margin-right: .9rem; }
  .beside { display: grid; grid-template-columns: minmax(0, 1fr) minmax(0, 1fr); gap: 0 1rem; }
  .beside .asked { position: static; }
  .sheet { max-height: none; overflow: visible; }
  img { max-height: 6cm; }
  fieldset { margin: 0; gap: 0 .5rem; }
  legend { min-width: 0; float: left; }
  label { min-height: 0; padding: 0; }
  input[type=radio] { width: .8rem; height: .8rem; }
}
`;
