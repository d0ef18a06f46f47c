import { isEditionName } from '../calendar/edition-names.js';
import { readMonth } from '../calendar/month-names.js';
import { readWeekday } from '../calendar/weekday-names.js';
import { keptInMind } from '../normalise/kept.js';

/** A cell of a day in its parts: `Fri. 24 Jan 1901 (Evening)` is `24 Jan 1901`, the weekday `Fri.` and the edition `Evening`. */
export interface DaySplit {
  readonly day: string;
  readonly weekday: string | null;
  readonly edition: string | null;
  /** Nothing but the day stands there. */
  readonly whole: boolean;
}

/** Words between a weekday and its day: `Freitag, den 24. Januar`, `le 24 janvier`. */
const ARTICLE = /^(?:the|on|dated|den|dem|der|vom|am|le|du)\s+(?=\d)/i;
const LONGEST = 200;

/** Parts the words that people write around a day from the day. Words that are none of these stay with it. All pages of an issue have the same day beside them. */
export const daySplit = keptInMind(split);

function split(text: string): DaySplit {
  let day = text.slice(0, LONGEST);
  let weekday: string | null = null;
  let edition: string | null = null;
  // Each part stands there once, in front or behind.
  for (let round = 0; round < 4; round += 1) {
    day = day.replace(ARTICLE, '');
    const found = [wordInFront(day), wordBehind(day)].find((one) => one !== null && (isWeekday(one[0]) || isEditionName(one[0])));
    if (found == null) break;
    const [word, rest] = found;
    if (weekday === null && isWeekday(word)) weekday = word;
    else if (edition === null && isEditionName(word)) edition = word;
    else break;
    day = rest;
  }
  return { day, weekday, edition, whole: day === text };
}

function isWeekday(word: string): boolean {
  return readMonth(word) === null && readWeekday(word) !== null;
}

function wordInFront(text: string): readonly [string, string] | null {
  const match = /^(\p{L}{2,14}\.?),? (?=.*\d)(.+)$/u.exec(text);
  return match?.[1] === undefined || match[2] === undefined ? null : [match[1], match[2].trim()];
}

/** `24 Jan 1901, Thursday`, `24.1.1901 (Do)`, `24 Jan. 1901 morning edition`. */
function wordBehind(text: string): readonly [string, string] | null {
  const match = /^(.*\d\.?|.*\p{L})(?:\s*[,;/-]\s*|\s+|\s*(?=[([]))[([]?(\p{L}{2,20}\.?(?: (?:edition|ed\.|ausgabe))?)[)\]]?$/iu.exec(text);
  return match?.[1] === undefined || match[2] === undefined || !/\d/.test(match[1]) ? null : [match[2], match[1].trim()];
}
