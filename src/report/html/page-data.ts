import type { Findings } from '../../model/findings.js';
import { renderJson } from '../json.js';
import { scriptJson } from '../json-escapes.js';
import { worstFirst } from '../words.js';
import { type Markup, trusted } from './markup.js';

/** What the script is told: which result this is, and each finding's exact id with its decision, in the order of the list. */
export interface PageData {
  /** Tells this result from every other: what is decided on one page is never taken for another. */
  readonly digest: string;
  readonly findings: readonly {
    readonly id: string;
    readonly ruling: { readonly decision: string; readonly note: string; readonly by: string; readonly on: string } | null;
  }[];
}

/** Two runs of FNV-1a (32 bits each) over a text: tells results of one library apart, and is no proof against forgery. */
function digestOf(text: string): string {
  const run = (from: number): string => {
    let hash = from;
    for (let at = 0; at < text.length; at++) hash = Math.imul(hash ^ text.charCodeAt(at), 0x01000193);
    return (hash >>> 0).toString(16).padStart(8, '0');
  };
  return `${run(0x811c9dc5)}${run(0x050c5d1f)}`;
}

/** The data as JSON in an element that a browser does not run. */
export function pageData(result: Findings): Markup {
  const data: PageData = {
    digest: digestOf(renderJson(result)),
    findings: worstFirst(result.findings).map(({ id, ruling }) => ({
      id,
      ruling: ruling && { decision: ruling.decision, note: ruling.note, by: ruling.by, on: ruling.on },
    })),
  };
  return trusted(`<script type="application/json" id="data">${scriptJson(data)}</script>`);
}
