import type { WrittenGrid } from '../../model/written-grid.js';
import { daySplit } from '../day-words.js';
import { isDitto } from '../ditto.js';
import { frameRange } from '../frame-ranges.js';
import { LAST_FRAME, MONTH, PAGES_WANTING, YEAR } from '../names.js';
import { isDayText } from '../own-dates.js';
import { isPageRow } from '../read-row.js';
import { type Ways, wordKey } from '../ways.js';
import { type Asked, asked } from './asked.js';
import { askedOfCopies } from './copies.js';
import { askedOfDates, headingDates } from './dates.js';
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
    ...askedOfNoPages(film, ways),
    ...askedOfColours(film, ways),
    ...askedOfStruck(grids, film, ways),
    ...askedOfComments(film, ways),
    ...askedOfShown(film, ways),
    ...phrases,
    ...askedOfPages(film, ways, phrases),
    ...askedOfCopies(film, ways, phrases),
  ];
}

function askedOfRows(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const lone = film.flatMap((laid) => laid.lone.map((one) => ({ ...one, laid })));
  return firsts(lone, ({ text }) => wordKey(text))
    .filter(({ text }) => !ways.rows.has(wordKey(text)))
    .map(({ text, row, heading, laid }) => {
      const stands = `In ${where(laid, row)} stands "${text.slice(0, 80)}", and nothing that a frame or an issue has.`;
      if (heading === null)
        return asked('rows', text, `${stands} Is the row to be left out?`, {
          choices: ['leave out', 'keep'],
          proposed: 'leave out',
          sure: true,
        });
      const dates = headingDates(laid, row);
      return asked(
        'rows',
        text,
        `${stands} Does it complete the days of the rows below, is it to be left out, or is it a row of its own?`,
        {
          choices: ['date of the rows below', 'leave out', 'keep'],
          proposed: dates ? 'date of the rows below' : null,
          sure: dates,
        },
      );
    });
}

/** Names that a spreadsheet program gives a sheet: they say nothing of a reel. */
const NO_NAME = /^(sheet|tabelle|feuil|blad|hoja|foglio|table)\s?\d*$/i;
/** A line above the heads that names the reel: common practice, no source. */
const REEL_NAMED =
  /(?<!\p{L})(?:reel|rolle|roll|filmrolle|(?:micro)?film|spule|bobine)\s*(?:number|nummer|numéro|no\.?|nr\.?|n°|#)?\s*[:.]?\s*([A-Z]{0,4}\d[\w-]{0,20})/iu;

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
      .flatMap(({ cells }) => cells.flatMap(({ value }) => REEL_NAMED.exec(value)?.[1] ?? []));
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
  const lacks = ({ layout: { use, plans } }: Laid): boolean =>
    // The form of our own says by itself that frames are counted where an issue has no first one.
    use === 'frames'
      ? !plans.some(({ fields }) => fields.includes('frame'))
      : ways.columns.size > 0 && !plans.some(({ fields }) => fields.includes('first frame'));
  const first = film.find(lacks);
  if (first === undefined || ways.counted) return [];
  const { name } = first.grid.sheet;
  const begin = first.layout.use === 'frames' ? '1 for the first row of a reel' : 'from 1 in the first row of a reel';
  return [
    asked('frames', name, `No column of the sheet "${name}" gives frame numbers. Are the frames counted, ${begin}?`, {
      choices: ['counted'],
      proposed: 'counted',
      sure: true,
    }),
  ];
}

/** Columns in which people leave a cell empty below what holds on. */
const HOLD_ON: readonly string[] = ['date', 'title', YEAR, MONTH];

