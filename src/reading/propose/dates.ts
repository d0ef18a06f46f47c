import type { WrittenGrid } from '../../model/written-grid.js';
import { DAY_COLUMNS, isCorrected } from '../cell-facts.js';
import { dayBeside } from '../completed-days.js';
import { type DateForm, dateForm, isYearless, yearWritten } from '../own-dates.js';
import { saysJulian } from '../usual-heads.js';
import type { Ways } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { firsts, type Laid, textsOf, where } from './laid.js';

/** What is to be asked of days: their order, century, year and calendar. */
export function askedOfDates(all: readonly Laid[], ways: Ways): readonly Asked[] {
  const days = all.flatMap((laid) =>
    [...DAY_COLUMNS].flatMap((field) =>
      textsOf(laid, field)
        .filter(({ text, cell }) => cell.kind === 'text' && !isCorrected(text, field))
        .map((one) => ({ ...one, laid })),
    ),
  );
  const forms = days.map((day) => ({ ...day, form: dateForm(day.text) }));
  return [...askedOfOrder(forms, ways), ...askedOfCentury(forms, all, ways), ...askedOfYear(all, ways), ...askedOfCalendar(all, ways)];
}

interface Formed {
  readonly text: string;
  readonly row: number;
  readonly laid: Laid;
  readonly form: DateForm;
}

function askedOfOrder(forms: readonly Formed[], ways: Ways): readonly Asked[] {
  const figures = forms.flatMap((day) => (day.form.is === 'figures' ? [{ ...day, form: day.form }] : []));
  const [first] = figures;
  if (ways.order !== null || first === undefined) return [];
  const dayFirst = figures.find(({ form }) => form.first > 12);
  const monthFirst = figures.find(({ form }) => form.second > 12);
  const proof = dayFirst !== undefined && monthFirst !== undefined ? null : (dayFirst ?? monthFirst ?? null);
  const proposed =
    proof === null ? likelyOrder(figures.map(({ form }) => form)) : dayFirst === undefined ? 'month day year' : 'day month year';
  // Dots part the days of languages that write the day first: common practice, no source.
  const dotted = figures.every(({ text }) => /^\D*\d{1,2}\.\s?\d{1,2}\./.test(text));
  const shown = proof === null ? firsts(figures, ({ text }) => text).slice(0, SHOWN) : [proof];
  const examples = shown.map(({ text, laid, row }) => `"${text}" (${where(laid, row)})`).join(', ');
  return [
    asked('order', 'dates', `In which order are day and month written, as in ${examples}?`, {
      choices: ['day month year', 'month day year'],
      proposed: proposed ?? (dotted ? 'day month year' : null),
      sure: proof !== null,
    }),
  ];
}

/** So many days show how they go on. */
const SHOWN = 5;

/** The order in which the days go on from row to row: the other one jumps about. */
function likelyOrder(forms: readonly { readonly first: number; readonly second: number }[]): string | null {
  const jumps = (month: 'first' | 'second'): number =>
    forms.slice(1).filter((form, at) => {
      const before = forms[at];
      return before !== undefined && Math.abs(form[month] - before[month]) > 1 && Math.abs(form[month] - before[month]) < 11;
    }).length;
  const [dayFirst, monthFirst] = [jumps('second'), jumps('first')];
  return dayFirst === monthFirst ? null : dayFirst < monthFirst ? 'day month year' : 'month day year';
}

function askedOfCentury(forms: readonly Formed[], all: readonly Laid[], ways: Ways): readonly Asked[] {
  const two = forms.find(({ form }) => 'twoDigits' in form && form.twoDigits);
  if (ways.century !== null || two === undefined) return [];
  const centuries = [...new Set(all.flatMap(({ grid }) => yearsIn(grid).map((year) => year.slice(0, 2))))];
  return [
    asked(
      'century',
      'dates',
      `Of which century are years of two digits, as in "${two.text}" (${where(two.laid, two.row)})? Write its first two digits.`,
      { choices: ['16', '17', '18', '19', '20'], proposed: centuries.length === 1 ? (centuries[0] ?? null) : null },
    ),
  ];
}

