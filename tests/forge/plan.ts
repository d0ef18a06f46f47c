import type { Film, FilmIssue, FilmReel, FilmShot } from './film/film.js';
import { mixed } from './film/random.js';

/** What a vendor means to send, whatever the XML it is written in. Plain data: copy it, change the copy. */
export interface ReturnPlan {
  batch: string;
  titles: { id: string; name: string }[];
  /** One document each, in the order written. */
  issues: PlanIssue[];
  reels: PlanReel[];
  /** True when targets are listed in the reel documents one by one. */
  targetsListed: boolean;
  /** Faults of whole documents, told to the writers. */
  documents: DocumentFault[];
}

/** What the vendor says about an issue or a page. */
export type Statement = 'present' | 'published' | 'not-published' | 'unknown';

export interface PlanIssue {
  title: string;
  date: string;
  /** The date on the paper where the vendor gives one beside the true date. */
  datePrinted: string | null;
  edition: number;
  editionLabel: string | null;
  volume: string | null;
  issueNumber: string | null;
  statement: Statement;
  /** Text of the statement where it is not one of the vocabulary. */
  statementText: string | null;
  /** Index of the reel in whose folder the document lies. */
  reel: number;
  /** Pages said to be absent. */
  absent: PlanAbsentPage[];
  /** Index of the film's issue that this document describes; no writer tells it. */
  source: number | null;
  /** Other readings of the same facts in the folder name and the manifest, where they disagree. */
  folder: { date: string; edition: number } | null;
  manifest: { date: string; edition: number } | 'left-out' | null;
  /** Facts that the document leaves out though the vendor knows them: folder and manifest still tell them. */
  silent?: readonly ('title' | 'date' | 'edition')[];
}

export interface PlanAbsentPage {
  order: number;
  page: string | null;
  section: string | null;
  /** `present` only by mistake. */
  statement: Statement;
}

export interface PlanReel {
  number: string;
  /** Facts as text by name: titles, startDate, endDate, position, reductionRatio, numberOfPictures. */
  facts: Record<string, string>;
  /** Every image the vendor took, in the order taken. */
  captures: Capture[];
}

/** One image. */
export interface Capture {
  /** The number the vendor gives it. */
  frame: string;
  /** The reel number the vendor gives it. */
  reel: string;
  /** The film's picture, 0 where the image shows none of them. */
  picture: number;
  /** `page` and `target` are described; `held` was scanned and is not delivered as part of an issue. */
  use: 'page' | 'target' | 'held';
  /** Index into `issues`. */
  issue: number | null;
  order: number | null;
  page: string | null;
  section: string | null;
  /** Pixels. */
  width: number;
  height: number;
  /** What the image file holds, the same for the same image; digests are taken from it. */
  image: string;
  /** Facts that the page leaves out though the vendor knows them: its files are still named after its number. */
  silent?: readonly ('frame' | 'reel' | 'order')[];
  /** The number after which its files are named, where they are named after another than it states. */
  named?: string;
  /** Uses of which the file is named and did not come. */
  lost?: readonly ('master' | 'service' | 'derivative' | 'ocr')[];
}

export type DocumentFault =
  | { kind: 'unreadable'; issue: number }
  | { kind: 'issue-document-missing'; issue: number }
  | { kind: 'listed-twice'; issue: number }
  | { kind: 'stray-document'; reel: number; name: string };

/** How a vendor who makes no mistake works. */
export interface PlanOptions {
  readonly targetsListed?: boolean;
  /** Wanting issues get a document without pages. */
  readonly absentIssuesStated?: boolean;
  /** Which number the pages carry: that of the carrier, or that of the reel that was spliced in there. */
  readonly reelNumber?: 'carrier' | 'source';
  /** The label of a page that prints another one; the printed one where nothing is said. */
  readonly labels?: 'printed' | 'intended';
  /** Pages that print no number get none, or the label that the library wants; none where nothing is said. */
  readonly unnumbered?: 'omit' | 'supply';
  readonly printedDatesGiven?: boolean;
  readonly absentPagesStated?: boolean;
  /** Editions of a day are numbered as published, or as they follow each other on the film. */
  readonly editions?: 'intended' | 'filmed';
  /** The halves of an exposure share a number, or are counted on. */
  readonly halves?: 'lettered' | 'separate';
}

