import { counted } from '../words.js';
import { type Filmed, findingLink, titleName } from './around.js';
import { type CalendarDay, type CalendarMonth, calendars, type DayState, type TitleCalendar } from './calendar-days.js';
import { firstWeekday, MONTHS } from './civil.js';
import { html, type Markup, trusted } from './markup.js';
import { bullets } from './table.js';

/** What a day can show: the letter in the calendar, and the words of the legend and the lists. */
const STATES: readonly (readonly [state: DayState, letter: string, words: string, list: boolean])[] = [
  ['film', 'F', 'on the film', false],
  ['off', 'O', 'on the film, on a day that is not a usual day of issue', true],
  ['part', 'P', 'on the film, but not all of its pages', true],
  ['wrong', 'X', 'delivered otherwise than ordered', true],
  ['wanting', 'W', 'wanting: published, not on the film', true],
  ['not-published', 'N', 'not published', true],
  ['unknown', 'U', 'not on the film; the record says that nobody knows whether it came out', true],
  ['silent', '?', 'a usual day of issue of which the record says nothing', true],
  ['return', 'R', 'only in the return', true],
];

/** States that only a return gives. */
const OF_RETURNS: readonly DayState[] = ['wrong', 'return'];

const LETTERS = new Map(STATES.map(([state, letter]) => [state, letter]));
const WEEK = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'];
const MOST_DATES = 200;

/** A cell of the calendar; end tags that HTML does not need are left out, for there are thousands. */
function cell({ day, state, also, issues, finding }: CalendarDay, whole: Filmed): string {
  const number = String(Number(day.slice(8)));
  const letter = LETTERS.get(state);
  if (letter === undefined) return `<td>${number}`;
  const others = also.map((other) => `<small>${LETTERS.get(other) ?? ''}</small>`).join('');
  const inside = `${number}${issues > 1 ? ` <small>${String(issues)}×</small>` : ''}<br><b>${letter}</b>${others}`;
  const link = finding === null ? null : findingLink(whole, finding, () => trusted(inside));
  return `<td class="day-${state}">${link?.markup ?? inside}`;
}

function monthTable({ month, days, without }: CalendarMonth, whole: Filmed): Markup {
  const cells = [...Array.from({ length: firstWeekday(month) }, () => '<td>'), ...days.map((day) => cell(day, whole))];
  const weeks = Array.from({ length: Math.ceil(cells.length / 7) }, (_, week) => `<tr>${cells.slice(7 * week, 7 * week + 7).join('')}`);
  const head = `<tr>${WEEK.map((day) => `<th scope="col">${day}`).join('')}`;
  return html`${without > 0 && html`<p class="silence">${counted(without, 'month')} without anything on this film.</p>`}<table class="month"><caption>${MONTHS[month.month - 1] ?? ''} ${month.year}</caption>${trusted(`${head}${weeks.join('')}`)}</table>
`;
}

function lists({ months, undated }: TitleCalendar): Markup {
  const days = months.flatMap((month) => month.days);
  const sentences = STATES.filter(([, , , list]) => list).flatMap(([state, letter, words]) => {
    const dates = days.filter((day) => day.state === state || day.also.includes(state)).map((day) => day.day);
    if (dates.length === 0) return [];
    const more = dates.length - MOST_DATES;
    return [
      html`<b>${letter}</b> ${words} (${dates.length}): ${dates.slice(0, MOST_DATES).join(', ')}${more > 0 && ` and ${String(more)} more`}`,
    ];
  });
  const more = undated.length > 0 ? [`Dates that name no day: ${undated.slice(0, MOST_DATES).join(', ')}`] : [];
  return bullets([...sentences, ...more]);
}

/** Months by years, each year a box, which a browser lays out when it comes into view. */
function byYear(months: readonly CalendarMonth[]): readonly (readonly CalendarMonth[])[] {
  const years = new Map<number, CalendarMonth[]>();
  for (const one of months) {
    const year = years.get(one.month.year) ?? [];
    years.set(one.month.year, year);
    year.push(one);
  }
  return [...years.values()];
}

/** The calendar of each title by month, and under it the same in words. */
export function calendarSection(whole: Filmed): Markup {
  const all = calendars(whole);
  if (all.length === 0) return html``;
  return html`<section aria-labelledby="calendar"><h2 id="calendar">Calendar</h2>
<ul class="legend" aria-label="Signs in the calendar">${STATES.filter(([state]) => !whole.alone || !OF_RETURNS.includes(state)).map(([state, letter, words]) => html`<li><span class="sign day-${state}"><b>${letter}</b></span> ${words}</li>`)}</ul>
${all.map(
  (one) => html`<h3>${titleName(whole, one.id)}</h3>
${byYear(one.months).map(
  (months) => html`<div class="months">${months.map((month) => monthTable(month, whole))}</div>
`,
)}${one.left > 0 && html`<p>${counted(one.left, 'further month')} left out here.</p>`}${lists(one)}`,
)}</section>
`;
}
