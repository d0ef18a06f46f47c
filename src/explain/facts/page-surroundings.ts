import type { PairRef } from '../../model/difference.js';
import type { Frame } from '../../model/film.js';
import { issuesOnFilm } from '../film/witnesses.js';
import { groupBy, pairKey } from '../runs.js';
import { recordFrame, returnFrame, type Scene } from '../scene.js';
import { cheaper, type Rule } from './regular.js';
import { ALONE, type Beside, breaksOfPages, inWholes, type PageReading } from './regular-pages.js';
import type { Statement } from './statements.js';
import type { Readings } from './surroundings.js';

/**
 * Breaks among the pages of the issues concerned, with the record's readings and with the return's. What else differs on the same pages, in the same
 * issues, and the issues beside, are read on either side as it fits best: whoever is wrong here need not be wrong there.
 */
export function pageBreaks(scene: Scene, { fact, places }: Readings): readonly [Rule[], Rule[]] {
  const own: Rule[] = [];
  const given: Rule[] = [];
  for (const [issue, list] of groupBy(places, (place) => place.issue)) {
    if (issue === null) continue;
    const wrong = new Map(list.flatMap((place) => place.refs.map((ref) => [pairKey(ref), place] as const)));
    const pages = deliveredPages(scene, issue);
    const breaks = (here: 'record' | 'return', there: 'record' | 'return', rest: 'record' | 'return'): Rule[] =>
      breaksOfPages(
        pages.map(({ ref, frame }) => {
          const place = wrong.get(pairKey(ref));
          if (place === undefined) return there === 'record' ? pageReading(frame) : returnReading(scene, ref, frame);
          const reading = here === 'record' ? pageReading(frame) : pageWith(scene, ref, frame, fact, place);
          return { ...reading, ...restOf(scene, ref, frame, fact, rest) };
        }),
        besideOf(scene, issue, there),
      );
    const cheapest = (here: 'record' | 'return'): Rule[] => {
      const [alone, besides] = [breaks(here, 'record', 'record'), breaks(here, 'return', 'record')];
      const others = pages.every(({ ref, frame }) => !wrong.has(pairKey(ref)) || isAlone(scene, ref, frame, fact));
      const best = cheaper(alone, besides);
      return others ? best : cheaper(best, cheaper(breaks(here, 'record', 'return'), breaks(here, 'return', 'return')));
    };
    own.push(...cheapest('record'));
    given.push(...cheapest('return'));
    const repaired = pages.filter(({ frame, ref }) => {
      const reading = wrong.get(pairKey(ref))?.differs?.given ?? null;
      return fact === 'page' && frame.pagePrinted !== null && reading !== null && reading.key === frame.pageKey;
    });
    given.push(...repaired.map((): Rule => 'as-printed'));
  }
  return [own, given];
}

const bare = (label: string | null): string => label?.replace(/^\D+/, '') ?? '';

/** What the return says of the same page beside the fact in question, where that is no consequence of it: a label with its section, and its place. */
function restOf(scene: Scene, ref: PairRef, frame: Frame, fact: string, side: 'record' | 'return'): Partial<PageReading> {
  const [mine, theirs] = [pageReading(frame), returnReading(scene, ref, frame)];
  const { label, noted, order } = side === 'record' ? mine : theirs;
  return {
    ...(fact === 'page' || bare(mine.label) === bare(theirs.label) ? {} : { label, noted }),
    ...(fact === 'order' || mine.order === theirs.order ? {} : { order }),
  };
}

/** Whether nothing else differs of a page that could be told by itself. */
function isAlone(scene: Scene, ref: PairRef, frame: Frame, fact: string): boolean {
  return Object.keys(restOf(scene, ref, frame, fact, 'return')).length === 0;
}

/** The pages of an issue that are to be delivered, in film order. */
export function deliveredPages(scene: Scene, issue: number): readonly { readonly ref: PairRef; readonly frame: Frame }[] {
  return (scene.pairsOfRecordIssue.get(issue) ?? []).flatMap((ref) => {
    const frame = recordFrame(scene, ref);
    return frame?.deliver === true ? [{ ref, frame }] : [];
  });
}

/** A page to be delivered as the record reads it. */
export function pageReadingAt(scene: Scene, ref: PairRef): PageReading | null {
  const frame = recordFrame(scene, ref);
  return frame?.deliver === true ? pageReading(frame) : null;
}

