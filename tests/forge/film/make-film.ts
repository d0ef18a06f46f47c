import type { Weekday } from '../../../src/model/collation-record.js';
import { plusDays } from './days.js';
import { type Exposure, paired, plain, retaken, type Sitting, sittingsOf } from './expose.js';
import type { Film, FilmIssue, FilmReel, FilmShot, FilmTitle } from './film.js';
import { PAPERS } from './names.js';
import { ODDITIES, type Oddity, type Published, publish } from './publish.js';
import { type Random, randomFrom } from './random.js';

/** What kind of film to invent. Everything left out is drawn from the seed. */
export interface FilmOptions {
  readonly seed: number;
  /** About how many pages each reel holds. */
  readonly pages?: number;
  readonly reels?: number;
  readonly titles?: number;
  /** Two pages on an exposure where they lie open side by side. */
  readonly twoUp?: boolean;
  /** Thousandths of the issues with something odd about them. */
  readonly oddPerMille?: number;
  readonly oddities?: readonly Oddity[];
  /** Thousandths of the issues with a blank exposure before them. */
  readonly blankPerMille?: number;
  /** True for short reels spliced onto one carrier. */
  readonly spliced?: boolean;
  /** False where the library does not note the weekday of an issue that came out on another day than usual. */
  readonly oddDaysNoted?: boolean;
  readonly firstDay?: string;
  /** Titles known by the number of a national catalogue, or by a key of the library with hyphens in it. */
  readonly titleIds?: 'number' | 'key';
  /** Reels numbered in a few digits, or as on boxes: zeros in front, a letter behind. */
  readonly reelNumbers?: 'short' | 'box';
}

/** An invented film, the same for the same options on every machine. */
export function makeFilm(options: FilmOptions): Film {
  const random = randomFrom(options.seed);
  const reelCount = options.reels ?? (random.chance(250) ? 2 : 1);
  const titleCount = options.titles ?? (random.chance(400) ? 2 : 1);
  const twoUp = options.twoUp ?? random.chance(400);
  const spliced = options.spliced ?? random.chance(150);
  const perTitle = Math.max(8, Math.floor(((options.pages ?? 60) * reelCount) / titleCount));
  const titles = random
    .shuffled(PAPERS)
    .slice(0, titleCount)
    .map((paper, i) => titleOf(paper, i, options.titleIds ?? 'number', random));
  const firstDay = options.firstDay ?? drawnDay(random);
  const runs = titles.map((title) =>
    publish(
      {
        title,
        from: firstDay,
        pages: perTitle,
        volume: 3 + random.below(40),
        number: 1 + random.below(400),
        runningFrom: title.patterns[0]?.frequency === 'w' && random.chance(150) ? 1 + 4 * random.below(50) : null,
        oddPerMille: options.oddPerMille ?? 320,
        oddities: options.oddities ?? ODDITIES,
        oddDaysNoted: options.oddDaysNoted ?? true,
      },
      random,
    ),
  );
  const issues = runs.flatMap((run) => run.map((each) => each.issue));
  const shared = {
    issues,
    twoUp,
    spliced,
    blankPerMille: options.blankPerMille ?? 150,
    base: 100 + random.below(800),
    box: options.reelNumbers === 'box',
  };
  return { seed: options.seed, titles, issues, reels: reelsOf(runs, reelCount, shared, random) };
}

interface Shared {
  readonly issues: readonly FilmIssue[];
  readonly twoUp: boolean;
  readonly spliced: boolean;
  readonly blankPerMille: number;
  readonly base: number;
  readonly box: boolean;
}

function titleOf(paper: (typeof PAPERS)[number], i: number, ids: 'number' | 'key', random: Random): FilmTitle {
  const kind = random.pick(['w', 'w', 'i', 'd'] as const);
  const day = random.pick(['wed', 'thu', 'fri', 'sat'] as const);
  const days: readonly Weekday[] = kind === 'w' ? [day] : kind === 'i' ? ['tue', 'thu', 'sat'] : ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'];
  const usualPages = kind === 'w' ? random.pick([[4], [8], [4, 8]]) : random.pick([[4], [8]]);
  const number = `sn990${String(10 + random.below(80))}${String(100 + i * 100 + random.below(90))}`;
  return {
    id: ids === 'number' ? number : paper.name.toLowerCase().replaceAll(' ', '-'),
    name: paper.name,
    language: paper.language,
    readingDirection: paper.direction,
    patterns: [{ days, omitted: ['12-25'], usualPages, frequency: kind }],
    frontPageUnnumbered: random.chance(500),
  };
}

/** A first day between 1869 and 1921, more often near the turn of a year, where dates go wrong. */
function drawnDay(random: Random): string {
  const year = 1869 + random.below(53);
  return random.chance(400) ? plusDays(`${year}-12-10`, random.below(20)) : plusDays(`${year}-01-02`, random.below(360));
}

