import { doubtPlace, doubtsInWords, recordDoubts } from '../record-doubts.js';
import { sinceSent } from '../since-sent.js';
import { type Around, findingLink } from './around.js';
import { html, type Markup } from './markup.js';
import { bullets, table } from './table.js';

/** So many are shown; the others stand in findings.json, and `collation check` tells them all. */
const MOST = 40;

/** The open problems of the record, those first on which findings rest; nothing where the record has none. */
export function recordSection(whole: Around): Markup {
  const doubts = recordDoubts(whole.result);
  if (doubts.length === 0) return html``;
  const rows = doubts
    .slice(0, MOST)
    .map(({ item, findings }) => [
      doubtPlace(item),
      html`${item.says}${item.likely !== null && ` ${item.likely}`}`,
      html`${findings.map((id, at) => html`${at > 0 && ', '}${findingLink(whole, id, (number) => html`${number}`)}`)}`,
    ]);
  return html`<section aria-labelledby="record"><h2 id="record">The record itself</h2>
<p>${doubtsInWords(doubts, whole.result)}</p>
${table({ caption: 'Open problems of the record' }, ['Where', 'what does not agree', 'findings'], rows)}${
  doubts.length > MOST && html`<p>and ${doubts.length - MOST} more; <code>reeltally collation check</code> lists them all.</p>`
}</section>
`;
}

/** What was changed in the record since it was sent; nothing where the record that was sent is not known. */
export function sentSection({ result }: Around): Markup {
  const since = sinceSent(result);
  if (since === null) return html``;
  const more = since.changes.length - MOST;
  return html`<section aria-labelledby="sent"><h2 id="sent">The record since it was sent</h2>
<p>${since.means}</p>
${since.changes.length > 0 && bullets(since.changes.slice(0, MOST))}${more > 0 && html`<p>and ${more} more, listed in findings.json.</p>`}</section>
`;
}