function pageReading(frame: Frame): PageReading {
  const { section, order, supplement, pageKey } = frame;
  return { section, order, supplement, label: pageKey, noted: frame.pagePrinted !== null };
}

/** A page to be delivered as the return reads it. */
export function returnReadingAt(scene: Scene, ref: PairRef): PageReading | null {
  const frame = recordFrame(scene, ref);
  return frame?.deliver === true ? returnReading(scene, ref, frame) : null;
}

/** A page that only the return has, as it reads it. */
export function pageCameAt(scene: Scene, ref: PairRef): PageReading | null {
  const frame = returnFrame(scene, ref);
  return frame?.kind === 'page' ? pageReading(frame) : null;
}

/** Of how many pages the sheets of an issue are, and how many are wanting, as the record has them. */
export function sheetsOf(scene: Scene, issue: number): Beside {
  return besideOf(scene, issue, 'record');
}

/** A page as the return reads it, where it says anything of it. */
function returnReading(scene: Scene, ref: PairRef, frame: Frame): PageReading {
  const base = pageReading(frame);
  const theirs = returnFrame(scene, ref);
  if (theirs?.kind !== 'page') return base;
  const asPrinted = theirs.pageKey === null || theirs.pageKey === frame.pagePrintedKey;
  return {
    ...base,
    section: theirs.section,
    order: theirs.order ?? base.order,
    ...(asPrinted ? {} : { label: theirs.pageKey, noted: base.noted && theirs.pageKey === base.label }),
  };
}

function pageWith(scene: Scene, ref: PairRef, frame: Frame, fact: string, { differs }: Statement): PageReading {
  const base = pageReading(frame);
  const text = differs?.given?.key ?? null;
  if (fact === 'order') return { ...base, order: text === null ? null : Number(text) };
  if (fact === 'section') {
    // a label came as it came with its section; where none came the record's has no more letters than those of the section that did
    const { label, noted } = returnReading(scene, ref, frame);
    const came = returnFrame(scene, ref)?.pageKey != null;
    const own = text !== null && base.label?.startsWith(text) === true ? base.label.slice(text.length) : base.label;
    return { ...base, section: text, label: came ? label : own, noted };
  }
  // the label that was meant, where the record notes another on the paper, was put right against the paper
  return { ...base, label: text, noted: false };
}

const counted = new WeakMap<Scene, Record<'record' | 'return', ReadonlyMap<number, Beside>>>();

/** How the pages before and behind each issue on the film are numbered on a side. */
function besideOf(scene: Scene, issue: number, side: 'record' | 'return'): Beside {
  let all = counted.get(scene);
  if (all === undefined) counted.set(scene, (all = { record: labelsBeside(scene, 'record'), return: labelsBeside(scene, 'return') }));
  return all[side].get(issue) ?? ALONE;
}

function labelsBeside(scene: Scene, side: 'record' | 'return'): ReadonlyMap<number, Beside> {
  const order = issuesOnFilm(scene);
  const pages = order.map((at) => deliveredPages(scene, at));
  const labels = pages.map((list) =>
    list.flatMap(({ ref, frame }) => {
      const { section, label } = side === 'record' ? pageReading(frame) : returnReading(scene, ref, frame);
      return (section === null ? inWholes(label) : null) ?? [];
    }),
  );
  // a volume that is paged through goes on where the issue before it ended
  const goesOn = (at: number): boolean => labels[at - 1]?.at(-1) !== undefined && labels[at]?.[0] === (labels[at - 1]?.at(-1) ?? 0) + 1;
  const through = order.filter((_, at) => goesOn(at)).length * 2 > order.length;
  const wanting = order.map((at) => scene.record.absences.filter((one) => one.issue === at).length);
  const whole = pages.map((list, at) => list.length + (wanting[at] ?? 0));
  const most = (count: number): boolean => whole.filter((each) => each % count === 0).length * 8 > whole.length * 7;
  return new Map(
    order.map((one, at) => [
      one,
      {
        last: through ? (labels[at - 1]?.at(-1) ?? null) : null,
        next: through ? (labels[at + 1]?.[0] ?? null) : null,
        through,
        sheet: most(4) ? 4 : 2,
        wanting: most(2) ? (wanting[at] ?? 0) : null,
      },
    ]),
  );
}
