import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../../src/model/collation-record.js';
import { plusDays, weekdayOf } from '../forge/film/days.js';
import type { Random } from '../forge/film/random.js';

/** A slip of the library's pen: the record with it, and the days and frames at which it can be seen. */
export interface Slip {
  readonly record: CollationRecord;
  readonly days: readonly string[];
  readonly frames: readonly string[];
}

/** A kind of slip. `hidden` says why no regularity of a record shows it; null where one does. */
export interface SlipKind {
  readonly name: string;
  readonly hidden: string | null;
  readonly plant: (site: Site, random: Random) => Slip | null;
}

/** A plain issue in the middle of a reel: its frames lie together, and issues of its title lie on both sides. */
export interface Site {
  readonly record: CollationRecord;
  readonly reel: number;
  readonly from: number;
  readonly to: number;
  readonly before: FrameEntry;
  readonly next: FrameEntry;
}

const frameNumber = (frame: FrameEntry): number => Number(/\d+/.exec(frame.frame)?.[0] ?? 0);

/** The plain issues of a record. */
export function sitesOf(record: CollationRecord): readonly Site[] {
  return record.reels.flatMap(({ frames }, reel) => {
    const same = (a: FrameEntry | undefined, b: FrameEntry | undefined): boolean =>
      a !== undefined && b !== undefined && a.title === b.title && a.date === b.date && (a.edition ?? 1) === (b.edition ?? 1);
    const firsts = frames.flatMap((frame, at) => (frame.date !== undefined && !same(frames[at - 1], frame) ? [at] : []));
    return firsts.flatMap((from): readonly Site[] => {
      let to = from;
      while (same(frames[from], frames[to + 1])) to += 1;
      const own = frames.slice(from, to + 1);
      const first = frames[from];
      const lone =
        frames.filter((frame) => same(frame, first)).length === own.length &&
        !frames.some((frame) => frame.date === first?.date && frame.edition !== first?.edition && frame.title === first?.title);
      const plain = own.every(
        (frame, at) =>
          (frame.kind ?? 'page') === 'page' &&
          frame.deliver !== false &&
          frame.page === String(Number(first?.page ?? 0) + at) &&
          frame.duplicateOf === undefined &&
          frame.section === undefined &&
          frame.supplement !== true,
      );
      const before = frames.slice(0, from).findLast((frame) => frame.title === first?.title && frame.date !== undefined);
      const next = frames.slice(to + 1).find((frame) => frame.title === first?.title && frame.date !== undefined);
      if (
        !lone ||
        !plain ||
        own.length < 4 ||
        before === undefined ||
        next === undefined ||
        (first?.date ?? '') <= (before.date ?? '') ||
        (next.date ?? '') <= (first?.date ?? '')
      )
        return [];
      // Issues of which something is absent or misprinted have their own say.
      const odd = [before, ...own, next].some(
        ({ datePrinted, issueNumberIntended, edition }) =>
          datePrinted !== undefined || issueNumberIntended !== undefined || (edition ?? 1) > 1,
      );
      const gone = (record.reels[reel]?.absent ?? []).some(
        ({ title, date }) => title === first?.title && date >= (before.date ?? '') && date <= (next.date ?? ''),
      );
      // An issue that came out on another day than usual would be put right by the slip.
      const days = record.titles.find(({ id }) => id === first?.title)?.patterns?.flatMap((pattern) => pattern.days) ?? [];
      const usual = days.some((day) => day === weekdayOf(first?.date ?? ''));
      return odd || gone || !usual ? [] : [{ record, reel, from, to, before, next }];
    });
  });
}

/** The record with the frames of the site's reel changed. */
function withFrames({ record, reel }: Site, change: (frames: readonly FrameEntry[]) => readonly FrameEntry[]): CollationRecord {
  return { ...record, reels: record.reels.map((one, at): ReelEntry => (at === reel ? { ...one, frames: change(one.frames) } : one)) };
}

/** Frames from `from` to `to` with some facts of their own. */
function setFrames(site: Site, from: number, to: number, facts: (frame: FrameEntry) => Partial<FrameEntry>): CollationRecord {
  return withFrames(site, (frames) => frames.map((frame, at) => (at >= from && at <= to ? { ...frame, ...facts(frame) } : frame)));
}

function issueSlip(site: Site, facts: (frame: FrameEntry) => Partial<FrameEntry>): Slip {
  const { record, reel, from, to, next, before } = site;
  const own = record.reels[reel]?.frames.slice(from, to + 1) ?? [];
  const days = [...own, next, before].flatMap(({ date }) => date ?? []);
  return {
    record: setFrames(site, from, to, facts),
    days: [...new Set([...days, ...own.flatMap((frame) => facts(frame).date ?? [])])],
    frames: own.map(({ frame }) => frame),
  };
}

