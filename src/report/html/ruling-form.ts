import type { Finding } from '../../model/findings.js';
import { html, type Markup } from './markup.js';

const CHOICES = [
  ['vendor-corrects', 'The vendor corrects it', 'it counts'],
  ['collation-wrong', 'The record was wrong', 'it no longer counts; the record is to be corrected'],
  ['accept-as-is', 'Accept as it is', 'it no longer counts; billing stands'],
] as const;

/** Where the library marks what it decides about a finding; of use only with the script, so hidden until that shows it. */
export function rulingForm(finding: Finding, at: number): Markup {
  const name = `ruling-${String(at)}`;
  const present = finding.ruling?.decision ?? '';
  const choice = (value: string, words: string, means: string | null): Markup =>
    html`<label><input type="radio" name="${name}" value="${value}"${present === value && html` checked`}> ${words}${means !== null && html` <span class="quiet">(${means})</span>`}</label>
`;
  return html`<fieldset class="ruling" data-at="${at}" hidden><legend>Decision about finding ${at + 1}</legend>
${choice('', 'Not decided', null)}${CHOICES.map(([value, words, means]) => choice(value, words, means))}<label class="wide">Why <textarea rows="2" maxlength="10000">${finding.ruling?.note ?? ''}</textarea></label>
</fieldset>`;
}
