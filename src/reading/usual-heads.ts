import { headerKey } from '../normalise/sheet-row.js';
import { columnsOf, namesOfAll, type SheetUse } from './names.js';

/** Heads that people write for our columns: common practice, no source. A head is compared without case, spaces and signs. */
const USUAL: readonly (readonly [field: string, heads: string])[] = [
  [
    'frame',
    'frames, frame no, fr, exposure, exposures, exp, image, images, img, shot, number, no, Bild, Bilder, Aufnahme, Aufnahmen, Aufn, Nummer, Nr, vue, vues, cliché, clichés, numéro',
  ],
  [
    'first frame',
    'frames, exposures, images, Bilder, Aufnahmen, vues, clichés, frame, frame no, fr, exposure, exp, image, img, shot, Bild, Aufnahme, Aufn, vue, cliché, number, no, Nummer, Nr, numéro, begins at, begins at frame, frame range, Bildbereich, from, von, ab, de, start',
  ],
  ['last frame', 'ends at, ends at frame, to, bis, à, au, end, until, Ende, fin'],
  ['reel', 'roll, film, Rolle, Rollen, Filmrolle, Filmrollen, Spule, Spulen, bobine, film reel, reel of film, microfilm'],
  [
    'title',
    'paper, newspaper, publication, title of paper, newspaper title, Zeitung, Zeitungstitel, Titel, journal, titre, titre du journal',
  ],
  [
    'date',
    'issue date, date of issue, date real, date correct, date intended, date true, date actual, publication date, date of publication, day of issue, day of publication, real date, correct date, actual date, true date, intended date, day, published, Datum, Erscheinungstag, Erscheinungsdatum, Ausgabedatum, Ausgabetag, Tag, Erschienen, date de parution, date de publication, date du numéro, jour de parution, jour, parution, paru le, erschienen am, published on',
  ],
  ['year', 'year of issue, Jahr, Erscheinungsjahr, année, an'],
  ['month', 'month of issue, Monat, mois'],
  [
    'date printed',
    'printed date, date as printed, date on paper, masthead date, nameplate date, masthead, nameplate, Zeitungskopf, date given, gedrucktes Datum, Datum gedruckt, Datum laut Druck, Datum auf dem Blatt, date imprimée',
  ],
  [
    'weekday printed',
    'printed weekday, weekday, week day, day of week, day of the week, dow, day, Wochentag, Tag, jour, jour de la semaine',
  ],
  ['edition', 'ed, edn, Ausgabe, Ausg, édition'],
  ['edition label', 'edition name, edition printed, edition as printed, Name der Ausgabe, nom de l’édition'],
  ['volume', 'vol, vol no, volume no, volume number, Jahrgang, Jg, Jahrg, Band, Bd, tome, année'],
  [
    'issue number',
    'no, issue, number, number of issue, iss, whole, Nummer, Nr, Heft, Ausgabe, Ausg, Folge, Stück, numéro, parution, numéro de parution, livraison',
  ],
  [
    'volume, issue number',
    'vol no, vol & no, vol and no, vol issue, volume issue, volume number issue, volume and number, volume and issue, vol iss, vol nr, Jg Nr, Jahrgang Nr, Jahrgang Nummer, Jg Nummer, Jahrgang und Nummer, Bd Nr, Band Nr, tome no, tome numéro, année numéro, année no, vol numéro',
  ],
  ['section', 'sect, sec, Sektion, Teil, cahier'],
  ['page', 'p, pg, page label, page printed, label, Seite, S, Blatt, Bl, folio, feuille, feuillet, page cotée'],
  [
    'page printed',
    'as printed, printed page, page as printed, page on paper, printed as, gedruckte Seite, Seite gedruckt, Seite laut Druck, page imprimée, page cotée',
  ],
  [
    'pages',
    'page, pp, pgs, page list, pages filmed, pages on film, pages published, published pages, pages issued, Seiten erschienen, erschienene Seiten, pages parues, pages publiées, page range, no of pages, number of pages, page count, extent, Seite, Seiten, S, Blatt, Blätter, Seitenzahl, Anzahl Seiten, Umfang, nombre de pages, nb de pages, nb pages, pages cotées, pagination',
  ],
  [
    'pages wanting',
    'missing pages, missing, pages missing, wanting pages, pages lacking, lacking, pages not on film, fehlende Seiten, Seiten fehlen, fehlt, pages manquantes, manque',
  ],
  [
    'pages held back',
    'held back, withheld, pages withheld, suppressed pages, pages suppressed, suppressed, zurückgehalten, zurückgehaltene Seiten, Seiten zurückgehalten, retenues, pages retenues',
  ],
  [
    'kind',
    'type, frame type, image type, type of image, type of frame, kind of frame, Art der Aufnahme, type de vue, what, was, frame content, content, contents, Art, Inhalt, contenu, quoi, nature',
  ],
  [
    'deliver',
    'delivered, to deliver, delivery, deliver to us, scan, in scope, use, Lieferung, liefern, Liefern, ausliefern, livraison, à livrer, livrer',
  ],
  [
    'duplicate of',
    'dup of, duplicate, dup, duplicates, dupl of, Dublette von, Doppel von, Dublette, Dubl von, doublon de, double de, doublon, Duplikat von, Duplikat',
  ],
  ['retake of', 'retake, refilm of, retakes, Neuaufnahme von, Neuaufnahme, Wiederholung von, reprise de, reprise'],
  ['condition', 'cond, damage, defect, defects, state, Zustand, Schaden, Schäden, état, dommages'],
  ['supplement', 'suppl, supp, Beilage, Beil, Supplement, supplément'],
  ['order', 'logical order, sequence in issue, page order'],
  ['published', 'was published, erschienen, paru, publié'],
  [
    'title printed',
    'printed title, title as printed, title on paper, masthead, masthead title, nameplate, Zeitungskopf, Titel gedruckt, titre imprimé',
  ],
  [
    'note',
    'notes, remark, remarks, comment, comments, observations, Bemerkung, Bemerkungen, Anmerkung, Anmerkungen, Anm, Bem, Notiz, Notizen, remarque, remarques, rem',
  ],
  ['id', 'lccn, identifier, title id'],
  ['name', 'title name, full title'],
  ['number', 'reel, roll, film, Rolle, Rollen, Filmrolle, Filmrollen, bobine'],
  ['polarity', 'pos neg, positive negative'],
  ['position', 'image position, orientation'],
  ['reduction', 'reduction ratio, ratio'],
  ['film base', 'base'],
  ['box label', 'box, label on box'],
];

