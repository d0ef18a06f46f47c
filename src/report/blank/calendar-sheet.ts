import type { BlankRecord } from '../../model/blank-record.js';
import { columnLetters, type Look, lookKey, type Rule, type TextSheet } from '../xlsx/text-sheet.js';
import { type BlankMonth, monthsOf } from './months.js';
import { DAY_STATES } from './states.js';

const WEEK = ['Mo', 'Tu', 'We', 'Th', 'Fr', 'Sa', 'Su'];
/** A month of 31 days that begins on a Sunday reaches over six weeks. */
const PLACES = 37;
const GREY = '#6E6E6E';
const OVERFLOWING: Look = { overflowing: true };

/** Names of the columns of the record, which the rules of the calendar look into. */
export const COLUMN_NAMES: Readonly<Record<string, string>> = {
  date: 'record_day',
  'combined with': 'record_second_day',
  'date to': 'record_last_day',
  published: 'record_published',
};
/** The column that says whether something is on the film. */
export const FILM_COLUMN: Readonly<Record<BlankRecord['per'], string>> = { issue: 'pages', frame: 'frame' };
export const FILM_NAME = 'record_film';

/** The sheet that shows every day of the span, a month in a row, and colours itself by what stands in the record. */
export function calendarSheet({ title, from, to, pattern, days, beside, sheets }: BlankRecord): TextSheet {
  const rows: string[][] = [];
  const looks = new Map<string, Look>();
  const line = (text: string, look: Look): void => {
    looks.set(lookKey(rows.length, 0), look);
    rows.push([text]);
  };
  line(beside.calendar.first, { ...OVERFLOWING, bold: true });
  line(`${title.name === null ? title.id : `${title.name} (${title.id})`}, ${from} to ${to}: ${pattern.join('; ')}.`, OVERFLOWING);
  line(`The days colour themselves by what stands in the sheet ${sheets[0]?.name ?? ''}. Nothing is to be written here.`, OVERFLOWING);
  for (const { sign, words, fill, ink } of DAY_STATES) {
    looks.set(lookKey(rows.length, 1), { fill, ink, bold: true, centred: true });
    looks.set(lookKey(rows.length, 2), OVERFLOWING);
    rows.push(['', sign, words]);
  }
  rows.push([]);
  for (let at = 0; at <= PLACES; at += 1) looks.set(lookKey(rows.length, at), { bold: true, centred: at > 0, fill: '#E8ECEF' });
  rows.push(['month', ...Array.from({ length: PLACES }, (_, at) => WEEK[at % 7] ?? '')]);
  const kept = rows.length;
  for (const month of monthsOf(days)) {
    // A year begins behind a gap.
    if (rows.length > kept && month.month.month === 1) rows.push([]);
    rows.push(monthRow(month, rows.length, looks));
  }
  return {
    name: beside.calendar.name,
    heads: null,
    rows,
    widths: [9, ...Array.from({ length: PLACES }, () => 4.4)],
    kept: { columns: 1, rows: kept },
    onePageWide: true,
    looks,
    rules: rulesFor(`B${String(kept + 1)}:${columnLetters(PLACES)}${String(rows.length)}`, kept + 1, daysOfIssue(days)),
  };
}

function monthRow({ month, before, days }: BlankMonth, row: number, looks: Map<string, Look>): string[] {
  const open = DAY_STATES.find(({ state }) => state === 'open');
  days.forEach((day, at) => {
    const expected = day?.expected === true;
    looks.set(lookKey(row, 1 + before + at), {
      number: true,
      centred: true,
      ...(expected && open !== undefined ? { fill: open.fill, ink: open.ink } : { ink: GREY }),
    });
  });
  const name = `${String(month.year).padStart(4, '0')}-${String(month.month).padStart(2, '0')}`;
  return [name, ...Array.from({ length: before }, () => ''), ...days.map((_, at) => String(at + 1))];
}

/** The heads of the weekdays on which issues are expected. */
function daysOfIssue(days: BlankRecord['days']): string {
  const expected = new Set(days.filter((day) => day.expected).map(({ weekday }) => weekday));
  return WEEK.filter((head) => [...expected].some((day) => day.startsWith(head.toLowerCase()))).join(' ');
}

/** What colours a day; `top` is the row of the first month, below the heads, and `weekdays` are those on which a gap counts. Texts are compared with texts, since a spreadsheet program counts no days before 1900. */
function rulesFor(range: string, top: number, weekdays: string): readonly Rule[] {
  const day = `$A${String(top)}&"-"&TEXT(B${String(top)},"00")`;
  const isDay = `(record_day=${day})+(record_second_day=${day})`;
  const within = `ISNUMBER(SEARCH(B$${String(top - 1)},"${weekdays}"))*(record_day<=${day})*(record_last_day>=${day})*(record_last_day<>"")`;
  const absent = (word: string): string => `SUMPRODUCT((${isDay}+${within}>0)*(${FILM_NAME}="")*(record_published="${word}"))>0`;
  const formulas: Readonly<Record<string, string>> = {
    film: `SUMPRODUCT((${isDay}>0)*(${FILM_NAME}<>""))>0`,
    wanting: absent('yes'),
    'not-published': absent('no'),
    unknown: absent('unknown'),
  };
  return DAY_STATES.flatMap(({ state, sign, fill, ink }) => {
    const formula = formulas[state];
    return formula === undefined ? [] : [{ range, formula: `AND(ISNUMBER(B${String(top)}),${formula})`, fill, ink, sign }];
  });
}
