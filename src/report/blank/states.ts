import type { BlankDayState } from '../../model/blank-record.js';

/** How a day of the calendar looks: the letter behind its number, the words of the legend, and colours with the contrast of WCAG 2.2 AA. */
export const DAY_STATES: readonly {
  readonly state: BlankDayState;
  readonly sign: string;
  readonly words: string;
  readonly fill: string;
  readonly ink: string;
}[] = [
  { state: 'film', sign: 'F', words: 'on the film', fill: '#CDE7D0', ink: '#1B4D22' },
  { state: 'wanting', sign: 'W', words: 'wanting: published, not on the film', fill: '#F8CFC4', ink: '#7A1E0A' },
  { state: 'not-published', sign: 'N', words: 'not published', fill: '#DCDCE4', ink: '#34343E' },
  { state: 'unknown', sign: '?', words: 'not on the film, and not known whether it was published', fill: '#FFE0A8', ink: '#5F3C00' },
  { state: 'open', sign: '', words: 'an issue is expected, and nobody has filled it in yet', fill: '#FFF8D2', ink: '#1C1B18' },
];