function askedOfBelow(film: readonly Laid[], ways: Ways): readonly Asked[] {
  const questions: Asked[] = [];
  for (const laid of film) {
    const { layout, rows } = laid;
    const dates = layout.plans.find(({ fields }) => fields.includes('date'))?.column ?? -1;
    for (const { column, head, fields, below } of layout.plans) {
      const [field] = fields;
      if (fields.length !== 1 || field === undefined || !HOLD_ON.includes(field) || below !== null) continue;
      const completes = field === YEAR || field === MONTH;
      if (questions.some(({ of }) => of === head) || ways.columns.get(head)?.below !== undefined) continue;
      let above = false;
      const gap = rows.find(({ cells }) => {
        const text = (at: number): string | undefined => cells.find((cell) => cell.column === at)?.value;
        const empty = (text(column) ?? '').trim() === '';
        if (!empty) above = true;
        return empty && above && (completes ? (text(dates) ?? '').trim() !== '' : isPageRow(layout.plans, text));
      });
      if (gap === undefined) continue;
      questions.push(
        asked(
          'below',
          head,
          `The column "${head}" is empty for a ${completes ? 'day' : 'page'} in ${where(laid, gap.row)}. Does what stands above hold there too?`,
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
  const marks = film.flatMap((laid) =>
    laid.rows.flatMap(({ row, cells }) =>
      cells
        .filter(({ column, kind, value }) => kind === 'text' && isDitto(value) && (laid.layout.plans[column]?.fields.length ?? 0) > 0)
        .map(({ value }) => ({ text: value.trim(), laid, row })),
    ),
  );
  const [first, ...others] = firsts(marks, ({ text }) => wordKey(text));
  if (first === undefined) return [];
  const also = others.map(({ text, laid, row }) => `, ${text} in ${where(laid, row)}`).join('');
  return [
    asked('ditto', first.text, `Does ${first.text} in ${where(first.laid, first.row)}${also} mean "as the cell above"?`, {
      choices: ['as above', 'as written'],
      proposed: 'as above',
      sure: true,
    }),
  ];
}

/** Columns whose words are few and ours. */
const WORDS = [
  'kind',
  'duplicate of',
  'retake of',
  'deliver',
  'published',
  'supplement',
  PAGES_WANTING,
  'edition',
  'position',
  'date printed judged',
] as const;

function askedOfWords(all: readonly Laid[], ways: Ways): readonly Asked[] {
  return WORDS.flatMap((field) => {
    const texts = all
      .flatMap((laid) =>
        [...textsOf(laid, field), ...(field === 'edition' ? editionsBesideDays(laid) : [])].map((one) => ({ ...one, laid })),
      )
      .filter(({ cell, text }) => cell.kind === 'text' && !isDitto(text));
    return firsts(texts, ({ text }) => wordKey(text)).flatMap(({ text, row, laid }) => {
      if (ways.words.get(field)?.has(wordKey(text)) === true) return [];
      const question = askedOfWord(field, text, where(laid, row));
      return question === null ? [] : [question];
    });
  });
}

/** Names of editions that stand in the cells of days. */
function editionsBesideDays(laid: Laid): ReturnType<typeof textsOf> {
  return textsOf(laid, 'date').flatMap((one) => {
    const { edition } = daySplit(one.text);
    return edition === null || !isDayText(one.text) ? [] : [{ ...one, text: edition }];
  });
}

/** An issue with a first and a last frame, of which nobody has written what it shows. */
function askedOfNoPages(film: readonly Laid[], ways: Ways): readonly Asked[] {
  if (ways.noPages !== null) return [];
  for (const laid of film) {
    if (laid.layout.use !== 'issues') continue;
    const { plans } = laid.layout;
    const bare = laid.rows.find(({ cells }) => {
      const text = (field: string): string =>
        cells.find(({ column, value }) => plans[column]?.fields.includes(field) === true && value.trim() !== '')?.value.trim() ?? '';
      return (
        text('pages') === '' &&
        text('date') !== '' &&
        (frameRange(text('first frame')) !== null || (text('first frame') !== '' && text(LAST_FRAME) !== ''))
      );
    });
    if (bare !== undefined)
      return [
        asked(
          'noPages',
          'pages',
          `In ${where(laid, bare.row)} an issue has a first and a last frame, and no pages. Is each of its frames a page, numbered from 1?`,
          {
            choices: ['a page each', 'not known'],
            proposed: null,
          },
        ),
      ];
  }
  return [];
}
