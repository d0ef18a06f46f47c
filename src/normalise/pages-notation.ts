import type { FrameKind } from '../model/collation-record.js';

/** One thing that the camera saw, or a page that it did not see, as the pages cell of an issue sheet writes it. */
export type PagesItem =
  | {
      readonly is: 'frame';
      readonly kind: FrameKind;
      readonly deliver: boolean;
      readonly label: string | null;
      readonly printed: string | null;
      readonly section: string | null;
      readonly duplicateOf: string | null;
    }
  | { readonly is: 'absent'; readonly label: string; readonly section: string | null; readonly published: 'yes' | 'no' | 'unknown' }
  | { readonly is: 'number'; readonly frame: string };

/** A cell that cannot be read: which part of it, and why. */
export interface PagesFault {
  readonly part: string;
  readonly says: string;
}

const SIGNS: Readonly<Partial<Record<string, FrameKind>>> = { _: 'blank', t: 'target', v: 'void' };

/** No range of pages is longer than this: a slip such as `1-8000` must not become eight thousand frames. */
const LONGEST_RANGE = 400;

/** Reads a pages cell. Items come in filming order; what cannot be read comes back as faults, and the rest is still read. */
export function readPages(cell: string): { readonly items: readonly PagesItem[]; readonly faults: readonly PagesFault[] } {
  const items: PagesItem[] = [];
  const faults: PagesFault[] = [];
  if (cell.length > 5000) return { items, faults: [{ part: cell.slice(0, 20), says: 'is longer than 5,000 characters' }] };
  for (const raw of cell.split(',')) {
    const part = raw.trim();
    if (part === '') {
      faults.push({ part: raw, says: 'is empty: there is a comma too many' });
      continue;
    }
    const read = readPart(part);
    if (typeof read === 'string') faults.push({ part, says: read });
    else items.push(...read);
  }
  return { items, faults };
}

/** The items of one part, or the reason why it cannot be read. */
function readPart(part: string): PagesItem[] | string {
  if (part.startsWith('@')) {
    return /^@\d{1,6}[A-Za-z]?$/.test(part)
      ? [{ is: 'number', frame: part.slice(1).toUpperCase() }]
      : 'must be @ and a frame number, such as @12 or @12A';
  }
  if (part.startsWith('[')) return readAbsent(part);
  const sign = SIGNS[part];
  if (sign !== undefined) return [frame(sign, false, null, null, null)];
  const suppressed = /^x(?=.)/.test(part);
  const rest = suppressed ? part.slice(1) : part;
  if (suppressed && SIGNS[rest] !== undefined) return 'is held back without an x in front';
  const [body = '', twin, ...more] = rest.split('=');
  if (more.length > 0) return 'has more than one =';
  if (twin !== undefined && (!suppressed || !/^(?:[^:\s]{1,40}:)?\d{1,6}[A-Za-z]?$/.test(twin)))
    return 'must be x, a page, = and the frame that it repeats, such as x3=415';
  const printed = /^(.+?)\(([^()]*)\)$/.exec(body);
  if (printed !== null) {
    const label = readLabel(printed[1] ?? '');
    if (label === null) return 'has in front of the bracket no single page label';
    const text = (printed[2] ?? '').trim();
    if (text === '') return 'has an empty bracket: write what is printed, or (-) for nothing';
    return [frame('page', !suppressed, label, text, twin ?? null)];
  }
  const labels = readRange(body);
  if (typeof labels === 'string') return labels;
  if (twin !== undefined && labels.length > 1) return 'names one frame for several pages; write each with its own =';
  return labels.map((label) => frame('page', !suppressed, label, null, twin ?? null));
}

function frame(kind: FrameKind, deliver: boolean, label: string | null, printed: string | null, duplicateOf: string | null): PagesItem {
  return { is: 'frame', kind, deliver, label, printed, section: label === null ? null : sectionOf(label), duplicateOf };
}

function readAbsent(part: string): PagesItem[] | string {
  const match = /^\[([^[\]?]+?)(\?|-)?\]$/.exec(part);
  if (match === null) return 'must be a page in square brackets, such as [5], [5?] or [5-]';
  const labels = readRange((match[1] ?? '').trim());
  if (typeof labels === 'string') return labels;
  const published = match[2] === '?' ? 'unknown' : match[2] === '-' ? 'no' : 'yes';
  return labels.map((label) => ({ is: 'absent', label, section: sectionOf(label), published }));
}

/** `A` for `A3`; null for a plain number. */
function sectionOf(label: string): string | null {
  const match = /^([A-Za-z]{1,3})[-. ]?\d/.exec(label);
  return match?.[1] === undefined ? null : match[1].toUpperCase();
}

function readLabel(text: string): string | null {
  const label = text.trim();
  return /^[A-Za-z]{0,3}[-. ]?\d{1,5}[A-Za-z]?$/.test(label) || /^[ivxlcdm]{1,8}$/i.test(label) ? label : null;
}

/** One label, or all of a range such as `1-8` and `A1-A4`. */
function readRange(text: string): string[] | string {
  const single = readLabel(text);
  if (single !== null) return [single];
  const match = /^([A-Za-z]{0,3})(\d{1,5})-([A-Za-z]{0,3})(\d{1,5})$/.exec(text.replace(/\s+/g, ''));
  if (match === null) return 'is no page, range or sign of this notation (a label, 1-8, A1-A4, x3, [5], _ t v, @12A)';
  const [, prefix = '', first = '', prefix2 = '', last = ''] = match;
  if (prefix2 !== '' && prefix2.toUpperCase() !== prefix.toUpperCase())
    return 'runs from one section into another; write one range for each';
  const from = Number(first);
  const to = Number(last);
  if (to < from) return 'runs backwards';
  if (to - from >= LONGEST_RANGE) return `is a range of more than ${String(LONGEST_RANGE)} pages`;
  return Array.from({ length: to - from + 1 }, (_, i) => `${prefix}${String(from + i)}`);
}
