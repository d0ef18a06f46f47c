import { saysNoPages } from '../../normalise/issue-sheet.js';
import { quoted } from '../../normalise/sheet-row.js';
import type { Doubt } from '../doubts.js';
import { PAGES_WANTING } from '../names.js';
import { pagesTold } from '../pages-told.js';
import { pagesNamed } from '../phrases.js';
import { addCondition, has, makeAbsent, type ReadRow, valueOf } from '../read-row.js';
import type { Ways } from '../ways.js';
import { readPagesCell } from './cell.js';
import { type Gone, type Listed, NOTHING, type PagesFacts, type PagesReading } from './facts.js';
import { framesUntilNext, usualCounts } from './usual.js';
import { meaningOf } from './words.js';

/** Takes what is to be said of the pages of a row. */
export interface PagesNotes {
  readonly remark: (row: number, held: string, says: string) => void;
  readonly complain: (row: number, held: string, says: string) => void;
  readonly doubt: (doubt: Doubt) => void;
}

/** What a row says in all of its cells of the pages of its issue. */
interface Told {
  readonly row: ReadRow;
  readonly cell: string;
  readonly reading: PagesReading;
  /** Pages that another cell of the row has as not on the film, with its words. */
  readonly elsewhere: readonly (Gone & { readonly words: string })[];
  /** What another cell says of the issue as a whole. */
  readonly whole: { readonly published: 'yes' | 'no'; readonly words: string } | null;
}

const ASK = 'Run "reeltally collation read" with the file, which asks once, or write the pages in the notation, such as 1-3,[4].';

/** The rows of an issue sheet with their pages in the notation: what the cell says in words, and what notes and the column of missing pages say of them. Rows that cannot be read are complained of and left out. */
export function withIssuePages(rows: readonly ReadRow[], ways: Ways, notes: PagesNotes): readonly ReadRow[] {
  const told = rows.map((row) => toldIn(row, ways, notes));
  const usual = usualCounts(
    told.map(({ row, reading, elsewhere, whole }) => ({
      row,
      facts: elsewhere.length > 0 || whole !== null || reading.is !== 'facts' ? null : reading.facts,
    })),
  );
  const read = told.flatMap((one, at) => {
    const frames = framesUntilNext(rows, at);
    const evidence: Evidence = { frames, usual: usual.get(valueOf(one.row, 'title')) ?? new Set(), says: ways.pages };
    return settle(one, evidence, notes) ? [one.row] : [];
  });
  for (const row of read) heldBack(row);
  return read;
}

function toldIn(row: ReadRow, ways: Ways, notes: PagesNotes): Told {
  const cell = valueOf(row, 'pages').trim();
  const stated = row.stated.flatMap(({ fact, pages, words, alone }) =>
    fact.is === 'absent' ? [{ published: fact.published, pages, words, alone }] : [],
  );
  const listed = missingIn(row, ways, notes);
  const whole = stated.find(({ pages, alone }) => pages.length === 0 && alone) ?? listed.whole;
  return {
    row,
    cell,
    reading: cell === '' ? { is: 'facts', facts: NOTHING, literal: true } : readPagesCell(cell, ways),
    elsewhere: [
      ...listed.pages.map((page) => ({ page, mark: '' as const, words: 'wanting' })),
      ...stated.flatMap(({ pages, published, words }) =>
        pages.map((page) => ({ page, mark: published === 'no' ? ('-' as const) : ('' as const), words })),
      ),
    ],
    whole: whole ?? null,
  };
}

/** What people write where no page is wanting: common practice, no source. */
const NONE = /^(?:none|nil|no|n\/?a|0|keine|nein|nichts|vollständig|komplett|aucune?|non|néant|rien|complet|complete|[-\u2013\u2014])$/i;

