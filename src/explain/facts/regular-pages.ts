import type { Frame, FrameNumber } from '../../model/film.js';
import type { Rule } from './regular.js';

/** A page as one side reads it. */
export type PageReading = Pick<Frame, 'section' | 'order' | 'supplement'> & {
  readonly label: string | null;
  /** A label that the record notes as misprinted is not held against it. */
  readonly noted: boolean;
};

/** How the issues before and behind an issue are numbered, where a volume is paged through, and of how many pages a sheet is. */
export interface Beside {
  readonly through: boolean;
  readonly last: number | null;
  readonly next: number | null;
  readonly sheet: 2 | 4;
  /** Pages of the issue that are known not to be on the film; null where whole sheets are not usual on this film. */
  readonly wanting: number | null;
}

/** An issue of which nothing is said of those beside it. */
export const ALONE: Beside = { through: false, last: null, next: null, sheet: 2, wanting: null };

/** Breaks in what is said of the pages of one issue, in film order. */
export function breaksOfPages(pages: readonly PageReading[], beside: Beside): Rule[] {
  const sorted = pages.every(({ order }) => order !== null) ? pages.toSorted((a, b) => (a.order ?? 0) - (b.order ?? 0)) : pages;
  const odd = beside.wanting !== null && (pages.length + beside.wanting) % 2 === 1;
  return [
    ...placesOf(pages),
    ...sectionsOf(sorted),
    ...labelsOf(sorted, beside),
    ...rectoOf(sorted, beside.sheet),
    ...(odd ? (['sheets'] as const) : []),
  ];
}

/** Places that are taken twice, that do not begin with 1, or that are not those of the film. */
function placesOf(pages: readonly PageReading[]): Rule[] {
  const orders = pages.flatMap(({ order }) => order ?? []);
  const twice = new Set(orders).size < orders.length;
  const late = orders.length > 0 && Math.min(...orders) !== 1;
  const steps = pages.filter(({ order }, at) => {
    const before = pages[at - 1]?.order;
    return order !== null && before != null && order !== before + 1;
  });
  return [...(twice ? (['places'] as const) : []), ...(late ? (['places'] as const) : []), ...steps.map((): Rule => 'places')];
}

/** Sections that come back after another one, and letters before a page number that are no section's. */
function sectionsOf(sorted: readonly PageReading[]): Rule[] {
  return sorted.flatMap((page, at): Rule[] => {
    const before = sorted[at - 1];
    const again =
      before !== undefined && before.section !== page.section && sorted.slice(at + 1).some(({ section }) => section === before.section);
    const letters = /^[a-z]{1,2}(?=\d)/i.exec(page.label ?? '')?.[0];
    return [...(again ? (['sections'] as const) : []), ...(letters === undefined || page.noted ? [] : (['letters'] as const))];
  });
}

/** Labels that do not run on from the page before. */
function labelsOf(sorted: readonly PageReading[], { through, last, next }: Beside): Rule[] {
  const found: Rule[] = [];
  const first = through && last !== null ? last + 1 : 1;
  let due = !through || last !== null ? first : null;
  sorted.forEach((page, at) => {
    const before = sorted[at - 1];
    const label = inWholes(page.label);
    // a section counts its own pages, or goes on counting
    if (before !== undefined && before.section !== page.section && label === 1) due = 1;
    const other = (before?.supplement === true) !== page.supplement || before?.noted === true;
    if (label !== null && due !== null && label !== due && !page.noted && !(before !== undefined && other)) found.push('labels');
    due = label === null ? (due === null ? null : due + 1) : label + 1;
  });
  const end = inWholes(sorted.at(-1)?.label ?? null);
  if (next !== null && end !== null && next !== end + 1) found.push('labels');
  return found;
}

/** A first page whose number, counted back from the first that is given, is none of the front of a sheet. */
function rectoOf(sorted: readonly PageReading[], sheet: 2 | 4): Rule[] {
  const at = sorted.findIndex(({ label, noted }) => inWholes(label) !== null && !noted);
  const page = sorted[at];
  if (page === undefined || page.section !== sorted[0]?.section) return [];
  const steps = page.order === null ? at : page.order - 1;
  return ((((inWholes(page.label) ?? 1) - steps - 1) % sheet) + sheet) % sheet === 0 ? [] : ['recto'];
}

export function inWholes(label: string | null): number | null {
  const digits = /^[a-z]*?(\d{1,6})$/i.exec(label ?? '')?.[1];
  return digits === undefined ? null : Number(digits);
}

/**
 * Breaks in the numbers of the frames of a reel, in film order; null for one of which nothing says how it is numbered. `whole`: nothing lies in front of the
 * first of them, so that the count begins with 1.
 */
export function breaksOfNumbers(numbers: readonly (FrameNumber | null)[], whole: boolean): Rule[] {
  const found: Rule[] = [];
  let before: FrameNumber | null = null;
  let unknown = 0;
  for (const number of numbers) {
    if (number === null) {
      unknown += 1;
      continue;
    }
    const step: number = number.exposure - (before?.exposure ?? 0);
    // how many frames lie between of which nothing is said only the film can tell: there the numbers must rise, and no more
    const next = unknown > 0 ? step >= 1 : step === 1 && number.half !== 'B';
    const half = step === 0 && before?.half === 'A' && number.half === 'B';
    if (!next && !half && (whole || before !== null)) found.push('frames');
    [before, unknown] = [number, 0];
  }
  return found;
}
