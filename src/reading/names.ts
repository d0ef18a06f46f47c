import { FRAME_COLUMNS } from '../normalise/frame-sheet.js';
import { ISSUE_COLUMNS } from '../normalise/issue-sheet.js';
import { REEL_COLUMNS, TITLE_COLUMNS } from '../normalise/record-titles.js';
import { headerKey } from '../normalise/sheet-row.js';
import { WEEKDAY_COLUMN } from '../normalise/weekday-column.js';

/** Our name, in a reading file alone, of a column that lists the pages of an issue that are not on the film. */
export const PAGES_WANTING = 'pages wanting';

/** What a sheet of a record can hold. */
export type SheetUse = 'frames' | 'issues' | 'titles' | 'reels';

const COLUMNS: Readonly<Record<SheetUse, readonly string[]>> = {
  frames: [...FRAME_COLUMNS, WEEKDAY_COLUMN],
  issues: [...ISSUE_COLUMNS, WEEKDAY_COLUMN],
  titles: [...TITLE_COLUMNS, 'title'],
  reels: [...REEL_COLUMNS, 'reel'],
};

/** Columns that only a reading file can give a sheet: the record says the same in another way. */
const READ_ONLY: Readonly<Record<SheetUse, readonly string[]>> = { frames: [], issues: [PAGES_WANTING], titles: [], reels: [] };

const OURS: ReadonlyMap<string, string> = new Map(Object.values(COLUMNS).flatMap((names) => names.map((name) => [headerKey(name), name])));

/** Our column of that name, whatever its case, spaces, `_` and `-`; null for a head of the library's own. */
export function ourColumn(head: string): string | null {
  return OURS.get(headerKey(head)) ?? null;
}

/** Every column that a sheet of such a use can have. */
export function columnsOf(use: SheetUse): readonly string[] {
  return [...COLUMNS[use], ...READ_ONLY[use]];
}

/** Heads that people write for our columns: common practice, no source. A head is compared without case, spaces and signs. */
const USUAL: readonly (readonly [field: string, heads: string])[] = [
  [
    'frame',
    'frame no, frame number, frame nr, fr, exposure, exposure no, exposure number, exp, exp no, image, image no, image number, shot, Bild, Bildnummer, Aufnahme, vue',
  ],
  [
    'first frame',
    'start frame, starting frame, from frame, frame start, begins at, begins at frame, 1st frame, first exposure, first image, start image, start exposure, erstes Bild, Bild ab, ab Bild, Bild von, Aufnahme ab, erste Aufnahme, première vue, 1re vue, vue début, vue de début',
  ],
  ['reel', 'reel no, reel number, reel nr, roll, roll no, roll number, film, film no, film number, Rolle, Filmrolle, bobine'],
  ['title', 'paper, newspaper, publication, title of paper, newspaper title, Zeitung, Titel, journal, titre'],
  [
    'date',
    'issue date, date of issue, date real, date correct, date intended, date true, date actual, publication date, date of publication, day of issue, real date, correct date, actual date, true date, intended date, day, Datum, Erscheinungstag, Erscheinungsdatum, Tag, date de parution, jour de parution, parution',
  ],
  [
    'date printed',
    'printed date, date as printed, date on paper, masthead date, nameplate date, date given, gedrucktes Datum, Datum gedruckt, Datum laut Druck, date imprimée',
  ],
  ['weekday printed', 'printed weekday, weekday, week day, day of week, day of the week, dow, Wochentag, jour'],
  ['edition', 'ed, edn, edition no, edition number, Ausgabe, édition'],
  ['edition label', 'edition name, edition printed, edition as printed'],
  ['volume', 'vol, vol no, volume no, volume number, Jahrgang, Jg, Band, tome, année'],
  ['issue number', 'no, issue, issue no, number of issue, iss, iss no, issue nr, whole no, Nummer, Nr, Heft, Heftnummer, numéro'],
  [
    'volume, issue number',
    'vol no, vol & no, vol and no, vol issue, volume issue, volume number issue, volume and number, volume and issue, vol iss, vol nr, Jg Nr, Jahrgang Nr, Jahrgang Nummer, Jg Nummer, Jahrgang und Nummer, Bd Nr, Band Nr, tome no, tome numéro, année numéro, année no, vol numéro',
  ],
  ['section', 'sect, sec'],
  ['page', 'p, pg, page no, page number, page label, label, Seite, folio'],
  ['page printed', 'printed page, page as printed, page on paper, printed as, gedruckte Seite, Seite gedruckt, page imprimée'],
  [
    'pages',
    'pp, pgs, page list, pages filmed, pages on film, page range, no of pages, number of pages, page count, Seiten, Seitenzahl, Anzahl Seiten, nombre de pages, nb de pages, nb pages',
  ],
  [
    'pages wanting',
    'missing pages, missing, pages missing, wanting pages, pages lacking, lacking, pages not on film, fehlende Seiten, Seiten fehlen, fehlt, pages manquantes, manque',
  ],
  ['kind', 'type, frame type, kind of frame, what, frame content, content, contents, Art, Inhalt, contenu'],
  ['deliver', 'delivered, to deliver, deliver to us, scan, in scope, use'],
  ['duplicate of', 'dup of, duplicate, dup, duplicates, dupl of'],
  ['retake of', 'retake, refilm of, retakes'],
  ['condition', 'damage, defect, defects, state, Zustand, Schaden, Schäden, état'],
  ['supplement', 'suppl, supp'],
  ['order', 'logical order, sequence in issue, page order'],
  ['published', 'was published'],
  ['note', 'notes, remark, remarks, comment, comments, observations, Bemerkung, Bemerkungen, Anmerkung, Anmerkungen, remarque, remarques'],
  ['id', 'lccn, identifier, title id'],
  ['name', 'title name, full title'],
  ['number', 'reel'],
  ['polarity', 'pos neg, positive negative'],
  ['position', 'image position, orientation'],
  ['reduction', 'reduction ratio, ratio'],
  ['film base', 'base'],
  ['box label', 'box, label on box'],
];

const BY_HEAD: ReadonlyMap<string, readonly string[]> = (() => {
  const found = new Map<string, string[]>();
  for (const [field, heads] of USUAL)
    for (const head of heads.split(',')) found.set(signless(head), [...(found.get(signless(head)) ?? []), field]);
  return found;
})();

/** Our own names beside other signs: `Frame #`, `Deliver?`. */
const SIGNLESS: ReadonlyMap<string, string> = new Map(
  Object.values(COLUMNS).flatMap((names) => names.map((name) => [signless(name), name] as const)),
);

/** What a head of the library's own probably means in a sheet of such a use; null where nothing is usual. */
export function usualMeaning(head: string, use: SheetUse): string | null {
  const key = signless(head);
  const ours = SIGNLESS.get(key);
  const fields = [...(ours === undefined ? [] : [ours]), ...(BY_HEAD.get(key) ?? [])].filter((field) =>
    field.split(', ').every((one) => columnsOf(use).includes(one)),
  );
  // `Vol./No.` joins two facts; `Vol. No.` is the number of the volume.
  const joined = /[/&+]| and | und /i.test(head);
  return fields.find((field) => field.includes(', ') === joined) ?? fields[0] ?? null;
}

function signless(head: string): string {
  return head
    .toLowerCase()
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '');
}