/** The pages in a column of those that are not on the film; what names none goes on as a note. */
function missingIn(row: ReadRow, ways: Ways, { remark }: PagesNotes): { readonly pages: readonly string[]; readonly whole: Told['whole'] } {
  const text = valueOf(row, PAGES_WANTING).trim();
  row.facts.delete(PAGES_WANTING);
  row.typed.delete(PAGES_WANTING);
  if (text === '' || NONE.test(text)) return { pages: [], whole: null };
  if (meaningOf(text, ways)?.is === 'all') return { pages: [], whole: { published: 'yes', words: text } };
  const pages = pagesNamed(text);
  if (pages.length === 0) {
    addNote(row, `${PAGES_WANTING}: ${text}`);
    remark(row.row.row, quoted(text), 'names no page that is wanting; it is kept as a note.');
  }
  return { pages, whole: null };
}

/** What shows whether a cell tells of the pages that were published or of those that were filmed. */
interface Evidence {
  readonly frames: number | null;
  readonly usual: ReadonlySet<number>;
  readonly says: Ways['pages'];
}

/** Writes the pages of a row in the notation; false where they cannot be read, which was then said. */
function settle(told: Told, evidence: Evidence, notes: PagesNotes): boolean {
  const { row, cell, reading } = told;
  const at = row.row.row;
  if (reading.is === 'unsettled') notes.doubt({ about: 'phrases', of: reading.phrase, row: at, text: cell });
  // That goes on as it stands.
  if (reading.is === 'slip' || (reading.is !== 'facts' && saysNoPages(cell))) return true;
  if (reading.is === 'fault') notes.complain(at, quoted(cell), reading.says);
  if (reading.is === 'unknown') {
    notes.doubt({ about: 'words', of: reading.words, row: at, text: cell });
    notes.complain(at, quoted(cell), `holds words of which it is not known what they say about the pages. ${ASK}`);
  }
  if (reading.is === 'unsettled')
    notes.complain(
      at,
      quoted(cell),
      `says that something is not on the film, and the reading file does not say whether that is a fact. ${ASK}`,
    );
  if (reading.is !== 'facts') return false;
  for (const text of reading.facts.damage) addCondition(row, text);
  for (const text of reading.facts.notes) addNote(row, text);
  const whole = reading.facts.whole ?? wholeElsewhere(told, reading.facts, evidence, notes);
  if (whole === 'open') return false;
  if (whole !== null) {
    if (cell !== '') notes.remark(at, quoted(cell), 'is read as no pages: the issue is not on the film.');
    makeAbsent(row, 'issues', whole);
    return true;
  }
  return writePages(told, reading.facts, reading.literal, evidence, notes);
}

/** Whether the issue is not on the film because another cell says so beside pages; open where it is to be asked, null where it is on the film. */
function wholeElsewhere(
  { row, cell, whole }: Told,
  facts: PagesFacts,
  { frames, says }: Evidence,
  notes: PagesNotes,
): 'yes' | 'no' | 'open' | null {
  if (whole === null || row.facts.has('published')) return null;
  if (!has(row, 'first frame') && cell === '') return whole.published;
  const shown = framesOf(facts.listed);
  if (frames === 0) return whole.published;
  const filmed = (frames !== null && frames === shown) || says === 'filmed';
  if (filmed) {
    notes.remark(row.row.row, quoted(whole.words), 'is said of an issue whose pages the sheet has on the film; the note stays a note.');
    return null;
  }
  if (says === 'published') return whole.published;
  open(row, cell, notes);
  return 'open';
}

function open(row: ReadRow, cell: string, notes: PagesNotes): void {
  notes.doubt({ about: 'pages', of: 'pages', row: row.row.row, text: cell });
  notes.complain(
    row.row.row,
    quoted(cell),
    `stands beside pages that are said to be not on the film, and it cannot be told whether those are among them. ${ASK}`,
  );
}

/** The pages as labels around those that are not on the film. */
function writePages(told: Told, facts: PagesFacts, literal: boolean, evidence: Evidence, notes: PagesNotes): boolean {
  const { row, cell, elsewhere } = told;
  const gone = new Map([...elsewhere, ...facts.gone].map((one) => [one.page, one]));
  if (literal && elsewhere.length === 0) return true;
  if (cell === '' && !(has(row, 'date') && gone.size > 0)) return true;
  const counted = facts.listed.find((one) => one.is === 'count');
  const found =
    counted?.is === 'count'
      ? ofCount(told, counted.count, facts, gone, evidence, notes)
      : facts.all || (facts.listed.length === 0 && (has(row, 'first frame') || facts.gone.length > 0))
        ? ofAll(told, gone, evidence, notes)
        : ofList(told, facts, gone, evidence, notes);
  if (found === null) return false;
  const brackets = [...found.gone].map(({ page, mark }) => `[${page}${mark}]`);
  const text = [...found.listed, ...brackets].join(',');
  row.typed.delete('pages');
  row.facts.set('pages', text);
  if (text !== cell && !found.plain) notes.remark(row.row.row, quoted(cell), `is read as ${text}${found.why}.`);
  return true;
}