function pageSlip(site: Site, at: number, facts: (frame: FrameEntry) => Partial<FrameEntry>): Slip {
  const frame = site.record.reels[site.reel]?.frames[at];
  return { record: setFrames(site, at, at, facts), days: [frame?.date ?? ''], frames: [frame?.frame ?? ''] };
}

const middle = (site: Site, random: Random): number => site.from + 1 + random.below(site.to - site.from - 1);

function without(site: Site, from: number, to: number, renumbered: boolean): Slip {
  const { record, reel, next, before } = site;
  const frames = record.reels[reel]?.frames ?? [];
  const gone = frames.slice(from, to + 1);
  const numbers = new Map<string, string>();
  const kept = frames.filter((_, at) => at < from || at > to);
  const moved = kept.map((frame, at): FrameEntry => {
    const number = renumbered && at >= from ? frame.frame.replace(/\d+/, String(frameNumber(frame) - gone.length)) : frame.frame;
    numbers.set(frame.frame, number);
    return { ...frame, frame: number };
  });
  const pointed = moved.map((frame) => ({
    ...frame,
    ...(frame.duplicateOf === undefined ? {} : { duplicateOf: numbers.get(frame.duplicateOf) ?? frame.duplicateOf }),
    ...(frame.retakeOf === undefined ? {} : { retakeOf: numbers.get(frame.retakeOf) ?? frame.retakeOf }),
  }));
  return {
    record: withFrames(site, () => pointed),
    days: [...gone, next, before].flatMap(({ date }) => date ?? []),
    frames: [...gone, ...frames.slice(to + 1, to + 2)].map(({ frame }) => frame),
  };
}

/** Film on which every exposure has a number of its own. */
const whole = (site: Site): boolean => (site.record.reels[site.reel]?.frames ?? []).every(({ frame }) => /^\d+$/.test(frame));

function absentSlip(
  record: CollationRecord,
  random: Random,
  fits: (entry: AbsentEntry) => boolean,
  change: (entry: AbsentEntry) => AbsentEntry | null,
): Slip | null {
  const all = record.reels.flatMap(({ absent }, reel) => (absent ?? []).flatMap((entry, at) => (fits(entry) ? [{ reel, at, entry }] : [])));
  if (all.length === 0) return null;
  const one = random.pick(all);
  const next: CollationRecord = {
    ...record,
    reels: record.reels.map((reel, at) =>
      at !== one.reel
        ? reel
        : { ...reel, absent: (reel.absent ?? []).flatMap((entry, i) => (i === one.at ? (change(entry) ?? []) : [entry])) },
    ),
  };
  const days = record.reels
    .flatMap(({ frames }) => frames.flatMap(({ date, title }) => (title === one.entry.title && date !== undefined ? [date] : [])))
    .toSorted();
  const behind = days.find((day) => day > one.entry.date);
  return { record: next, days: [one.entry.date, ...(behind === undefined ? [] : [behind])], frames: [] };
}

/** Whether an absence lies inside the run of its title: in front of the first issue and behind the last one nothing is expected. */
function inside({ reels }: CollationRecord): (entry: AbsentEntry) => boolean {
  return ({ title, date }) => {
    const days = reels.flatMap(({ frames }) =>
      frames.flatMap((frame) => (frame.title === title && frame.date !== undefined ? [frame.date] : [])),
    );
    return days.some((day) => day < date) && days.some((day) => day > date);
  };
}

