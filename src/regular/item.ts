import type { RecordItem } from '../model/record-check.js';
import type { Doubtful, Touched } from '../model/record-problem.js';
import { firstInSeries } from '../normalise/in-series.js';
import { DOUBTFUL } from './doubtful.js';
import type { Run, RunIssue, Shot } from './facts.js';

/** Something that does not fit, before it is weighed and numbered, and what of a return it leaves in doubt. */
export type Irregularity = Omit<RecordItem, 'id' | 'severity' | 'explained'> & { readonly touches: Touched };

interface Told {
  readonly code: Code;
  readonly says: string;
  readonly likely?: string | null;
  readonly evidence?: readonly string[];
  /** What it leaves in doubt, where that is not what problems of its kind usually do. */
  readonly doubtful?: readonly Doubtful[];
  /** Frames that are in doubt too. */
  readonly also?: readonly Shot[];
}

/** Codes of what a record's own regularity shows. */
export type Code =
  | 'date-impossible'
  | 'frame-numbers-broken'
  | 'editions-unordered'
  | 'issue-contradicts-itself'
  | 'weekday-clash'
  | 'printed-date-misjudged'
  | 'gap-unexplained'
  | 'pages-unaccounted'
  | 'reels-overlap'
  | 'duplicate-unpaired'
  | 'identifier-malformed'
  | 'date-off-pattern'
  | 'page-count-unusual'
  | 'numbering-jumps'
  | 'misprint-recurs';

/** An irregularity of some frames. */
export function ofShots(shots: readonly Shot[], issue: Pick<RunIssue, 'title' | 'day' | 'edition'> | null, told: Told): Irregularity {
  const [first] = shots;
  const last = shots.at(-1);
  return {
    ...text(told),
    reel: first?.reel ?? null,
    frames: first === undefined || last === undefined ? null : { from: first.key, to: last.key },
    count: shots.length,
    title: issue?.title ?? null,
    date: issue?.day ?? first?.entry.date ?? null,
    edition: issue?.edition ?? null,
    places: placesOf(shots),
    touches: {
      facts: told.doubtful ?? DOUBTFUL[told.code],
      frames: [...shots, ...(told.also ?? [])].map(({ reelAt, at }) => ({ reel: reelAt, at })),
      days: null,
    },
  };
}

/** An irregularity of an issue: all its frames. */
export function ofIssue(issue: RunIssue, told: Told): Irregularity {
  return ofShots(issue.shots, issue, told);
}

/** An irregularity of days on which nothing is on the film, between two issues of the title. */
export function ofDays(run: Run, days: readonly string[], around: readonly [before: RunIssue, after: RunIssue], told: Told): Irregularity {
  const [before, after] = around;
  return beyondFilm(run, days, told, {
    facts: DOUBTFUL[told.code],
    frames: [],
    days: { title: run.id, after: before.day, before: after.day },
  });
}

/** An irregularity of a title as such: all its frames. */
export function ofTitle(run: Run, days: readonly string[], told: Told): Irregularity {
  const frames = run.issues.flatMap(({ shots }) => shots.map(({ reelAt, at }) => ({ reel: reelAt, at })));
  return beyondFilm(run, days, told, { facts: told.doubtful ?? DOUBTFUL[told.code], frames, days: null });
}

function beyondFilm(run: Run, days: readonly string[], told: Told, touches: Touched): Irregularity {
  return {
    ...text(told),
    reel: null,
    frames: null,
    count: days.length,
    title: run.id,
    date: days[0] ?? null,
    edition: null,
    places: [],
    touches,
  };
}

function text({ code, says, likely, evidence }: Told): Pick<Irregularity, 'code' | 'says' | 'likely' | 'evidence'> {
  return { code, says, likely: likely ?? null, evidence: evidence ?? [] };
}

/** An issue has fewer pages. */
const MOST_PLACES = 400;

/** The rows of some frames, each once; of very many the first ones and the last. */
function placesOf(shots: readonly Shot[]): Irregularity['places'] {
  const rows = new Map<string, { readonly sheet: string; readonly row: number }>();
  for (const { place } of shots)
    if (place.sheet !== undefined && place.row !== undefined)
      rows.set(`${place.sheet}|${String(place.row)}`, { sheet: place.sheet, row: place.row });
  const places = [...rows.values()];
  const last = places.at(-1);
  return places.length <= MOST_PLACES || last === undefined ? places : [...places.slice(0, MOST_PLACES - 1), last];
}

/** `page 3`, `pages 3 and 4`, `pages 3, 4, 5 and 12 more`. */
export function named(word: string, names: readonly string[], most = 5): string {
  if (names.length === 1) return `${word} ${names[0] ?? ''}`;
  return `${word}s ${firstInSeries(names, most)}`;
}

/** A number beside its word. */
export function counted(number: number, word: string): string {
  return `${String(number)} ${word}${number === 1 ? '' : 's'}`;
}