/** Pages as they are written, what is not on the film, and what showed it. */
interface Written {
  readonly listed: readonly string[];
  readonly gone: Iterable<Gone>;
  readonly why: string;
  /** Nothing was read otherwise than it stands there. */
  readonly plain: boolean;
}

const WHY = {
  frames: ': so many frames lie before the next row',
  usual: ': so many pages are usual for the title',
  said: ', as the reading file says of the column',
} as const;

/** Which of two readings of a row is so, and what shows it; null where nothing does. */
function decided(
  { frames, usual, says }: Evidence,
  shots: { readonly published: number; readonly filmed: number },
  totals: { readonly published: number; readonly filmed: number },
): { readonly as: 'published' | 'filmed'; readonly why: string } | null {
  if (frames !== null && frames === shots.published) return { as: 'published', why: WHY.frames };
  if (frames !== null && frames === shots.filmed) return { as: 'filmed', why: WHY.frames };
  const [published, filmed] = [usual.has(totals.published), usual.has(totals.filmed)];
  if (published !== filmed) return { as: published ? 'published' : 'filmed', why: WHY.usual };
  return says === null ? null : { as: says, why: WHY.said };
}

function ofCount(
  told: Told,
  count: number,
  { listed }: PagesFacts,
  gone: ReadonlyMap<string, Gone>,
  evidence: Evidence,
  notes: PagesNotes,
): Written | null {
  const write = (labels: readonly number[]): readonly string[] =>
    listed.flatMap((one) => (one.is === 'count' ? inRanges(labels) : [one.text]));
  const numbers = [...gone.keys()].map(Number);
  const others = framesOf(listed) - count;
  if (numbers.some((number) => !Number.isInteger(number))) {
    notes.complain(
      told.row.row.row,
      quoted(told.cell),
      `is a number of pages, and pages of sections are said to be not on the film; write the labels, such as A1-A3,[A4].`,
    );
    return null;
  }
  const plain = gone.size === 0 && /^\d+$/.test(told.cell);
  if (gone.size === 0) return { listed: write(labelsAround(count, gone)), gone: [], why: '', plain };
  const filmed = { as: 'filmed', why: '' } as const;
  // A page behind the last of so many is none of them.
  const how = numbers.some((number) => number > count)
    ? filmed
    : decided(evidence, { published: count - gone.size + others, filmed: count + others }, { published: count, filmed: count + gone.size });
  if (how === null) {
    open(told.row, told.cell, notes);
    return null;
  }
  const labels = labelsAround(how.as === 'published' ? count - gone.size : count, gone);
  return { listed: write(labels), gone: gone.values(), why: how.why, plain };
}

/** More pages than a newspaper has lie between rows that do not follow each other. */
const MOST_PAGES = 200;

/** All pages but those that are not on the film, where the cell does not say how many there are. */
function ofAll(told: Told, gone: ReadonlyMap<string, Gone>, { frames, usual }: Evidence, notes: PagesNotes): Written | null {
  const { row, cell, reading } = told;
  const listed = reading.is === 'facts' ? reading.facts.listed : [];
  const filmed = frames === null ? null : frames - framesOf(listed);
  const [only] = usual;
  const total = filmed !== null && filmed > 0 && filmed <= MOST_PAGES ? filmed + gone.size : usual.size === 1 ? (only ?? 0) : 0;
  const fits = total > 0 && (usual.size === 0 || usual.has(total)) && [...gone.keys()].every((page) => Number(page) <= total);
  if (!fits) {
    const says = gone.size === 0 ? 'does not say how many pages there are' : 'says what is not on the film, but not what is';
    notes.complain(
      row.row.row,
      quoted(cell === '' ? [...gone.keys()].join(', ') : cell),
      `${says}, and neither the next row nor the usual number of pages of the title shows it; list the pages, such as 1-3,[4].`,
    );
    return null;
  }
  const labels = inRanges(labelsAround(total - gone.size, gone));
  return {
    listed: [...labels, ...textsOf(listed)],
    gone: gone.values(),
    why: filmed === null || filmed <= 0 ? WHY.usual : WHY.frames,
    plain: false,
  };
}