function yearsIn({ sheet, file }: WrittenGrid): readonly string[] {
  const texts = [file, sheet.name, ...sheet.rows.flatMap(({ cells }) => cells.map(({ value }) => value.slice(0, 200)))];
  return texts.flatMap((text) => /(?<!\d)(?:1[6-9]|20)\d\d(?!\d)/.exec(text)?.[0] ?? []);
}

/** Days without a year to which neither a column nor a line above gives one. */
function askedOfYear(all: readonly Laid[], ways: Ways): readonly Asked[] {
  if (ways.year !== null) return [];
  const bare = all.flatMap((laid) =>
    yearless(laid)
      .filter(({ year }) => year === null)
      .map((day) => ({ ...day, laid })),
  );
  const [first] = bare;
  if (first === undefined) return [];
  const years = [...new Set(all.flatMap(({ grid }) => yearsIn(grid)))];
  const count = bare.length === 1 ? 'A day is' : `${String(bare.length)} days are`;
  return [
    asked(
      'year',
      'dates',
      `${count} written without a year, the first "${first.text}" in ${where(first.laid, first.row)}, and nothing beside or above gives it. Which year is it?`,
      {
        proposed: years.length === 1 ? (years[0] ?? null) : null,
      },
    ),
  ];
}

/** The days of a sheet that are written without a year, with the year that a column or a line above gives. */
function yearless(laid: Laid): readonly { readonly row: number; readonly text: string; readonly year: string | null }[] {
  const { plans } = laid.layout;
  const carried = new Map<number, { readonly value: string }>();
  const found: { row: number; text: string; year: string | null }[] = [];
  const dates = new Set(plans.filter(({ fields }) => fields.includes('date')).map(({ column }) => column));
  for (const { row, cells } of laid.rows) {
    for (const cell of cells) if (cell.value.trim() !== '') carried.set(cell.column, cell);
    const heading = laid.lone.findLast((one) => one.row < row && one.heading?.year !== undefined)?.heading ?? {};
    for (const { column, kind, value } of cells) {
      const text = value.trim();
      if (!dates.has(column) || kind === 'date' || !isYearless(text)) continue;
      found.push({ row, text, year: dayBeside(plans, carried, heading).year ?? null });
    }
  }
  return found;
}

/** Whether the days below such a line, up to the next one, need it. */
export function headingDates(laid: Laid, row: number): boolean {
  const given = laid.lone.find((one) => one.row === row)?.heading;
  // A month stands under its year, and does not end it.
  const ends = (one: Laid['lone'][number]): boolean =>
    one.heading !== null && (given?.year === undefined || one.heading.year !== undefined);
  const next = laid.lone.find((one) => one.row > row && ends(one))?.row ?? Number.POSITIVE_INFINITY;
  return yearless(laid).some((day) => day.row > row && day.row < next);
}

function askedOfCalendar(all: readonly Laid[], ways: Ways): readonly Asked[] {
  const said = all.some(({ layout, rows }) =>
    layout.plans.some(
      ({ column, fields }) =>
        fields.includes('calendar') && rows.some(({ cells }) => cells.some((cell) => cell.column === column && cell.value.trim() !== '')),
    ),
  );
  if (ways.calendar !== null || said) return [];
  for (const laid of all)
    for (const { head, fields } of laid.layout.plans) {
      if (!fields.includes('date') || !saysJulian(head)) continue;
      const days = textsOf(laid, 'date').flatMap(({ text }) => (yearWritten(text, ways) === null ? [] : [text]));
      const last = days.at(-1);
      return [
        asked(
          'calendar',
          'dates',
          `The head "${head}" says that its days are those of the Julian calendar${last === undefined ? '' : `, up to "${last.slice(0, 30)}"`}. Write "julian-until" and the last day that the paper dated so, by that calendar, such as julian-until 1918-01-31, or "gregorian" where the days are those of the Gregorian calendar.`,
          { proposed: null },
        ),
      ];
    }
  return [];
}
