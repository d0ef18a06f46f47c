import type { Side } from '../model/film.js';

/** What a record amounts to, in one line: the first thing to hold against what is known of the film. */
export function totalsInWords({ reels, issues, absences }: Side): string {
  const frames = reels.flatMap((reel) => reel.frames);
  const delivered = frames.filter(({ deliver }) => deliver).length;
  const onFilm = issues.filter(({ present }) => present);
  const days = onFilm.flatMap(({ date }) => date?.day ?? []).toSorted();
  const [first, last] = [days[0], days.at(-1)];
  const span = first === undefined || last === undefined ? '' : first === last ? ` of ${first}` : ` from ${first} to ${last}`;
  const pages = absences.filter(({ page, order }) => page !== null || order !== null).length;
  const missing = [...some(absences.length - pages, 'issue'), ...some(pages, 'page')].join(' and ');
  return [
    `${count(reels.length, 'reel')}, ${count(frames.length, 'frame')}: ${String(delivered)} to deliver, ${String(frames.length - delivered)} held back.`,
    `${count(onFilm.length, 'issue')}${span}.`,
    `Not on the film: ${missing === '' ? 'nothing is recorded' : missing}.`,
  ].join(' ');
}

function some(number: number, word: string): readonly string[] {
  return number === 0 ? [] : [count(number, word)];
}

function count(number: number, word: string): string {
  return `${String(number)} ${word}${number === 1 ? '' : 's'}`;
}
