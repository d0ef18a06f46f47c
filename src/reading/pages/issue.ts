import { saysNoPages } from '../../normalise/issue-sheet.js';
import { quoted } from '../../normalise/sheet-row.js';
import { pagesTold } from '../pages-told.js';
import { addCondition, addNote, has, makeAbsent, type ReadRow, valueOf } from '../read-row.js';
import type { Ways } from '../ways.js';
import type { PagesFacts } from './facts.js';
import { framesOf } from './listed.js';
import { readSpreads } from './spreads.js';
import { partedSupplement, supplementRow } from './supplement.js';
import { ASK, type PagesNotes, type Told, toldIn } from './told.js';
import { framesUntilNext, usualCounts } from './usual.js';
import { type Evidence, open, writePages } from './written.js';

/** The rows of an issue sheet with their pages in the notation: what the cell says in words, and what notes and the column of missing pages say of them. Rows that cannot be read are complained of and left out. */
export function withIssuePages(rows: readonly ReadRow[], ways: Ways, notes: PagesNotes): readonly ReadRow[] {
  readSpreads(rows, ways, notes);
  const told = rows.map((row) => toldIn(row, ways, notes));
  const usual = usualCounts(
    told.map(({ row, reading, elsewhere, whole }) => ({
      row,
      facts: elsewhere.length > 0 || whole !== null || reading.is !== 'facts' ? null : reading.facts,
    })),
  );
  // Where each issue on the film has its first frame, one without lies nowhere on it.
  const others = told.filter(({ row, whole }) => whole === null && has(row, 'date'));
  const numbered = others.length > 0 && others.every(({ row }) => has(row, 'first frame'));
  const read = told.flatMap((one, at) => {
    const frames = framesUntilNext(rows, at);
    const evidence: Evidence = { frames, usual: usual.get(valueOf(one.row, 'title')) ?? new Set(), says: ways.pages, numbered };
    return settle(one, evidence, notes);
  });
  for (const row of read) heldBack(row);
  return read;
}

/** The row with its pages in the notation, and that of its supplement behind it; none where they cannot be read, which was then said. */
function settle(told: Told, evidence: Evidence, notes: PagesNotes): readonly ReadRow[] {
  const { row, cell, reading } = told;
  const at = row.row.row;
  if (reading.is === 'unsettled') notes.doubt({ about: 'phrases', of: reading.phrase, key: reading.key, row: at, text: cell });
  // That goes on as it stands.
  if (reading.is === 'slip' || (reading.is !== 'facts' && saysNoPages(cell))) return [row];
  if (reading.is === 'fault') notes.complain(at, quoted(cell), reading.says);
  if (reading.is === 'unknown') {
    notes.doubt({ about: 'words', of: reading.words, row: at, text: cell });
    notes.complain(at, quoted(cell), `holds words of which it is not known what they say about the pages. ${ASK}`);
  }
  if (reading.is === 'unsettled')
    notes.complain(
      at,
      quoted(cell),
      `holds the words "${reading.words.slice(0, 40)}", and the reading file does not say whether they state a fact. ${ASK}`,
    );
  if (reading.is !== 'facts') return [];
  for (const text of reading.facts.damage) addCondition(row, text);
  for (const text of reading.facts.notes) addNote(row, text);
  const whole = reading.facts.whole ?? wholeElsewhere(told, reading.facts, evidence, notes);
  if (whole === 'open') return [];
  if (whole !== null) {
    if (cell !== '') notes.remark(at, quoted(cell), 'is read as no pages: the issue is not on the film.');
    makeAbsent(row, 'issues', whole);
    return [row];
  }
  const parted = partedSupplement(told, reading.facts, evidence.frames, notes);
  if (parted === null) return [];
  const frames = evidence.frames === null ? null : evidence.frames - framesOf(parted.supplement);
  const literal = reading.literal && parted.facts === reading.facts;
  if (!writePages(told, parted.facts, literal, { ...evidence, frames }, notes)) return [];
  return parted.supplement.length === 0 ? [row] : [row, supplementRow(row, parted, notes)];
}

/** Whether the issue is not on the film because another cell says so beside pages; open where it is to be asked, null where it is on the film. */
function wholeElsewhere(
  { row, cell, whole }: Told,
  facts: PagesFacts,
  { frames, says, numbered }: Evidence,
  notes: PagesNotes,
): 'yes' | 'no' | 'open' | null {
  if (whole === null || row.facts.has('published')) return null;
  if (!has(row, 'first frame') && (cell === '' || numbered)) return whole.published;
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

/** Each page of a row that is held back. */
function heldBack(row: ReadRow): void {
  if (row.facts.get('deliver') !== 'no') return;
  row.facts.delete('deliver');
  const pages = pagesTold(valueOf(row, 'pages'), (page) => ({ ...page, deliver: false, again: false }));
  if (pages === null || pages === '') return;
  row.typed.delete('pages');
  row.facts.set('pages', pages);
}