/** What the cell lists, without what it says itself is not on the film, and without what another cell says so where the cell tells what was published. */
function ofList(
  told: Told,
  { listed, gone: own }: PagesFacts,
  gone: ReadonlyMap<string, Gone>,
  evidence: Evidence,
  notes: PagesNotes,
): Written | null {
  const { row, cell, reading, elsewhere } = told;
  const labels = new Set(listed.flatMap((one) => (one.is === 'shots' ? one.labels : [])));
  const inCell = new Set(own.map(({ page }) => page));
  const both = elsewhere.filter(({ page }) => labels.has(page) && !inCell.has(page));
  const shown = framesOf(listed) - [...inCell].filter((page) => labels.has(page)).length;
  const missing = new Set(both.map(({ page }) => page)).size;
  const how =
    both.length === 0 ? null : decided(evidence, { published: shown - missing, filmed: shown }, { published: shown, filmed: shown });
  if (both.length > 0 && how === null) {
    open(row, cell, notes);
    return null;
  }
  const stays = new Set(how?.as === 'filmed' ? both.map(({ page }) => page) : []);
  for (const { page, words } of both.filter((one) => stays.has(one.page)))
    notes.remark(row.row.row, quoted(words), `is said of page ${page}, which the sheet has on the film; the note stays a note.`);
  const out = new Map([...gone].filter(([page]) => !stays.has(page)));
  const plain = reading.is === 'facts' && reading.literal && (both.length === 0 || how?.as === 'filmed');
  return { listed: listed.flatMap((one) => (one.is === 'shots' ? without(one, out) : [])), gone: out.values(), why: how?.why ?? '', plain };
}

/** A part of a list without some of its pages. */
function without(
  { text, labels, frames }: Extract<Listed, { readonly is: 'shots' }>,
  out: ReadonlyMap<string, unknown>,
): readonly string[] {
  if (labels.length < frames || !labels.some((label) => out.has(label))) return [text];
  const left = labels.filter((label) => !out.has(label));
  return left.every((label) => /^\d+$/.test(label)) ? inRanges(left.map(Number)) : left;
}

function textsOf(listed: readonly Listed[]): readonly string[] {
  return listed.flatMap((one) => (one.is === 'shots' ? [one.text] : []));
}

function framesOf(listed: readonly Listed[]): number {
  return listed.reduce((sum, one) => sum + (one.is === 'count' ? one.count : one.frames), 0);
}

/** So many labels, those of pages that are not on the film left out. */
function labelsAround(filmed: number, gone: ReadonlyMap<string, unknown>): readonly number[] {
  const labels: number[] = [];
  for (let page = 1; labels.length < filmed; page += 1) if (!gone.has(String(page))) labels.push(page);
  return labels;
}

function inRanges(numbers: readonly number[]): readonly string[] {
  const ends = numbers.filter((number, at) => numbers[at + 1] !== number + 1);
  return numbers
    .filter((number, at) => numbers[at - 1] !== number - 1)
    .map((from, at) => (ends[at] === from ? String(from) : `${String(from)}-${String(ends[at])}`));
}

function addNote(row: ReadRow, text: string): void {
  row.facts.set('note', [valueOf(row, 'note'), text].filter((one) => one !== '').join('; '));
}

/** Each page of a row that is held back. */
function heldBack(row: ReadRow): void {
  if (row.facts.get('deliver') !== 'no') return;
  row.facts.delete('deliver');
  const pages = pagesTold(valueOf(row, 'pages'), (page) => ({ ...page, deliver: false, again: false }));
  if (pages === null || pages === '') return;
  row.typed.delete('pages');
  row.facts.set('pages', pages);
}
