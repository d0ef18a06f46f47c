/** What a MARC 21 frequency code (008/18) means and how many issues a year one should expect, null where that is open. */
export interface Frequency {
  readonly name: string;
  readonly issuesPerYear: readonly [least: number, most: number] | null;
  /** Weekdays of issue in a week, null where the code does not fix them. */
  readonly daysPerWeek: readonly [least: number, most: number] | null;
}

// MARC 21 bibliographic 008/18; the counts follow from the names. `c` is twice a week and `e` every two weeks: "bi-weekly" meant either.
const FREQUENCIES: ReadonlyMap<string, Frequency> = new Map<string, Frequency>([
  ['a', { name: 'once a year', issuesPerYear: [1, 1], daysPerWeek: null }],
  ['b', { name: 'every two months', issuesPerYear: [6, 6], daysPerWeek: null }],
  ['c', { name: 'twice a week', issuesPerYear: [104, 106], daysPerWeek: [2, 2] }],
  ['d', { name: 'daily', issuesPerYear: [260, 366], daysPerWeek: [5, 7] }],
  ['e', { name: 'every two weeks', issuesPerYear: [26, 27], daysPerWeek: [1, 1] }],
  ['f', { name: 'twice a year', issuesPerYear: [2, 2], daysPerWeek: null }],
  ['g', { name: 'every two years', issuesPerYear: [0, 1], daysPerWeek: null }],
  ['h', { name: 'every three years', issuesPerYear: [0, 1], daysPerWeek: null }],
  ['i', { name: 'three times a week', issuesPerYear: [156, 159], daysPerWeek: [3, 3] }],
  ['j', { name: 'three times a month', issuesPerYear: [36, 36], daysPerWeek: null }],
  ['k', { name: 'continuously updated', issuesPerYear: null, daysPerWeek: null }],
  ['m', { name: 'monthly', issuesPerYear: [12, 12], daysPerWeek: null }],
  ['q', { name: 'four times a year', issuesPerYear: [4, 4], daysPerWeek: null }],
  ['s', { name: 'twice a month', issuesPerYear: [24, 24], daysPerWeek: null }],
  ['t', { name: 'three times a year', issuesPerYear: [3, 3], daysPerWeek: null }],
  ['u', { name: 'unknown', issuesPerYear: null, daysPerWeek: null }],
  ['w', { name: 'weekly', issuesPerYear: [52, 53], daysPerWeek: [1, 1] }],
  ['z', { name: 'other', issuesPerYear: null, daysPerWeek: null }],
  ['#', { name: 'no determinable frequency', issuesPerYear: null, daysPerWeek: null }],
  ['|', { name: 'not coded', issuesPerYear: null, daysPerWeek: null }],
]);

/** The meaning of a MARC 21 frequency code, a blank or `#` included; null for text that is no code. */
export function frequency(code: string): Frequency | null {
  return FREQUENCIES.get(code === ' ' ? '#' : code) ?? null;
}
