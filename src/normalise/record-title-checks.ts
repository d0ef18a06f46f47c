import { isDay } from '../calendar/civil.js';
import { readCalendar } from '../calendar/julian.js';
import { isOmittedEntry } from '../calendar/patterns.js';
import { readRegularity } from '../calendar/regularity.js';
import type { TitleEntry } from '../model/collation-record.js';
import type { SheetProblem } from '../model/written-sheet.js';
import { NO_REGULARITY } from './record-titles.js';

/** What is wrong with calendars and patterns of titles. What was told of a row of their sheet is not told again. */
export function checkTitles(titles: readonly TitleEntry[], told: readonly SheetProblem[], complain: (says: string) => void): void {
  const listed = told.every(({ says }) => says !== NO_REGULARITY);
  for (const { id, calendar, patterns } of titles) {
    const says = (what: string): void => complain(`title ${id}: ${what}`);
    if (calendar !== undefined && readCalendar(calendar) === null)
      says(
        `the calendar "${calendar}" is neither gregorian nor julian-until and the last day by the Julian calendar, such as julian-until 1918-01-31.`,
      );
    for (const [at, { from, to, omitted, regularity }] of (patterns ?? []).entries()) {
      if (listed && regularity !== undefined && readRegularity(regularity) === null)
        says(`the regularity "${regularity.slice(0, 60)}" of its pattern ${String(at + 1)} ${NO_REGULARITY}`);
      for (const day of [from, to])
        if (day !== undefined && !isDay(day)) says(`the pattern begins or ends with "${day}", which is not a day; write YYYY-MM-DD.`);
      if (from !== undefined && to !== undefined && from > to) says(`a pattern ends on ${to}, before it begins on ${from}.`);
      for (const day of omitted ?? [])
        if (!isOmittedEntry(day)) says(`"${day}" among the omitted days is not a day; write MM-DD for every year, or YYYY-MM-DD.`);
    }
  }
}
