import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../model/collation-record.js';
import type { FrameNumber } from '../model/film.js';
import { following, ISSUE_COLUMNS } from '../normalise/issue-sheet.js';
import { labelKey, readFrameNumber } from '../normalise/labels.js';
import { type CellItem, pagesCell } from '../normalise/pages-cell.js';
import { SIGNS } from '../normalise/pages-notation.js';
import { issueKeys } from '../normalise/record-issues.js';
import type { Table } from './table.js';

type IssueColumn = (typeof ISSUE_COLUMNS)[number];
type Cells = Partial<Record<IssueColumn, string | undefined>>;

/** A row under construction. `issue` is null for a row of frames that belong to none. */
interface Draft {
  readonly cells: Cells;
  readonly issue: string | null;
  readonly items: { readonly item: CellItem; readonly order: number | null }[];
  /** Damage by the label of the page; empty for a page without. */
  readonly conditions: Map<string, string>;
}

/** The record as an issue sheet: a row per issue as long as it lasts on film. `record` is settled and holds nothing that such a sheet cannot. */
export function issueTable(record: CollationRecord): Table {
  const only = record.titles.length === 1 ? (record.titles[0]?.id ?? null) : null;
  const keys = issueKeys(record.reels, only);
  const rows = record.reels.flatMap((reel, at) => reelRows(reel, keys.frames[at] ?? [], keys.absent[at] ?? []));
  return { name: 'issues', heads: ISSUE_COLUMNS, rows: rows.map((cells) => ISSUE_COLUMNS.map((column) => cells[column] ?? null)) };
}

/** `issues` and `absences` name the issue of each frame and of each absence. */
function reelRows(reel: ReelEntry, issues: readonly (string | null)[], absences: readonly string[]): readonly Cells[] {
  const drafts: Draft[] = [];
  const absent = new Map<string, AbsentEntry[]>();
  (reel.absent ?? []).forEach((entry, at) => {
    const key = JSON.stringify([absences[at], entry.combinedWith]);
    if (entry.page !== undefined) absent.set(key, [...(absent.get(key) ?? []), entry]);
  });
  const twins = deliveredOnce(reel.frames);
  let next: FrameNumber = { text: '1', exposure: 1, half: '' };
  let between: FrameEntry[] = [];
  const start = (frame: FrameEntry, issue: string | null, name: string | null): Draft => {
    const first = next.text === frame.frame && issue === null ? undefined : frame.frame;
    if (first !== undefined) next = readFrameNumber(first) ?? next;
    const draft: Draft = {
      cells: {
        reel: reel.number,
        'first frame': first,
        note: frame.note,
        ...(issue === null ? { 'source reel': frame.sourceReel } : issueCells(frame)),
      },
      issue,
      items: [],
      conditions: new Map(),
    };
    drafts.push(draft);
    const key = JSON.stringify([name, frame.combinedWith]);
    if (issue !== null)
      for (const entry of absent.get(key) ?? []) draft.items.push({ item: absentItem(entry), order: entry.order ?? null });
    absent.delete(key);
    return draft;
  };
  const add = (draft: Draft, frame: FrameEntry): void => {
    if (frame.frame !== next.text) draft.items.push({ item: { text: `@${frame.frame}`, run: null }, order: null });
    draft.items.push({ item: frameItem(frame, twins), order: frame.order ?? null });
    if (frame.kind === 'page') draft.conditions.set(labelKey(frame.page ?? ''), conditionOf(frame));
    next = following(readFrameNumber(frame.frame) ?? next);
  };
  const flush = (): void => {
    let draft: Draft | null = null;
    for (const frame of between) {
      if (draft === null || frame.note !== undefined || frame.sourceReel !== draft.cells['source reel']) draft = start(frame, null, null);
      add(draft, frame);
    }
    between = [];
  };
  for (const [at, frame] of reel.frames.entries()) {
    if (frame.kind !== 'page') {
      between.push(frame);
      continue;
    }
    const name = issues[at] ?? null;
    const issue = JSON.stringify([issueCells(frame), name]);
    const current = drafts.at(-1);
    const goesOn =
      current?.issue === issue &&
      frame.note === undefined &&
      // Damage is told by the label, so two pages of one label share a row where they share their damage.
      [undefined, conditionOf(frame)].includes(current.conditions.get(labelKey(frame.page ?? ''))) &&
      between.every(({ note, sourceReel }) => note === undefined && sourceReel === frame.sourceReel);
    if (goesOn) for (const one of between) add(current, one);
    else flush();
    if (goesOn) between = [];
    add(goesOn ? current : start(frame, issue, name), frame);
  }
  flush();
  const unfilmed = [...absent.values()].map((entries) => absentPagesRow(reel.number, entries));
  const whole = (reel.absent ?? []).filter(({ page }) => page === undefined).map((entry) => absentIssueRow(reel.number, entry));
  return [...drafts.map(finished), ...unfilmed, ...whole];
}