/** Words for a frame, and what people write around one of them for the first and the last frame of an issue. */
const FRAME_WORDS =
  'frame frames fr exposure exposures exp image images img shot Bild Bilder Aufnahme Aufnahmen Aufn vue vues cliché clichés'.split(' ');
const ENDS: readonly (readonly [field: string, around: string])[] = [
  [
    'first frame',
    '* from, from *, * start, start *, starting *, * begin, first *, 1st *, * first, * ab, ab *, * von, von *, erste *, erstes *, * Anfang, * Beginn, première *, premier *, 1re *, * début, * de début, * de départ, * initiale, * de, de la *',
  ],
  [
    'last frame',
    '* to, to *, * end, end *, ending *, final *, last *, * last, * bis, bis *, letzte *, letztes *, * Ende, dernière *, dernier *, * fin, * de fin, * finale, * à, à la *, * au',
  ],
];

/** Words that say no more than that a column holds numbers: `Bildnr.`, `Frame #`, `N° de vue`. */
const NUMBER_BEHIND = /(?<=..)(?:nummer|nummern|number|numbers|numero|numeros|num|nrn|nr|nos|no)$/;
const NUMBER_IN_FRONT = /^(?:numberof|numerode|numero|nummerder|nummer|nrder|nr|node|noof|no)(?=..)/;
/** What people add in brackets or behind a head to say how its cells are filled in. */
const HOW =
  /\s*[([]?\s*(?:yes\s*\/\s*no|y\s*\/\s*n|ja\s*\/\s*nein|j\s*\/\s*n|oui\s*\/\s*non|o\s*\/\s*n|[jydmt]{1,4}[-/. ][jydmt]{1,4}[-/. ][jyadmt]{1,4})\s*[)\]]?\s*$/i;
/** Endings in brackets that leave both the one and the many: `Page(s)`, `Seite(n)`. */
const ONE_OR_MANY = /\((s|n|en|er|e)\)/i;

