import type { Filter } from './address.js';
import type { Entry } from './entries.js';
import { readQuery, type Wanted } from './query.js';

/** What is looked through of a finding, in small letters: what it says, the runs of its frames, its days. */
interface Sought {
  readonly said: string;
  readonly frames: readonly string[];
  readonly days: string;
}

/** What was read of each finding, when it was first asked for: the page itself answers too slowly to be asked for every letter typed. */
const sought = new Map<Entry, Sought>();

function soughtIn(entry: Entry): Sought {
  const before = sought.get(entry);
  if (before !== undefined) return before;
  const { frames = '', days = '' } = entry.body.dataset;
  const now = { said: textOf(entry), frames: frames.toLowerCase().split(' '), days };
  sought.set(entry, now);
  return now;
}

/** The text of what a finding is about: the frames drawn beside its own are not. */
function textOf(entry: Entry): string {
  let text = '';
  for (const part of entry.body.querySelector('.said')?.children ?? []) {
    if (!part.classList.contains('film')) text += `${part.textContent} `;
    else for (const piece of part.children) if (piece.className !== 'beside') text += `${piece.textContent} `;
  }
  return text.toLowerCase();
}

/** Milliseconds for reading ahead in one go, so that nobody who types waits for it. */
const AHEAD = 8;

/** Reads the texts while nothing else is to do: the first word that is looked for needs all of them. */
export function readAhead(entries: readonly Entry[]): void {
  let at = 0;
  const readSome = (): void => {
    const start = performance.now();
    for (; at < entries.length && performance.now() - start < AHEAD; at++) {
      const entry = entries[at];
      if (entry !== undefined) soughtIn(entry);
    }
    if (at < entries.length) setTimeout(readSome, 4 * AHEAD);
  };
  setTimeout(readSome, 1000);
}

/** True where runs such as `25-28 115` hold a number; a number with a letter must stand there as such. */
function inRunsOf(runs: readonly string[], word: string): boolean {
  const number = Number(word);
  return runs.some((run) => {
    if (run === word) return true;
    const dash = run.indexOf('-');
    return dash > 0 && Number(run.slice(0, dash)) <= number && number <= Number(run.slice(dash + 1));
  });
}

/** True where a text names a number of something: `frame 90`, `rows 12 to 28`, `pages 3, 4 and 6`. */
function names(text: string, { runs, number }: Extract<Wanted, { kind: 'counted' }>): boolean {
  return [...text.matchAll(runs)].some(([, run = '']) => inRunsOf(run.replaceAll(' to ', '-').split(/, | and /), number));
}

/** True where a finding fits one part of what is looked for. */
function fitsOne(wanted: Wanted, entry: Entry): boolean {
  const { said, frames, days } = soughtIn(entry);
  switch (wanted.kind) {
    case 'word':
      return said.includes(wanted.word) || days.includes(wanted.word);
    case 'number':
      return inRunsOf(frames, wanted.number) || wanted.alone.test(said) || (wanted.year?.test(`${days} ${said}`) ?? false);
    case 'counted':
      return (wanted.of === 'frame' && inRunsOf(frames, wanted.number)) || names(said, wanted);
    case 'day':
      return wanted.written.test(days) || said.includes(wanted.spelled) || wanted.written.test(said);
  }
}

/** Tells of a finding, and whether it is decided, whether it fits every part of a filter. */
export function fitting({ without, state, words }: Filter): (entry: Entry, decided: boolean) => boolean {
  const wanted = readQuery(words);
  return (entry, decided) =>
    !without.includes(entry.severity) &&
    (state === 'all' || (state === 'decided') === decided) &&
    wanted.every((one) => fitsOne(one, entry));
}
