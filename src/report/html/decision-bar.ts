import { html, type Markup } from './markup.js';

const CHOICES = [
  ['vendor-corrects', 'v', 'Vendor corrects', 'It counts.'],
  ['accept-as-is', 'a', 'Accept as it is', 'It no longer counts, and is paid as it came.'],
  ['collation-wrong', 'r', 'Our record was wrong', 'It no longer counts; the record is to be corrected.'],
] as const;

const KEYS = [
  ['J or ↓', 'next finding of the list'],
  ['K or ↑', 'the one before'],
  ...CHOICES.map(
    ([, key, words]) => [key.toUpperCase(), `${words.charAt(0).toLowerCase()}${words.slice(1)}; once more: not decided`] as const,
  ),
  ['N', 'write why; Escape leads back'],
  ['/', 'find in the list'],
  ['+ and -', 'the page picture larger, smaller'],
  ['T', 'the page picture turned by a quarter'],
  [', and .', 'the page before, the page behind, where pictures lie beside'],
  ['?', 'these keys'],
] as const;

const key = (letter: string): Markup => html`<kbd aria-hidden="true">${letter}</kbd>`;

/** Where the library decides, keeps and loads its rulings; of use only with the script, so hidden until that shows it. */
export function decisionBar(): Markup {
  return html`<form id="decide" aria-labelledby="deciding" hidden>
<p id="deciding" aria-live="polite">Your decision</p>
<div class="choices" role="group" aria-labelledby="deciding">${CHOICES.map(
    ([decision, letter, words, means]) =>
      html`<button type="button" data-decision="${decision}" aria-pressed="false" aria-keyshortcuts="${letter}" title="${means}">${words} ${key(letter.toUpperCase())}</button> `,
  )}</div>
<label class="note"><span class="unseen">Why</span><textarea id="note" rows="1" maxlength="10000" placeholder="Why"></textarea></label>
<div class="steps"><button type="button" id="previous" aria-keyshortcuts="k">Back ${key('K')}</button> <button type="button" id="next" aria-keyshortcuts="j">Next ${key('J')}</button></div>
<div class="filing"><p id="saved" role="status"></p> <button type="button" id="save">Save rulings</button> <button type="button" id="load">Load rulings</button> <button type="button" id="forget">Undo what is not saved</button> <button type="button" id="help" aria-keyshortcuts="?">Keys ${key('?')}</button><input type="file" id="file" accept=".json,application/json" hidden aria-label="File of rulings"></div>
<p id="elsewhere" role="status" hidden><span></span> <button type="button" id="take">Take them over</button> <button type="button" id="leave">Leave them</button></p>
</form>
<dialog id="signing" aria-labelledby="signing-head"><form method="dialog"><h3 id="signing-head">Who decides?</h3>
<p>Asked once for this page: a ruling counts only with a name and a day.</p>
<p><label>Your name <input type="text" id="decider" maxlength="1000" autocomplete="name"></label></p>
<p><label>Day <input type="date" id="decided"></label></p>
<p id="signing-fault" role="alert"></p>
<button value="save" id="sign">Save rulings</button> <button value="leave" formnovalidate>Not now</button></form></dialog>
<dialog id="keys" aria-labelledby="keys-head"><h3 id="keys-head">Keys</h3>
<dl class="keys">${KEYS.map(([name, does]) => html`<div><dt><kbd>${name}</kbd></dt><dd>${does}</dd></div>`)}</dl>
<p><label><input type="checkbox" id="keys-on" checked> Keys are on</label></p>
<p class="quiet">Saved rulings are read with <code>reeltally verify --rulings rulings.json</code>, which gives the new verdict; this page does not change it.</p>
<form method="dialog"><button>Close</button></form></dialog>
<dialog id="loading" aria-labelledby="loading-head"><h3 id="loading-head">Rulings to take over</h3>
<p id="loading-says"></p><ul id="loading-errors"></ul><div id="conflicts"></div>
<form method="dialog"><button value="take" id="loading-take">Take over</button> <button value="leave" id="loading-leave">Leave as it is</button></form></dialog>
`;
}
