import type { DecisionRecord } from '../../model/decision.js';
import { short } from '../visible.js';
import { htmlText } from '../worksheet/html-text.js';
import { decisionParts, decisionSentence, decisionTitle, type Seal } from './parts.js';

const STYLE = `
:root { color-scheme: light dark; }
body { margin: 0 auto; max-width: 48rem; padding: 2rem 1rem; font: 1rem/1.5 Georgia, serif; }
h1 { font-size: 1.75rem; margin: 0 0 .5rem; }
h2 { font-size: 1.1rem; margin: 1.5rem 0 .25rem; }
ul { margin: 0; padding-left: 1.25rem; }
li { overflow-wrap: anywhere; margin: .15rem 0; }
.sign { display: grid; grid-template-columns: 1fr 1fr; gap: 2rem; margin-top: 4rem; }
.sign p { border-top: 1px solid currentColor; margin: 0; padding-top: .25rem; }
@page { margin: 2cm; }
@media print { body { max-width: none; padding: 0; font-size: 10.5pt; } h2 { break-after: avoid; } li { break-inside: avoid; } .sign { break-inside: avoid; } }
`;
const SENTENCE = 4000;

/**
 * A decision as one page to be printed, signed and filed. No script, nothing loaded; `digest` gives the SHA-256 of a text in UTF-8 in base 64, for the
 * policy that lets only this style in (Content Security Policy Level 3, 2.3.1).
 */
export function renderDecisionHtml(record: DecisionRecord, digest: (text: string) => string, seal: Seal | null = null): string {
  const text = (sentence: string): string => htmlText(short(sentence, SENTENCE));
  const parts = decisionParts(record, seal).map(
    ({ head, sentences }) => `<h2>${head}</h2>\n<ul>\n${sentences.map((sentence) => `<li>${text(sentence)}</li>`).join('\n')}\n</ul>`,
  );
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'sha256-${digest(STYLE)}'; base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${text(`Decision: ${record.batch}, delivery ${String(record.deliveryNumber)}`)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${decisionTitle(record)}</h1>
<p>${text(decisionSentence(record))}</p>
${parts.join('\n')}
<div class="sign"><p>${text(record.by)}, ${text(record.on)}</p><p>${record.second === null ? 'Seen by a second person' : text(record.second)}</p></div>
</main>
</body>
</html>
`;
}