/** Kinds of slips of a record. */
export const SLIPS: readonly SlipKind[] = [
  { name: 'an issue dated a day late', hidden: null, plant: (site) => issueSlip(site, ({ date }) => ({ date: plusDays(date ?? '', 1) })) },
  { name: 'an issue dated a week late', hidden: null, plant: (site) => issueSlip(site, ({ date }) => ({ date: plusDays(date ?? '', 7) })) },
  {
    name: 'the year of an issue one too low',
    hidden: null,
    plant: (site) =>
      site.record.reels[site.reel]?.frames[site.from]?.date?.endsWith('02-29') === true
        ? null
        : issueSlip(site, ({ date = '' }) => ({ date: `${String(Number(date.slice(0, 4)) - 1)}${date.slice(4)}` })),
  },
  {
    name: 'the year of an issue misread by a digit that keeps nearly all weekdays',
    hidden: null,
    plant: (site) =>
      site.record.reels[site.reel]?.frames[site.from]?.date?.endsWith('02-29') === true
        ? null
        : issueSlip(site, ({ date = '' }) => ({ date: `${String(Number(date.slice(0, 4)) + 6)}${date.slice(4)}` })),
  },
  {
    name: 'the day of the issue before, copied down',
    hidden: null,
    plant: (site) => issueSlip(site, () => (site.before.date === undefined ? {} : { date: site.before.date })),
  },
  {
    name: 'an issue number one too high',
    hidden: null,
    plant: (site) => issueSlip(site, ({ issueNumber }) => ({ issueNumber: String(Number(issueNumber) + 1) })),
  },
  {
    name: 'an issue number with two digits exchanged',
    hidden: null,
    plant: (site) => issueSlip(site, ({ issueNumber }) => ({ issueNumber: String(Number(issueNumber) + 9) })),
  },
  {
    name: 'the volume of one issue',
    hidden: null,
    plant: (site) =>
      site.before.volume === site.next.volume ? issueSlip(site, ({ volume }) => ({ volume: String(Number(volume) + 1) })) : null,
  },
  { name: 'the edition of an issue', hidden: null, plant: (site) => issueSlip(site, () => ({ edition: 2 })) },
  {
    name: 'the date of one page',
    hidden: null,
    plant: (site, random) => pageSlip(site, middle(site, random), () => (site.next.date === undefined ? {} : { date: site.next.date })),
  },
  { name: 'the edition of one page', hidden: null, plant: (site, random) => pageSlip(site, middle(site, random), () => ({ edition: 2 })) },
  {
    name: 'the issue number of one page',
    hidden: null,
    plant: (site, random) => pageSlip(site, middle(site, random), () => ({ issueNumber: '9' })),
  },
  {
    name: 'a page label one too high',
    hidden: null,
    plant: (site, random) => pageSlip(site, middle(site, random), ({ page }) => ({ page: String(Number(page) + 1) })),
  },
  {
    name: 'a page written down as a blank',
    hidden: null,
    plant: (site, random) => pageSlip(site, middle(site, random), () => ({ kind: 'blank', deliver: false })),
  },
  {
    name: 'a page held back that nothing else shows',
    hidden: null,
    plant: (site, random) => pageSlip(site, middle(site, random), () => ({ deliver: false })),
  },
  {
    name: 'a page that is left out, its number with it',
    hidden: null,
    plant: (site, random) => {
      const at = middle(site, random);
      return whole(site) ? without(site, at, at, false) : null;
    },
  },
  {
    name: 'a page that is left out, the numbers closed up',
    hidden: null,
    plant: (site, random) => {
      const at = middle(site, random);
      return whole(site) ? without(site, at, at, true) : null;
    },
  },
  {
    name: 'an issue that is left out, the numbers closed up',
    hidden: null,
    plant: (site) => (whole(site) ? without(site, site.from, site.to, true) : null),
  },
  {
    name: 'frame numbers that skip one',
    hidden: null,
    plant: (site) =>
      whole(site)
        ? {
            ...issueSlip(site, () => ({})),
            record: setFrames(site, site.from, 1e9, (frame) => ({ frame: String(frameNumber(frame) + 1) })),
          }
        : null,
  },
  {
    name: 'a duplicate of a frame that shows another page',
    hidden: null,
    plant: ({ record, ...site }, random) => {
      const all = record.reels.flatMap(({ frames }, reel) =>
        frames.flatMap((frame, at) =>
          frame.duplicateOf !== undefined && !frame.duplicateOf.includes(':') && frame.page !== undefined ? [{ reel, at, frame }] : [],
        ),
      );
      if (all.length === 0) return null;
      const { reel, at, frame } = random.pick(all);
      const other = record.reels[reel]?.frames.find((one) => one.page !== undefined && one.page !== frame.page);
      return other === undefined
        ? null
        : { record: setFrames({ ...site, record, reel }, at, at, () => ({ duplicateOf: other.frame })), days: [], frames: [frame.frame] };
    },
  },
  {
    name: 'an absent issue that is not written down',
    hidden: null,
    plant: ({ record }, random) =>
      absentSlip(
        record,
        random,
        (entry) => entry.page === undefined && inside(record)(entry),
        () => null,
      ),
  },
  {
    name: 'an absent page that is not written down',
    hidden: null,
    plant: ({ record }, random) =>
      absentSlip(
        record,
        random,
        (entry) => entry.page !== undefined && entry.section === undefined && entry.order !== undefined && entry.order < 4,
        () => null,
      ),
  },
  {
    name: 'an issue said to be unpublished that was published',
    hidden: null,
    plant: ({ record }, random) =>
      absentSlip(
        record,
        random,
        (entry) => entry.page === undefined && entry.published === 'yes' && inside(record)(entry),
        (entry) => ({ ...entry, published: 'no' }),
      ),
  },
  {
    name: 'what a page prints',
    hidden: 'A label is printed wrongly on one page and no other: nothing else in the record repeats it.',
    plant: (site, random) => pageSlip(site, middle(site, random), () => ({ pagePrinted: '9' })),
  },
  {
    name: 'the printed date',
    hidden: 'A paper may print any date, and the record says it once.',
    plant: (site) => issueSlip(site, () => ({ datePrinted: '1871-01-01' })),
  },
  {
    name: 'the words of an edition',
    hidden: 'The words stand on the paper alone.',
    plant: (site) => issueSlip(site, () => ({ editionLabel: 'Extra' })),
  },
  {
    name: 'the damage of a page',
    hidden: 'Damage follows no rule.',
    plant: (site, random) => pageSlip(site, middle(site, random), () => ({ condition: ['torn'] })),
  },
];
