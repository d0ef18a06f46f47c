import type { Findings } from '../../model/findings.js';
import { scriptJson } from '../json-escapes.js';
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
  return trusted(`<script type="application/json" id="data">${scriptJson(data)}</script>`);
}
