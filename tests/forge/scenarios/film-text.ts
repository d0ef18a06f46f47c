import { weekdayOf } from '../film/days.js';
import type { Film, FilmIssue, FilmReel, FilmTitle } from '../film/film.js';
import { frameNames, pageTokens } from './page-tokens.js';
import { type LaidShot, settledShots } from './settled-shots.js';

/** A film read from its lines, with the index of every issue by its letter. */
export interface WrittenFilm {
  readonly film: Film;
  readonly keys: ReadonlyMap<string, number>;
}

interface OpenReel extends Omit<FilmReel, 'shots' | 'wanting'> {
  readonly laid: LaidShot[];
  readonly wanting: number[];
}

const POSITIONS = new Set<string>(['1A', '1B', '2A', '2B']);
const KINDS = new Set<string>(['target', 'blank', 'void', 'other']);
const STATES = new Set<string>(['wanting', 'not-published', 'unknown']);

/**
 * Reads a film: `a = 1902-03-06 Thu v3 n10` is an issue (also `e2 "Extra"`, `t2` the second title, `i11` the number it should have had,
 * `printed 1901-03-06`, `says Friday`, `wanting`), `reel 0117 2B` begins a reel, `source 0117-2` a spliced one, `2-5 a 1-4` are frames of
 * an issue, `6 blank` a frame of none, `- b` an issue that is wanting here; `!faint` at the end of a line is damage. Throws RangeError
 * where a weekday or a count of frames is not right.
 */
export function filmOf(titles: readonly FilmTitle[], text: string): WrittenFilm {
  const keys = new Map<string, number>();
  const issues: FilmIssue[] = [];
  const reels: OpenReel[] = [];
  let source: string | null = null;
  for (const line of text.split('\n').map((each) => each.trim())) {
    const [head = '', what = '', ...rest] = line.split(/\s+/);
    const reel = reels.at(-1);
    if (line === '') continue;
    if (what === '=') {
      keys.set(head, issues.length);
      issues.push(issueOf(titles, rest));
    } else if (head === 'reel') {
      source = null;
      const position = rest.find((word): word is FilmReel['position'] => POSITIONS.has(word)) ?? '1A';
      reels.push({ number: what, position, reduction: '17x', laid: [], wanting: [] });
    } else if (head === 'source') source = what;
    else if (reel === undefined) throw new RangeError(`"${line}" stands before the first reel.`);
    else if (head === '-') reel.wanting.push(indexOf(keys, what));
    else reel.laid.push(...frameLine(head, what, rest, keys, source));
  }
  const settled = settledShots(
    issues,
    reels.map(({ number, laid }) => ({ number, laid })),
  );
  return {
    keys,
    film: {
      seed: 0,
      titles,
      issues: settled.issues,
      reels: reels.map(({ number, position, reduction, wanting }, r) => ({
        number,
        position,
        reduction,
        shots: settled.shots[r] ?? [],
        wanting: [...new Set([...wanting, ...(settled.wanting[r] ?? [])])],
      })),
    },
  };
}

function indexOf(keys: ReadonlyMap<string, number>, key: string): number {
  const index = keys.get(key);
  if (index === undefined) throw new RangeError(`No issue is called ${key}.`);
  return index;
}

function frameLine(
  numbers: string,
  what: string,
  rest: readonly string[],
  keys: ReadonlyMap<string, number>,
  sourceReel: string | null,
): LaidShot[] {
  const frames = frameNames(numbers);
  const condition = rest.filter((word) => word.startsWith('!')).map((word) => word.slice(1).replaceAll('_', ' '));
  const words = rest.filter((word) => !word.startsWith('!'));
  if (KINDS.has(what)) {
    const kind = what as LaidShot['kind'];
    const note = words.length === 0 ? null : words.join(' ');
    return frames.map((frame) => ({ frame, kind, issue: null, token: null, condition, note, sourceReel }));
  }
  const issue = indexOf(keys, what);
  const tokens = pageTokens(words.join(' '));
  const onFilm = tokens.filter((token) => token.wanting === null);
  if (onFilm.length !== frames.length)
    throw new RangeError(`Frames ${numbers} are ${String(frames.length)}, and ${String(onFilm.length)} pages are named.`);
  let next = 0;
  return tokens.map((token) => {
    const frame = token.wanting === null ? (frames[next++] ?? null) : null;
    return { frame, kind: 'page' as const, issue, token, condition, note: null, sourceReel };
  });
}

function issueOf(titles: readonly FilmTitle[], words: readonly string[]): FilmIssue {
  const [date = '', weekday = ''] = words;
  if (!weekdayOf(date).startsWith(weekday.toLowerCase()) || weekday === '') throw new RangeError(`${date} is no ${weekday}.`);
  const text = words.join(' ');
  const given = (shape: RegExp): string | null => shape.exec(text)?.[1] ?? null;
  const title = titles[Number(given(/ t(\d)\b/) ?? '1') - 1];
  if (title === undefined) throw new RangeError(`The film has no such title: ${text}.`);
  return {
    title: title.id,
    date,
    datePrinted: given(/ printed (\S+)/),
    weekdayPrinted: given(/ says (\S+)/),
    edition: Number(given(/ e(\d+)\b/) ?? '1'),
    editionLabel: given(/ "([^"]+)"/),
    volume: given(/ v(\S+)/),
    issueNumber: given(/ n(\d\S*)/),
    issueNumberIntended: given(/ i(\d\S*)/),
    status: (words.find((word) => STATES.has(word)) ?? 'on-film') as FilmIssue['status'],
    wanting: [],
    pages: 0,
  };
}
