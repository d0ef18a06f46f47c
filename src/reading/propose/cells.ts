import type { WrittenGrid } from '../../model/written-grid.js';
import { DAY_COLUMNS, isCorrected } from '../cell-facts.js';
import { dateForm } from '../own-dates.js';
import { isDitto, isPageRow } from '../sheet.js';
import { type Ways, wordKey } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { firsts, type Laid, laidOut, textsOf, where } from './laid.js';
import { askedOfColours, askedOfComments, askedOfStruck } from './marks.js';
import { askedOfPhrases, askedOfShown } from './notes.js';
import { askedOfPages } from './pages.js';
import { askedOfTitles } from './titles.js';
import { askedOfWord } from './words.js';

/** What is to be asked of the cells of a record: rows, dates, words, titles, marks, colours. */
export function askedOfCells(grids: readonly WrittenGrid[], ways: Ways): readonly Asked[] {
  const all = laidOut(grids, ways);
  const film = all.filter(({ layout }) => layout.use === 'frames' || layout.use === 'issues');
  const phrases = askedOfPhrases(film, ways);
  return [
    ...askedOfRows(film, ways),
    ...askedOfReels(film, all, ways),
    ...askedOfFrames(film, ways),
    ...askedOfDates(all, ways),
    ...askedOfTitles(film, all, ways),
    ...askedOfBelow(film, ways),
    ...askedOfDitto(film, ways),
    ...askedOfWords(all, ways),
    ...askedOfColours(film, ways),
    ...askedOfStruck(grids, film, ways),
    ...askedOfComments(film, ways),
    ...askedOfShown(film, ways),
    ...phrases,
    ...askedOfPages(film, ways, phrases),
  ];
}

function askedOfRows(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const lone = film.flatMap((laid) => laid.lone.map((one) => ({ ...one, laid })));
  return firsts(lone, ({ text }) => wordKey(text))
    .filter(({ text }) => !ways.rows.has(wordKey(text)))
    .map(({ text, row, laid }) =>
      asked('rows', text, `In ${where(laid, row)} stands "${text.slice(0, 80)}" and nothing else. Is the row to be left out?`, {
        choices: ['leave out', 'keep'],
        proposed: 'leave out',
        sure: true,
      }),
    );
}

/** Names that a spreadsheet program gives a sheet: they say nothing of a reel. */
const NO_NAME = /^(sheet|tabelle|feuil|blad|hoja|foglio|table)\s?\d*$/i;