function reelsOf(runs: readonly (readonly Published[])[], count: number, shared: Shared, random: Random): FilmReel[] {
  const parts: Sitting[][][] = Array.from({ length: count }, () => []);
  const wanting: number[][] = Array.from({ length: count }, () => []);
  runs.forEach((run) => {
    const step = Math.ceil(run.length / count);
    let carried: Sitting[] = [];
    for (let reel = 0; reel < count; reel += 1) {
      const here = run.slice(reel * step, (reel + 1) * step);
      const blocks: Sitting[][] = carried.length > 0 ? [carried] : [];
      carried = [];
      for (const published of here) {
        if (published.issue.status !== 'on-film' || published.issue.wanting.length > 0)
          wanting[reel]?.push(shared.issues.indexOf(published.issue));
        if (published.sides.length > 0) blocks.push(sittingsOf(published));
      }
      if (reel + 1 < count && runs.length === 1) carried = cutAtEnd(blocks, random);
      const sittings = blocks.flatMap((block, i) => [...(i > 0 && random.chance(shared.blankPerMille) ? [plain('blank')] : []), ...block]);
      parts[reel]?.push(sittings);
    }
  });
  const made: Made[] = parts.map((titles, i) => exposed(titles, reelNumber(shared, i + 1), shared, random));
  const pictures = new Map<Sitting, { readonly reel: Made; readonly frame: string; readonly picture: number }>();
  let picture = 0;
  for (const reel of made) for (const { sitting, frame } of reel.sittings) pictures.set(sitting, { reel, frame, picture: (picture += 1) });
  return made.map((reel, i) => ({
    number: reel.number,
    position: shared.twoUp ? '2B' : '1A',
    reduction: `${String(16 + random.below(4))}x`,
    shots: reel.sittings.map((each) => shotOf(each, reel, pictures, shared.issues)),
    wanting: wanting[i] ?? [],
  }));
}

function reelNumber({ base, box }: Shared, n: number): string {
  const two = String(n).padStart(2, '0');
  return box ? `00${base}000${two}A` : `${base}${two}`;
}

interface Made {
  readonly number: string;
  readonly sittings: readonly {
    readonly sitting: Sitting;
    readonly frame: string;
    readonly exposure: number;
    readonly half: '' | 'A' | 'B';
    readonly source: string | null;
  }[];
}

/** The last issue of a reel may end on the next reel, or stand on both: then the later take is delivered. */
function cutAtEnd(blocks: Sitting[][], random: Random): Sitting[] {
  const last = blocks.at(-1);
  if (last === undefined || last.length < 4 || last.some((each) => each.repeats !== null) || random.chance(400)) return [];
  const odd = last[0]?.published?.oddity ?? 'none';
  if (odd !== 'none') return [];
  if (random.chance(500)) {
    const middle = Math.floor(last.length / 2);
    blocks[blocks.length - 1] = last.slice(0, middle);
    return last.slice(middle);
  }
  blocks[blocks.length - 1] = last.map((each) => ({ ...each, deliver: false, repeats: each }));
  return last;
}

function exposed(titles: readonly (readonly Sitting[])[], number: string, shared: Shared, random: Random): Made {
  const exposures: { readonly exposure: Exposure; readonly source: string | null }[] = [];
  let source = shared.spliced ? 1 : 0;
  const sourceText = (): string | null => (source === 0 ? null : `${number}-${String(source)}`);
  const add = (list: readonly Exposure[]): void => void exposures.push(...list.map((exposure) => ({ exposure, source: sourceText() })));
  add([
    [plain('target', 'START')],
    [plain('target', 'title sheet')],
    ...(random.chance(500) ? [[plain('target', 'resolution chart')]] : []),
  ]);
  const atEnd: Exposure[] = [];
  titles.forEach((sittings, i) => {
    if (i > 0) {
      if (source > 0) source += 1;
      add(source > 0 ? [[plain('target', 'START')], [plain('target', 'title sheet')]] : [[plain('target', 'title sheet')]]);
    }
    const { film, late } = retaken(shared.twoUp ? paired(sittings) : sittings.map((each) => [each]), random);
    add(film);
    atEnd.push(...late);
  });
  add(atEnd);
  add([[plain('target', 'END OF REEL')]]);
  const sittings = exposures.flatMap(({ exposure, source: from }, i) =>
    exposure.map((sitting, part) => {
      const half = exposure.length === 1 ? ('' as const) : part === 0 ? ('A' as const) : ('B' as const);
      return { sitting, exposure: i + 1, half, frame: `${String(i + 1)}${half}`, source: from };
    }),
  );
  return { number, sittings };
}

type Pictures = ReadonlyMap<Sitting, { readonly reel: Made; readonly frame: string; readonly picture: number }>;

function shotOf(each: Made['sittings'][number], reel: Made, pictures: Pictures, issues: readonly FilmIssue[]): FilmShot {
  const { sitting, frame, exposure, half, source } = each;
  const { side, published, deliver } = sitting;
  const other = sitting.repeats === null ? undefined : pictures.get(sitting.repeats);
  const named = other === undefined ? null : other.reel === reel ? other.frame : `${other.reel.number}:${other.frame}`;
  return {
    frame,
    exposure,
    half,
    kind: sitting.kind,
    deliver,
    issue: published === null ? null : issues.indexOf(published.issue),
    section: side?.section ?? null,
    supplement: side?.supplement ?? false,
    page: side?.page ?? null,
    pagePrinted: side?.printed ?? null,
    order: side !== null && deliver ? side.order : null,
    place: side?.order ?? null,
    duplicateOf: sitting.makesGood ? null : named,
    retakeOf: sitting.makesGood ? named : null,
    sourceReel: source,
    condition: sitting.condition,
    note: sitting.note,
    picture: pictures.get(sitting)?.picture ?? 0,
    twin: other?.picture ?? null,
  };
}
