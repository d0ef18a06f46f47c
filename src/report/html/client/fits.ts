import type { Filter } from './address.js';
import type { Entry } from './entries.js';
import { readQuery, type Wanted } from './query.js';

/** Text of each finding in small letters, read when it is first asked for. */
const texts = new Map<Entry, string>();

/** The text of what a finding is about: the frames drawn beside its own are not. */
function textOf(entry: Entry): string {
  const known = texts.get(entry);
  if (known !== undefined) return known;
  let text = '';
  for (const part of entry.body.querySelector('.said')?.children ?? []) {
    if (!part.classList.contains('film')) text += `${part.textContent} `;
    else for (const piece of part.children) if (piece.className !== 'beside') text += `${piece.textContent} `;
  }
  text = text.toLowerCase();
  texts.set(entry, text);
  return text;
}

/** Milliseconds for reading ahead in one go, so that nobody who types waits for it. */
const AHEAD = 8;

/** Reads the texts while nothing else is to do: the first word that is looked for needs all of them. */
export function readAhead(entries: readonly Entry[]): void {
  let at = 0;
  const read = (): void => {
    const start = performance.now();
    for (; at < entries.length && performance.now() - start < AHEAD; at++) {
      const entry = entries[at];
      if (entry !== undefined) textOf(entry);
    }
    if (at < entries.length) setTimeout(read, 4 * AHEAD);
  };
  setTimeout(read, 1000);
}

/** True where runs such as `25-28 115` hold a number; a number with a letter must stand there as such. */
function inRunsOf(runs: string, word: string): boolean {
  const number = Number(word);
  return runs.split(' ').some((run) => {
    if (run === word) return true;
    const [from = '', to = ''] = run.split('-');
    return to !== '' && Number(from) <= number && number <= Number(to);
  });
}

/** True where a text names a number of something: `frame 90`, `rows 12 to 28`, `pages 3, 4 and 6`. */
function names(text: string, { runs, number }: Extract<Wanted, { kind: 'counted' }>): boolean {
  return [...text.matchAll(runs)].some(([, run = '']) => inRunsOf(run.replaceAll(' to ', '-').replace(/, | and /g, ' '), number));
}

/** True where a finding fits one part of what is looked for. */
function fitsOne(wanted: Wanted, entry: Entry): boolean {
  const { frames = '', days = '' } = entry.body.dataset;
  const onFrame = (number: string): boolean => inRunsOf(frames.toLowerCase(), number);
  switch (wanted.kind) {
    case 'word':
      return textOf(entry).includes(wanted.word) || days.includes(wanted.word);
    case 'number':
      return onFrame(wanted.number) || wanted.alone.test(textOf(entry)) || (wanted.year?.test(`${days} ${textOf(entry)}`) ?? false);
    case 'counted':
      return (wanted.of === 'frame' && onFrame(wanted.number)) || names(textOf(entry), wanted);
    case 'day':
      return wanted.written.test(days) || textOf(entry).includes(wanted.spelled) || wanted.written.test(textOf(entry));
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
