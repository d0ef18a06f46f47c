/** What a reader is looking for, part by part; all of them must be there. */
export type Wanted =
  /** A word, as it stands in what is said. */
  | { readonly kind: 'word'; readonly word: string }
  /** A number by itself: a frame, a number in what is said, or a year. */
  | { readonly kind: 'number'; readonly number: string; readonly alone: RegExp; readonly year: RegExp | null }
  /** A number of something, such as frame 90 or page A3. */
  | { readonly kind: 'counted'; readonly of: string; readonly number: string; readonly runs: RegExp }
  /** A day, a month or a day of any year: as the report writes days, and as sentences spell them. */
  | { readonly kind: 'day'; readonly written: RegExp; readonly spelled: string };

const MONTHS = 'january february march april may june july august september october november december'.split(' ');
const MONTH = '([a-z]{3,9})\\.?';
const NUMBER_OF_DAY = '(\\d{1,2})(?:st|nd|rd|th)?\\.?';
const YEAR = '(\\d{4})';
const WEEKDAY = '(?:(?:mon|tue|tues|wed|wednes|thu|thur|thurs|fri|sat|satur|sun)(?:day)?[.,]? )?';

/** The ways in which people write a day or a month, the longest first, with the places of year, month and day among what is caught. */
const WAYS: readonly (readonly [way: RegExp, year: number, month: number, day: number])[] = [
  [new RegExp(`^${WEEKDAY}${NUMBER_OF_DAY} ${MONTH},? ${YEAR}(?= |$)`), 3, 2, 1],
  [new RegExp(`^${WEEKDAY}${MONTH} ${NUMBER_OF_DAY},? ${YEAR}(?= |$)`), 3, 1, 2],
  [new RegExp(`^${MONTH},? ${YEAR}(?= |$)`), 2, 1, 0],
  [new RegExp(`^${WEEKDAY}${NUMBER_OF_DAY} ${MONTH}(?= |$)`), 0, 2, 1],
  [new RegExp(`^${WEEKDAY}${MONTH} ${NUMBER_OF_DAY}(?= |$)`), 0, 1, 2],
  [new RegExp(`^${MONTH}(?= |$)`), 0, 1, 0],
];

/** The day or month with which a text begins, and how much of the text it takes; null where it begins otherwise. */
function dayAtStart(text: string): { readonly wanted: Wanted; readonly length: number } | null {
  for (const [way, year, month, day] of WAYS) {
    const found = way.exec(text);
    const name = found?.[month] ?? '';
    const at = MONTHS.findIndex((one) => one.startsWith(name));
    if (found === null || at < 0) continue;
    const [inYear, inDay] = [year > 0 ? found[year] : undefined, day > 0 ? found[day] : undefined];
    const two = (number: number): string => String(number).padStart(2, '0');
    const alone = inYear === undefined && inDay === undefined;
    return {
      wanted: {
        kind: 'day',
        written: new RegExp(`${inYear ?? '\\d{4}'}-${two(at + 1)}${inDay === undefined ? '' : `-${two(Number(inDay))}`}`),
        // A month alone may be the beginning of another word: "dec" of "decided".
        spelled: alone ? name : [inDay === undefined ? '' : String(Number(inDay)), MONTHS[at], inYear ?? ''].join(' ').trim(),
      },
      length: found[0].length,
    };
  }
  return null;
}

/** `frame 90`, `pages 3 to 6`, `row 12`: what is counted, and the numbers at both ends. */
const COUNTED = /^(frame|page|reel|row|edition)s? ([a-z]?\d{1,6}[a-z]?)(?: to ([a-z]?\d{1,6}[a-z]?))?(?= |$)/;
const NUMBER = /^\d{1,6}[a-z]?$/;
const ONE = '[a-z]?\\d+[a-z]?';

const numberOf = (of: string, number: string): Wanted => ({
  kind: 'counted',
  of,
  number,
  // "and 4 more" counts what is not named.
  runs: new RegExp(`\\b${of}s? (${ONE}(?:(?: to |, | and (?!\\d+ more))${ONE})*)`, 'g'),
});

const numberAlone = (number: string): Wanted => ({
  kind: 'number',
  number,
  alone: new RegExp(`(^|[^0-9a-z-])${number}(?![0-9a-z-])`),
  year: /^\d{4}$/.test(number) ? new RegExp(`\\b${number}-\\d\\d`) : null,
});

/** Reads what somebody typed to find. */
export function readQuery(typed: string): readonly Wanted[] {
  const wanted: Wanted[] = [];
  let rest = typed.toLowerCase().trim().replace(/\s+/g, ' ');
  while (rest !== '') {
    const [, of, from, to] = COUNTED.exec(rest) ?? [];
    const day = dayAtStart(rest);
    const [word = ''] = rest.split(' ');
    let length = word.length;
    if (of !== undefined && from !== undefined) {
      for (const number of [from, to]) if (number !== undefined) wanted.push(numberOf(of, number));
      length = COUNTED.exec(rest)?.[0].length ?? length;
    } else if (day !== null) {
      wanted.push(day.wanted);
      length = day.length;
    } else wanted.push(NUMBER.test(word) ? numberAlone(word) : { kind: 'word', word });
    rest = rest.slice(length).trimStart();
  }
  return wanted;
}
