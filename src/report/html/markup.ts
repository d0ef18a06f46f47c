import { withEntities } from '../markup-text.js';
import { short } from '../visible.js';

/** A piece of HTML that is safe to stand in a page: made by `html` alone. */
export interface Markup {
  readonly markup: string;
}

/** What may stand in a gap of a template: text is escaped, markup stands as it is, nothing is left out. */
export type Gap = string | number | Markup | null | false | readonly Gap[];

/** A person reads no more of one value; the JSON report has it whole. */
const LONGEST = 1500;

/** Text for an element or a quoted attribute: harmful characters made visible, cut after `limit`, the characters of the markup escaped. */
export function escaped(text: string, limit = LONGEST): string {
  // The noncharacters are parse errors in HTML (Living Standard, 13.2.3.5) though they do no harm.
  return withEntities(short(text, limit).replace(/[\ufdd0-\ufdef\ufffe\uffff]/g, '\ufffd'));
}

function written(gap: Gap): string {
  if (gap === null || gap === false) return '';
  if (typeof gap === 'string') return escaped(gap);
  if (typeof gap === 'number') return String(gap);
  return 'markup' in gap ? gap.markup : gap.map(written).join('');
}

/** A template of HTML: what stands in its gaps is escaped unless it is markup itself, so that no text of a file can become markup. */
export function html(parts: TemplateStringsArray, ...gaps: readonly Gap[]): Markup {
  return { markup: parts.map((part, at) => part + (at < gaps.length ? written(gaps[at] ?? null) : '')).join('') };
}

/** Text that is known to be markup: the script, the style and the drawings of this report, never anything from a file. */
export function trusted(markup: string): Markup {
  return { markup };
}

/** Pieces with something between each two. */
export function joined(pieces: readonly Gap[], between: Gap): Markup {
  return html`${pieces.map((piece, at) => (at === 0 ? piece : [between, piece]))}`;
}
