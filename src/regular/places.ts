import type { RunIssue, Shot } from './facts.js';
import { type Irregularity, named, ofShots } from './item.js';
import { type AbsentPage, type Leaf, leafName, leafOf, shownPages, spreadsOf } from './leaves.js';

/**
 * What the reading order of an issue and its labels say of each other, where the record states the order of every page: each place once, none left
 * out, and labels that count on with the places. All of it is common practice, no source.
 */
export function irregularPlaces(issue: RunIssue, absent: readonly AbsentPage[]): Irregularity | null {
  const pages = issue.shots.filter(({ isPage, deliver }) => isPage && deliver);
  if (pages.length < 2 || pages.some(({ entry }) => entry.order === undefined)) return null;
  const read = pages.toSorted((a, b) => orderOf(a) - orderOf(b));
  const found =
    takenTwice(read, absent) ?? leftOut(issue, read, absent) ?? countedOtherwise(issue, read) ?? inPieces(read) ?? supplementFirst(read);
  if (found === null) return null;
  return ofShots(found.shots, issue, {
    code: 'pages-unaccounted',
    says: `In the issue of ${issue.day} ${found.says}`,
    likely: 'Compare page labels and reading order with the film: a row was probably shifted, or two were exchanged.',
    evidence: [
      `In reading order its pages are ${read.slice(0, MOST_SHOWN).map(inWords).join(', ')}${read.length > MOST_SHOWN ? ' ...' : ''}.`,
    ],
    doubtful: ['order', 'page', 'section'],
  });
}

interface Found {
  readonly says: string;
  readonly shots: readonly Shot[];
}

const MOST_SHOWN = 24;
const orderOf = ({ entry }: Shot): number => entry.order ?? 0;
const inWords = ({ entry }: Shot): string => entry.page ?? '(no label)';

function takenTwice(read: readonly Shot[], absent: readonly AbsentPage[]): Found | null {
  const places = new Map<number, Shot[]>();
  for (const shot of read) places.set(orderOf(shot), [...(places.get(orderOf(shot)) ?? []), shot]);
  const gone = new Set(absent.map(({ order }) => order));
  for (const [place, shots] of places) {
    if (shots.length > 1)
      return { says: `pages ${shots.map(inWords).join(' and ')} are both at place ${String(place)} of the reading order.`, shots };
    const [first] = shots;
    if (first !== undefined && gone.has(place))
      return {
        says: `page ${inWords(first)} is at place ${String(place)} of the reading order, where a page is said to be absent.`,
        shots,
      };
  }
  return null;
}

/** Places at which nothing stands. What is absent without a place, or held back and shown nowhere else, leaves one. */
function leftOut(issue: RunIssue, read: readonly Shot[], absent: readonly AbsentPage[]): Found | null {
  const taken = new Set([...read.map(orderOf), ...absent.map(({ order }) => order)]);
  const last = read.at(-1);
  const holes = Array.from({ length: last === undefined ? 0 : orderOf(last) }, (_, at) => at + 1).filter((place) => !taken.has(place));
  const shown = new Set(read.map(({ label }) => label));
  const held = issue.shots.filter(({ isPage, deliver, label }) => isPage && !deliver && !shown.has(label)).length;
  // An image of two pages may be counted as both.
  const beside = spreadsOf(issue).reduce((sum, { first, last: end }) => sum + end - first, 0);
  if (holes.length <= held + beside + absent.filter(({ order }) => order === null).length) return null;
  const behind = read.find((shot) => orderOf(shot) > (holes[0] ?? 0));
  return {
    says: `no page is at ${named('place', holes.map(String))} of the reading order, and the record does not say that one is absent there.`,
    shots: behind === undefined ? read : [behind],
  };
}

/** Labels of one section that do not count on as the places do. Second copies and pages without a number take a place and no number. */
function countedOtherwise(issue: RunIssue, read: readonly Shot[]): Found | null {
  const spreads = new Set(spreadsOf(issue).map(({ shot }) => shot));
  const first = new Set(shownPages(issue));
  let extra = 0;
  let before: { readonly leaf: Leaf; readonly place: number; readonly extra: number } | null = null;
  for (const shot of read) {
    if (spreads.has(shot)) {
      before = null;
      continue;
    }
    const leaf = first.has(shot) ? leafOf(shot) : null;
    if (leaf === null) {
      extra += 1;
      continue;
    }
    const place = orderOf(shot);
    if (before?.leaf.section === leaf.section) {
      const [step, most] = [leaf.number - before.leaf.number, place - before.place];
      if (step > most || step < most - (extra - before.extra))
        return {
          says: `page ${leafName(before.leaf)} is at place ${String(before.place)} of the reading order and page ${leafName(leaf)} at place ${String(place)}.`,
          shots: [before.leaf.shot, shot],
        };
    }
    before = { leaf, place, extra };
  }
  return null;
}

/** A section that comes back behind another one. */
function inPieces(read: readonly Shot[]): Found | null {
  const seen = new Set<string>();
  let last: string | null = null;
  for (const shot of read) {
    const leaf = leafOf(shot);
    if (leaf === null || leaf.section === last) continue;
    if (seen.has(leaf.section))
      return {
        says: `page ${leafName(leaf)} comes behind ${last === '' ? 'the pages without a section' : `section ${(last ?? '').replace(/^S /, '')}`}, in reading order apart from the pages of its own.`,
        shots: [shot],
      };
    seen.add(leaf.section);
    last = leaf.section;
  }
  return null;
}

/** A supplement is read behind the pages of its issue. */
function supplementFirst(read: readonly Shot[]): Found | null {
  const last = read.findLastIndex(({ entry }) => entry.supplement !== true);
  const early = read.find(({ entry }, at) => at < last && entry.supplement === true);
  if (early === undefined) return null;
  return {
    says: `page ${inWords(early)} of the supplement is read before page ${inWords(read[last] ?? early)} of the issue itself.`,
    shots: [early],
  };
}
