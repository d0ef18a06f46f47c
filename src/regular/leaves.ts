import { spreadLabel } from '../normalise/labels.js';
import type { Facts, RunIssue, Shot } from './facts.js';

/** A page of an issue that the record says is absent. */
export interface AbsentPage {
  readonly section: string;
  readonly number: number;
  readonly order: number | null;
}

/** Pages that the record says are absent, by title, day and edition. */
export type AbsentPages = ReadonlyMap<string, readonly AbsentPage[]>;

/** A delivered page with a number in its label: its section, or the letters in front of the number where none is given. */
export interface Leaf {
  readonly section: string;
  /** The letters in front of the number, its own section's left out; empty where there are none. */
  readonly letters: string;
  readonly number: number;
  readonly shot: Shot;
}

/** The absent pages of a record. */
export function absentPages({ side }: Facts): AbsentPages {
  const found = new Map<string, AbsentPage[]>();
  for (const { title, date, edition, section, page, order } of side.absences) {
    if (page === null && order === null) continue;
    const key = JSON.stringify([title, date?.day, edition ?? 1]);
    const number = Number(/(\d{1,5})(?!.*\d)/.exec(page ?? '')?.[1] ?? order ?? 0);
    const known = found.get(key);
    const one = { section: section ?? '', number, order };
    if (known === undefined) found.set(key, [one]);
    else known.push(one);
  }
  return found;
}

/** Those of one issue. */
export function absentOf(issue: RunIssue, absent: AbsentPages): readonly AbsentPage[] {
  return absent.get(JSON.stringify([issue.title, issue.day, issue.edition])) ?? [];
}

/** True for an issue that holds most of its pages twice: that is one thing, told elsewhere. */
export function contradicts(issue: RunIssue): boolean {
  const shown = shownPages(issue);
  const labels = new Set(shown.map(({ label }) => label));
  // Where each stands right behind its first, pages were filmed again; two issues in one begin anew.
  const seen = new Set<string | null>();
  const anew = shown.some(({ label }, at) => {
    const again = label !== shown[at - 1]?.label && seen.has(label);
    seen.add(label);
    return again;
  });
  return anew && labels.size >= 2 && shown.length - labels.size >= labels.size / 2;
}

/** What several rules ask for of the same issue or page is worked out once. */
function onceFor<K extends object, V>(make: (of: K) => V): (of: K) => V {
  const known = new WeakMap<K, V>();
  return (of) => {
    let found = known.get(of);
    if (found === undefined) {
      found = make(of);
      known.set(of, found);
    }
    return found;
  };
}

/** The pages of an issue that are delivered as such, without second exposures. */
export const shownPages = onceFor(({ shots }: RunIssue): readonly Shot[] => {
  const shown = shots.filter(({ isPage, deliver, entry, label }) => isPage && deliver && label !== null && entry.duplicateOf === undefined);
  // A retake beside the frame that it makes good is told of by itself.
  const first = new Set(shown.flatMap(({ entry, label }) => (entry.retakeOf === undefined ? [label] : [])));
  return shown.filter(({ entry, label }) => entry.retakeOf === undefined || !first.has(label));
});

/** The page as one with a number; null where its label has none. */
export const leafOf = onceFor((shot: Shot): Leaf | null => {
  const [section = '', label = ''] = (shot.label ?? '').split('|');
  const match = /^([A-Z]{0,3})[-. ]?(\d{1,5})$/.exec(label);
  if (match === null) return null;
  const letters = match[1] ?? '';
  return { section: section === '' || section === 'S ' ? `${section}${letters}` : section, letters, number: Number(match[2]), shot };
});

/** The pages of an issue whose labels have a number. */
export const leavesOf = onceFor((issue: RunIssue): readonly Leaf[] => shownPages(issue).flatMap((shot) => leafOf(shot) ?? []));

/** A page as it is named in a sentence, with its section. */
export function leafName({ section, number }: Pick<Leaf, 'section' | 'number'>): string {
  return `${section}${String(number)}`;
}

/** Pages that lie on one image, `2-3`: the section, the first and the last number. */
export interface Spread {
  readonly section: string;
  readonly first: number;
  readonly last: number;
  readonly shot: Shot;
}

/** The images of an issue that show several pages. Labels that would name a page twice are of another kind, such as section and page. */
export const spreadsOf = onceFor((issue: RunIssue): readonly Spread[] => {
  const spreads = shownPages(issue).flatMap((shot): readonly Spread[] => {
    const [section = '', label = ''] = (shot.label ?? '').split('|');
    const found = spreadLabel(label);
    return found === null ? [] : [{ section: section === '' ? found.letters : section, first: found.first, last: found.last, shot }];
  });
  if (spreads.length === 0) return spreads;
  const names = [
    ...leavesOf(issue).map(leafName),
    ...spreads.flatMap((spread) => numbersOf(spread).map((number) => leafName({ section: spread.section, number }))),
  ];
  return new Set(names).size === names.length ? spreads : [];
});

/** Every number on the image. */
export function numbersOf({ first, last }: Spread): readonly number[] {
  return Array.from({ length: last - first + 1 }, (_, at) => first + at);
}