/** What a vendor sends who follows the collation record in everything: printed labels, nothing where nothing is printed. */
export function planOf(film: Film, options: PlanOptions = {}): ReturnPlan {
  const targetsListed = options.targetsListed ?? film.seed % 2 === 0;
  const stated = options.absentIssuesStated ?? film.seed % 3 !== 0;
  const shown = new Set(
    film.reels.flatMap((reel) => reel.shots.flatMap((shot) => (shot.deliver && shot.issue !== null ? [shot.issue] : []))),
  );
  const listed = new Set(film.reels.flatMap((reel) => reel.wanting));
  const kept = film.issues.map((issue, i) =>
    issue.status === 'on-film' ? shown.has(i) : stated && listed.has(i) && issue.status !== 'not-published',
  );
  const newIndex = kept.map((_, i) => kept.slice(0, i).filter(Boolean).length);
  const filmed = options.editions === 'filmed' ? filmedEditions(film) : null;
  return {
    batch: `batch_vzx_pilot${String(film.seed)}`,
    titles: film.titles.map(({ id, name }) => ({ id, name })),
    issues: film.issues.flatMap((issue, i) =>
      kept[i] === true ? [planIssue(film, { ...issue, edition: filmed?.get(i) ?? issue.edition }, i, options)] : [],
    ),
    reels: film.reels.map((reel) => planReel(film, reel, newIndex, { ...options, targetsListed })),
    targetsListed,
    documents: [],
  };
}

/** The place of each issue on the film among the editions of its title and day. */
function filmedEditions(film: Film): ReadonlyMap<number, number> {
  const places = new Map<number, number>();
  const counts = new Map<string, number>();
  for (const { issue } of film.reels.flatMap((reel) => reel.shots)) {
    const found = issue === null ? undefined : film.issues[issue];
    if (issue === null || found === undefined || places.has(issue)) continue;
    const day = `${found.title} ${found.date}`;
    counts.set(day, (counts.get(day) ?? 0) + 1);
    places.set(issue, counts.get(day) ?? 1);
  }
  return places;
}

function planIssue(film: Film, issue: FilmIssue, index: number, options: PlanOptions): PlanIssue {
  const onReel = film.reels.findIndex((reel) => reel.shots.some((shot) => shot.issue === index && shot.deliver));
  const reel = onReel >= 0 ? onReel : film.reels.findIndex((each) => each.wanting.includes(index));
  return {
    title: issue.title,
    date: issue.date,
    datePrinted: options.printedDatesGiven === false ? null : issue.datePrinted,
    edition: issue.edition,
    editionLabel: issue.editionLabel,
    volume: issue.volume,
    issueNumber: issue.issueNumber,
    statement: issue.status === 'on-film' ? 'present' : issue.status === 'wanting' ? 'published' : issue.status,
    statementText: null,
    reel: Math.max(reel, 0),
    absent: (options.absentPagesStated === false ? [] : issue.wanting).map(({ order, page, section, published }) => ({
      order,
      page,
      section,
      statement: published === 'yes' ? 'published' : 'unknown',
    })),
    source: index,
    folder: null,
    manifest: null,
  };
}

function planReel(film: Film, reel: FilmReel, newIndex: readonly number[], options: PlanOptions): PlanReel {
  const shown = new Set(reel.shots.flatMap((shot) => (shot.deliver && shot.issue !== null ? [shot.issue] : [])));
  const issues = film.issues.filter((_, i) => shown.has(i));
  const dates = issues.map((issue) => issue.date).sort();
  const titles = film.titles.filter((title) => issues.some((issue) => issue.title === title.id));
  return {
    number: reel.number,
    facts: {
      titles: titles.map((title) => title.name).join('; '),
      startDate: dates[0] ?? '',
      endDate: dates.at(-1) ?? '',
      position: reel.position,
      reductionRatio: reel.reduction,
      numberOfPictures: String(reel.shots.length),
    },
    captures: reel.shots.map((shot, at) => {
      const number = options.reelNumber === 'source' ? (shot.sourceReel ?? reel.number) : reel.number;
      const frame = options.halves === 'separate' ? String(at + 1) : shot.frame;
      return captureOf({ ...shot, frame }, number, newIndex, options);
    }),
  };
}

/** The image of one frame. Sizes in pixels; a target or a blank is as large as a page. */
function captureOf(shot: FilmShot, reel: string, newIndex: readonly number[], options: PlanOptions): Capture {
  const isPage = shot.kind === 'page' && shot.deliver;
  const use = isPage ? 'page' : shot.kind === 'target' && options.targetsListed !== false ? 'target' : 'held';
  const printed = options.labels === 'intended' ? shot.page : (shot.pagePrinted ?? shot.page);
  const label = shot.pagePrinted !== '-' ? printed : options.unnumbered === 'supply' ? shot.page : null;
  return {
    frame: shot.frame,
    reel,
    picture: shot.picture,
    use,
    issue: isPage && shot.issue !== null ? (newIndex[shot.issue] ?? null) : null,
    order: isPage ? shot.order : null,
    page: isPage ? label : null,
    section: isPage ? shot.section : null,
    width: 4700 + (mixed(shot.picture) % 90),
    height: 6500 + (mixed(shot.picture + 77777) % 120),
    image: imageOf(shot.picture, 0),
  };
}

/** The image of a picture; another take of the same picture is another image. */
export function imageOf(picture: number, take: number): string {
  return `${picture}/${take}`;
}