function askedOfReels(film: readonly Laid[], all: readonly Laid[], ways: Ways): readonly Asked[] {
  const listed = all.filter(({ layout }) => layout.use === 'reels').reduce((sum, { rows }) => sum + rows.length, 0);
  return film.flatMap((laid): readonly Asked[] => {
    const { grid, layout, reelLines } = laid;
    const { name } = grid.sheet;
    const has = layout.plans.some(({ fields }) => fields.includes('reel'));
    if (has || reelLines || listed === 1 || ways.sheets.get(name)?.reel !== undefined || (/\d/.test(name) && !NO_NAME.test(name)))
      return [];
    const above = grid.sheet.rows
      .slice(0, layout.heads.at)
      .flatMap(({ cells }) =>
        cells.flatMap(
          ({ value }) => /\b(?:reel|roll|film)\s*(?:no\.?|nr\.?|number|#)?\s*[:.]?\s*([A-Z]{0,4}\d[\w-]{0,20})/i.exec(value)?.[1] ?? [],
        ),
      );
    const [found] = above;
    const inFile = /\d[\w-]*/.exec(grid.file.replace(/\.[^.]*$/, ''))?.[0] ?? null;
    return [
      asked('reel', name, `Which reel is on the sheet "${name}"? No column gives its number.`, {
        proposed: found ?? inFile,
        sure: found !== undefined && new Set(above).size === 1,
      }),
    ];
  });
}

function askedOfFrames(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const without = film.filter(({ layout }) => layout.use === 'frames' && !layout.plans.some(({ fields }) => fields.includes('frame')));
  const [first] = without;
  if (first === undefined || ways.counted) return [];
  return [
    asked(
      'frames',
      first.grid.sheet.name,
      `No column of the sheet "${first.grid.sheet.name}" gives frame numbers. Are the frames counted, 1 for the first row of a reel?`,
      {
        choices: ['counted'],
        proposed: 'counted',
        sure: true,
      },
    ),
  ];
}

function askedOfDates(all: readonly Laid[], ways: Ways): readonly Asked[] {
  const days = all.flatMap((laid) =>
    [...DAY_COLUMNS].flatMap((field) =>
      textsOf(laid, field)
        .filter(({ text, cell }) => cell.kind === 'text' && !isCorrected(text, field))
        .map((one) => ({ ...one, laid })),
    ),
  );
  const forms = days.map((day) => ({ ...day, form: dateForm(day.text) }));
  const figures = forms.flatMap((day) => (day.form.is === 'figures' ? [{ ...day, form: day.form }] : []));
  const [first] = figures;
  const questions: Asked[] = [];
  if (ways.order === null && first !== undefined) {
    const dayFirst = figures.find(({ form }) => form.first > 12);
    const monthFirst = figures.find(({ form }) => form.second > 12);
    const proof = dayFirst !== undefined && monthFirst !== undefined ? null : (dayFirst ?? monthFirst ?? null);
    const proposed =
      proof === null ? likelyOrder(figures.map(({ form }) => form)) : dayFirst === undefined ? 'month day year' : 'day month year';
    const shown = (proof ?? first).text;
    questions.push(
      asked(
        'order',
        'dates',
        `In which order are day and month written, as in "${shown}" (${where((proof ?? first).laid, (proof ?? first).row)})?`,
        {
          choices: ['day month year', 'month day year'],
          proposed,
          sure: proof !== null,
        },
      ),
    );
  }
  const two = forms.find(({ form }) => 'twoDigits' in form && form.twoDigits);
  if (ways.century === null && two !== undefined) {
    const years = all.flatMap(({ grid }) =>
      grid.sheet.rows.flatMap(({ cells }) => cells.flatMap(({ value }) => /\b(1[6-9]|20)\d\d\b/.exec(value.slice(0, 200))?.[1] ?? [])),
    );
    const centuries = [...new Set(years)];
    questions.push(
      asked(
        'century',
        'dates',
        `Of which century are years of two digits, as in "${two.text}" (${where(two.laid, two.row)})? Write its first two digits.`,
        {
          choices: ['16', '17', '18', '19', '20'],
          proposed: centuries.length === 1 ? (centuries[0] ?? null) : null,
        },
      ),
    );
  }
  return questions;
}

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

function askedOfBelow(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const questions: Asked[] = [];
  for (const laid of film) {
    const { layout, rows } = laid;
    for (const { column, head, fields, below } of layout.plans) {
      const [field] = fields;
      if (fields.length !== 1 || (field !== 'date' && field !== 'title') || below !== null) continue;
      if (questions.some(({ of }) => of === head) || ways.columns.get(head)?.below !== undefined) continue;
      let above = false;
      const gap = rows.find(({ cells }) => {
        const text = (at: number): string | undefined => cells.find((cell) => cell.column === at)?.value;
        const empty = (text(column) ?? '').trim() === '';
        if (!empty) above = true;
        return empty && above && isPageRow(layout.plans, text);
      });
      if (gap === undefined) continue;
      questions.push(
        asked(
          'below',
          head,
          `The column "${head}" is empty for a page in ${where(laid, gap.row)}. Does what stands above hold there too?`,
          {
            choices: ['as above', 'nothing'],
            proposed: 'as above',
            sure: true,
            field,
          },
        ),
      );
    }
  }
  return questions;
}

function askedOfDitto(film: readonly Laid[], ways: Ways): readonly Asked[] {
  if (ways.ditto !== null) return [];
  for (const laid of film)
    for (const { row, cells } of laid.rows) {
      const cell = cells.find(
        ({ column, kind, value }) => kind === 'text' && isDitto(value) && (laid.layout.plans[column]?.fields.length ?? 0) > 0,
      );
      if (cell !== undefined)
        return [
          asked('ditto', cell.value.trim(), `Does ${cell.value.trim()} in ${where(laid, row)} mean "as the cell above"?`, {
            choices: ['as above', 'as written'],
            proposed: 'as above',
            sure: true,
          }),
        ];
    }
  return [];
}

/** Columns whose words are few and ours. */
const WORDS = ['kind', 'deliver', 'published', 'supplement', 'edition', 'position', 'date printed judged'] as const;

function askedOfWords(all: readonly Laid[], ways: Ways): readonly Asked[] {
  return WORDS.flatMap((field) => {
    const texts = all
      .flatMap((laid) => textsOf(laid, field).map((one) => ({ ...one, laid })))
      .filter(({ cell, text }) => cell.kind === 'text' && !isDitto(text));
    return firsts(texts, ({ text }) => wordKey(text)).flatMap(({ text, row, laid }) => {
      if (ways.words.get(field)?.has(wordKey(text)) === true) return [];
      const question = askedOfWord(field, text, where(laid, row));
      return question === null ? [] : [question];
    });
  });
}
