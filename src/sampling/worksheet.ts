import { createHash } from 'node:crypto';
import type { ResultTitle } from '../model/findings.js';
import type { SavedDraw } from '../model/sample.js';
import type { ExpectedPage, Worksheet, WorksheetLot, WorksheetUnit } from '../model/worksheet.js';
import type { Lot, LotPage } from './lots.js';
import { operatingCurve } from './operating-curve.js';
import { questions } from './questions.js';
import { planInWords } from './words.js';

/** What tells one draw from another where a row has no room for seed and list: the first 16 digits of the SHA-256 of both, with a line feed between. */
export function drawCode({ seed, listSha256 }: Pick<SavedDraw, 'seed' | 'listSha256'>): string {
  return createHash('sha256').update(`${seed}\n${listSha256}`, 'utf8').digest('hex').slice(0, 16);
}

/** The worksheet of the draws of one throw, from these lots in their order. It is in the order of the film, so that whoever looks goes through each reel once. */
export function worksheetOf(draws: readonly { readonly draw: SavedDraw; readonly lot: Lot }[], titles: readonly ResultTitle[]): Worksheet {
  const names = new Map(titles.map(({ id, name }) => [id, name] as const));
  const [first] = draws;
  if (first === undefined) throw new RangeError('a worksheet without a draw');
  const { batch, delivery, unit } = first.draw;
  return { batch, delivery, unit, questions: questions[unit], lots: draws.map(({ draw, lot }) => lotOf(draw, lot, names)) };
}

function lotOf(draw: SavedDraw, lot: Lot, names: ReadonlyMap<string, string>): WorksheetLot {
  const unitOf = (number: number, id: string, random: boolean, reasons: readonly string[]): WorksheetUnit => ({
    number,
    id,
    random,
    reasons,
    pages: (lot.pages[number - 1] ?? []).map((page) => expected(page, names)),
  });
  const inFilmOrder = draw.drawn.toSorted((a, b) => a.number - b.number);
  return {
    code: drawCode(draw),
    seed: draw.seed,
    listSha256: draw.listSha256,
    lot: draw.lot,
    plan: planInWords(draw.plan, draw.unit),
    curve: operatingCurve(draw.plan),
    units: [
      ...inFilmOrder.map(({ number, id }) => unitOf(number, id, true, [])),
      ...draw.extras.map(({ number, id, reasons }) => unitOf(number, id, false, reasons)),
    ],
  };
}

function expected({ reel, frame }: LotPage, names: ReadonlyMap<string, string>): ExpectedPage {
  const { returned, date, edition, section, page, order, condition, files } = frame;
  const title = frame.title ?? '';
  return {
    reel,
    frame: frame.frame,
    returned,
    title,
    titleName: names.get(title) ?? '',
    date,
    edition,
    section,
    page,
    order,
    condition,
    files,
  };
}