/** Words that say by which calendar days are written: common practice, no source. */
const JULIAN =
  /julianisch(?:er)?(?: kalender)?|julian(?: calendar)?|(?:calendrier )?julien|old style|alte[rn]? stil|vieux style|(?<!\p{L})(?:o\.? ?s\.?|a\.? ?st\.?|v\.? ?s\.?)(?!\p{L})/iu;
const GREGORIAN =
  /gregorianisch(?:er)?(?: kalender)?|gregorian(?: calendar)?|(?:calendrier )?grégorien|new style|neue[rn]? stil|nouveau style|(?<!\p{L})(?:n\.? ?s\.?|n\.? ?st\.?)(?!\p{L})/iu;

/** Words for what is not to be delivered: common practice, no source. A column of that name says the reverse of ours, so that it is asked about and never taken. */
const HOLDING_BACK =
  /h[eo]ld[ -]?back|withh[eo]ld|suppress|do not (?:deliver|scan)|zurück(?:ge)?halten|nicht liefern|retenir|retenue?s?|ne pas livrer/i;

/** True for a head that speaks of frames that are held back. */
export function saysHeldBack(head: string): boolean {
  return HOLDING_BACK.test(head);
}

/** True for a head that says that the days below it are of the Julian calendar. */
export function saysJulian(head: string): boolean {
  return JULIAN.test(head);
}

/** Words that stand in heads of all kinds, and so speak for no column of ours when others stand beside them. */
const WEAK: ReadonlySet<string> = new Set(
  'what was use base box state paper content contents label art p s pp exp ed use scan shot an sec bl day number no nr journal delivery whole from to code missing number of in on'.split(
    ' ',
  ),
);

/** Our columns that a head may mean, joined ones as `volume, issue number`. `whole`: the head is usual for them as it stands, and not by one of its words alone. */
export interface HeadMeanings {
  readonly fields: readonly string[];
  readonly whole: boolean;
}

const BY_HEAD: ReadonlyMap<string, readonly string[]> = (() => {
  const found = new Map<string, string[]>();
  const put = (head: string, field: string): void => {
    const key = signless(head);
    const fields = found.get(key) ?? [];
    if (!fields.includes(field)) found.set(key, [...fields, field]);
  };
  for (const name of namesOfAll()) put(name, name);
  for (const [field, heads] of USUAL) for (const head of heads.split(',')) put(head, field);
  for (const [field, heads] of ENDS)
    for (const head of heads.split(',')) for (const word of FRAME_WORDS) put(head.replace('*', word), field);
  return found;
})();

/** What a head of the library's own may mean in a sheet of such a use. */
export function headMeanings(head: string, use: SheetUse): HeadMeanings {
  const plain = head.replace(HOW, '').replace(JULIAN, '').replace(GREGORIAN, '');
  const has = (field: string): boolean => field.split(', ').every((one) => columnsOf(use).includes(one));
  const of = (text: string): readonly string[] => wholeMeanings(text).filter(has);
  const whole = ONE_OR_MANY.test(plain)
    ? [...new Set([...of(plain.replace(ONE_OR_MANY, '')), ...of(plain.replace(ONE_OR_MANY, '$1'))])]
    : of(plain);
  // `Vol./No.` joins two facts; `Vol. No.` is the number of the volume.
  const joined = /[/&+,]| and | und | et /i.test(plain);
  const fitting = whole.filter((field) => field.includes(', ') === joined);
  if (whole.length > 0) return { fields: fitting.length > 0 ? fitting : whole, whole: true };
  const words = plain.split(/[^\p{L}\p{N}°]+/u).filter((word) => word !== '' && !WEAK.has(signless(word)));
  const told = words.flatMap((word) => of(word));
  // Remarks about whatever are remarks.
  return { fields: told.includes('note') ? ['note'] : [...new Set(told)], whole: told.includes('note') };
}

function wholeMeanings(head: string): readonly string[] {
  const key = signless(head);
  const bare = key.replace(NUMBER_BEHIND, '');
  const behind = key.replace(NUMBER_IN_FRONT, '');
  return BY_HEAD.get(key) ?? (bare === key ? undefined : BY_HEAD.get(bare)) ?? (behind === key ? undefined : BY_HEAD.get(behind)) ?? [];
}

/** A head without case, accents and signs; `N°` is `no`. */
function signless(head: string): string {
  return headerKey(head)
    .replace(/n[°º]/g, 'no')
    .replace(/[#№]/g, 'no')
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]+/gu, '');
}
