import { quoted } from '../../normalise/sheet-row.js';
import { has, type ReadRow } from '../read-row.js';
import type { Ways } from '../ways.js';
import type { Gone, PagesFacts } from './facts.js';
import { framesOf, inRanges, labelsAround, textsOf, without } from './listed.js';
import { ASK, type PagesNotes, type Told } from './told.js';

/** What shows whether a cell tells of the pages that were published or of those that were filmed. */
export interface Evidence {
  readonly frames: number | null;
  readonly usual: ReadonlySet<number>;
  readonly says: Ways['pages'];
  /** Every issue that is said to be on the film has its first frame. */
  readonly numbered: boolean;
}

/** Asks whether the pages beside those that are missing are all of the issue. */
export function open(row: ReadRow, cell: string, notes: PagesNotes): void {
  notes.doubt({ about: 'pages', of: 'pages', row: row.row.row, text: cell });
  notes.complain(
    row.row.row,
    quoted(cell),
    `stands beside pages that are said to be not on the film, and it cannot be told whether those are among them. ${ASK}`,
  );
}

/** The pages as labels around those that are not on the film. */
export function writePages(told: Told, facts: PagesFacts, literal: boolean, evidence: Evidence, notes: PagesNotes): boolean {
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
  const twice = told.row.stated.find(({ fact, pages }) => fact.is === 'duplicate' && fact.of === null && pages.length > 0);
  // A second exposure takes a frame, and is no page more.
  if (twice !== undefined && evidence.frames === framesOf(listed)) {
    notes.complain(
      told.row.row.row,
      quoted(told.cell),
      `counts as many pages as frames lie before the next row, though ${quoted(twice.words)} says that one of them shows a page again; write the pages as they were filmed, such as 1,2,x2,3,4.`,
    );
    return null;
  }
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
