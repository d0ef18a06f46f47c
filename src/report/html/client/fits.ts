import type { Filter } from './address.js';
import type { Entry } from './entries.js';

const NUMBER = /^\d{1,6}[a-z]?$/;

/** Text of each finding in small letters, read when it is first asked for. */
const texts = new Map<Entry, string>();

function textOf(entry: Entry): string {
  const known = texts.get(entry);
  if (known !== undefined) return known;
  const text = entry.body.textContent.toLowerCase();
  texts.set(entry, text);
  return text;
}

/** True where runs such as `25-28 115` hold a number; a number with a letter must stand there as such. */
function inRunsOf(runs: string, word: string): boolean {
  const number = Number(word);
  return runs.split(' ').some((run) => {
    if (run.toLowerCase() === word) return true;
    const [from = '', to = ''] = run.split('-');
    return to !== '' && Number(from) <= number && number <= Number(to);
  });
}

/** True where a finding is told with the word, lies on the frame of that number, or touches an issue of that day. */
function has(entry: Entry, word: string): boolean {
  const { frames = '', days = '' } = entry.body.dataset;
  if (NUMBER.test(word)) return inRunsOf(frames, word) || new RegExp(`(^|[^0-9a-z-])${word}([^0-9a-z-]|$)`).test(textOf(entry));
  return textOf(entry).includes(word) || days.includes(word);
}

/** True where a finding fits every part of a filter. */
export function fits(entry: Entry, { without, state, words }: Filter, decided: boolean): boolean {
  return (
    !without.includes(entry.severity) &&
    (state === 'all' || (state === 'decided') === decided) &&
    words
      .toLowerCase()
      .split(/\s+/)
      .every((word) => word === '' || has(entry, word))
  );
}