/** Absent pages are written where they would stand. */
function finished({ cells, items, conditions }: Draft): Cells {
  const absent = items.filter(({ item }) => item.text.startsWith('['));
  const seen: { readonly item: CellItem; readonly order: number | null }[] = items.filter((entry) => !absent.includes(entry));
  for (const entry of absent.sort((a, b) => (a.order ?? 0) - (b.order ?? 0))) {
    const behind = seen.findIndex(({ order }) => order !== null && entry.order !== null && order > entry.order);
    seen.splice(behind < 0 ? seen.length : behind, 0, entry);
  }
  const damage = [...conditions].flatMap(([label, words]) => (words === '' ? [] : [`${label}: ${words}`]));
  return { ...cells, pages: pagesCell(seen.map(({ item }) => item)), condition: damage.length === 0 ? undefined : damage.join('; ') };
}

function conditionOf({ condition }: FrameEntry): string {
  return (condition ?? []).join(', ');
}

function issueCells(frame: FrameEntry): Cells {
  return {
    title: frame.title,
    date: frame.date,
    'combined with': frame.combinedWith,
    'date printed': frame.datePrinted,
    'date printed judged': frame.datePrintedJudged,
    'judged by': frame.judgedBy,
    'weekday printed': frame.weekdayPrinted,
    'title printed': frame.titlePrinted,
    edition: frame.edition?.toString(),
    'edition label': frame.editionLabel,
    volume: frame.volume,
    'issue number': frame.issueNumber,
    'issue number intended': frame.issueNumberIntended,
    'source reel': frame.sourceReel,
    supplement: frame.supplement === true ? 'yes' : undefined,
  };
}

function absentPagesRow(reel: string, entries: readonly AbsentEntry[]): Cells {
  const [first] = entries;
  return {
    reel,
    title: first?.title,
    date: first?.date,
    'combined with': first?.combinedWith,
    edition: first?.edition?.toString(),
    pages: pagesCell(entries.map(absentItem)),
  };
}

function absentIssueRow(reel: string, { title, date, combinedWith, dateTo, edition, published, note }: AbsentEntry): Cells {
  return { reel, title, date, 'combined with': combinedWith, 'date to': dateTo, edition: edition?.toString(), published, note };
}

function absentItem({ page = '', published }: AbsentEntry): CellItem {
  const mark = published === 'yes' ? '' : published === 'no' ? '-' : '?';
  return { text: `[${page}${mark}]`, run: runOf(page, `absent ${mark}`) };
}

function frameItem(frame: FrameEntry, twins: ReadonlyMap<string, string>): CellItem {
  if (frame.kind !== 'page') return { text: [...SIGNS].find(([, kind]) => kind === frame.kind)?.[0] ?? '', run: null };
  const { page = '', pagePrinted, duplicateOf } = frame;
  const mark = frame.deliver === false ? 'x' : duplicateOf === undefined ? '' : 'd';
  const printed = pagePrinted === undefined ? '' : `(${pagePrinted})`;
  // Without `=` a duplicate is one of the only delivered frame of its issue that has its label and is itself none.
  const twin = duplicateOf === undefined || duplicateOf === twins.get(pageKey(frame)) ? '' : `=${duplicateOf}`;
  const isRange = twin === '' && (printed === '' || printed === '(-)');
  return { text: `${mark}${page}${printed}${twin}`, run: isRange ? runOf(page, mark + printed) : null };
}

function runOf(label: string, sort: string): CellItem['run'] {
  const [, prefix, digits] = /^([A-Za-z]{0,3})([1-9]\d{0,4})$/.exec(label) ?? [];
  return prefix === undefined || digits === undefined ? null : { sort, prefix, number: Number(digits) };
}

/** The frames that alone deliver the page of their label, duplicates that are delivered too left aside, by page. */
function deliveredOnce(frames: readonly FrameEntry[]): ReadonlyMap<string, string> {
  const found = new Map<string, string[]>();
  for (const frame of frames)
    if (frame.kind === 'page' && frame.deliver === true && frame.duplicateOf === undefined)
      found.set(pageKey(frame), [...(found.get(pageKey(frame)) ?? []), frame.frame]);
  return new Map(
    [...found].flatMap(([key, [first, ...others]]) => (first === undefined || others.length > 0 ? [] : [[key, first] as const])),
  );
}

function pageKey(frame: FrameEntry): string {
  return JSON.stringify([issueKey(frame), frame.supplement === true, frame.section, labelKey(frame.page ?? '')]);
}

function issueKey({ title, date, edition }: Pick<FrameEntry, 'title' | 'date' | 'edition'>): string {
  return JSON.stringify([title, date, edition]);
}
