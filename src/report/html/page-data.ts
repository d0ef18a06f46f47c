import type { Findings } from '../../model/findings.js';
import { worstFirst } from '../words.js';
import { type Markup, trusted } from './markup.js';

/** What the script is told: which result this is, and each finding's exact id with its decision, in the order of the list. */
export interface PageData {
  readonly batch: string;
  readonly delivery: number;
  readonly at: string;
  readonly findings: readonly {
    readonly id: string;
    readonly ruling: { readonly decision: string; readonly note: string; readonly by: string; readonly on: string } | null;
  }[];
}

/** Everything that could end the element or stand for something else in it, and what no editor shows; RFC 8259 section 7 allows any character to be escaped. */
const ESCAPE =
  /[<>&\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufdd0-\ufdef\ufeff\ufff9-\uffff]|\udb40[\udc00-\udc7f]/g;

/** The data as JSON in an element that a browser does not run. */
export function pageData(result: Findings): Markup {
  const { batch, delivery, at } = result.run;
  const data: PageData = {
    batch,
    delivery,
    at,
    findings: worstFirst(result.findings).map(({ id, ruling }) => ({
      id,
      ruling: ruling && { decision: ruling.decision, note: ruling.note, by: ruling.by, on: ruling.on },
    })),
  };
  const json = JSON.stringify(data).replace(ESCAPE, (text) =>
    Array.from({ length: text.length }, (_, place) => `\\u${text.charCodeAt(place).toString(16).padStart(4, '0')}`).join(''),
  );
  return trusted(`<script type="application/json" id="data">${json}</script>`);
}
