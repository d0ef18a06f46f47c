import { type Gap, html, type Markup } from './markup.js';

/** How a table is written: which columns hold numbers, and whether each row's first cell is its head. */
export interface TableShape {
  readonly numbers?: readonly number[];
  readonly rowHeads?: boolean;
  readonly caption: string;
}

/** A table with a caption, in a box that scrolls sideways by itself where the screen is narrow. Nothing where there are no rows. */
export function table(
  { caption, numbers = [], rowHeads = true }: TableShape,
  heads: readonly Gap[],
  rows: readonly (readonly Gap[])[],
): Markup {
  if (rows.length === 0) return html``;
  const kind = (column: number): Markup => (numbers.includes(column) ? html` class="number"` : html``);
  return html`<div class="scroll" role="group" aria-label="${caption}" tabindex="0"><table>
<caption>${caption}</caption>
<thead><tr>${heads.map((head, at) => html`<th scope="col"${kind(at)}>${head}</th>`)}</tr></thead>
<tbody>
${rows.map(
  (row) => html`<tr>${row.map((cell, at) =>
    at === 0 && rowHeads ? html`<th scope="row"${kind(at)}>${cell}</th>` : html`<td${kind(at)}>${cell}</td>`,
  )}</tr>
`,
)}</tbody></table></div>
`;
}

/** Sentences as a list; nothing where there are none. */
export function bullets(sentences: readonly Gap[]): Markup {
  return sentences.length === 0
    ? html``
    : html`<ul>${sentences.map(
        (sentence) => html`<li>${sentence}</li>
`,
      )}</ul>
`;
}

/** Names with what they stand for, side by side where there is room. */
export function facts(pairs: readonly (readonly [name: string, value: Gap])[]): Markup {
  return html`<dl class="facts">${pairs.map(([name, value]) => html`<div><dt>${name}</dt><dd>${value}</dd></div>`)}</dl>
`;
}
