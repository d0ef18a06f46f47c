import type { Alignment } from '../model/alignment.js';
import type { Difference, DifferenceField, PairRef } from '../model/difference.js';
import type { Side } from '../model/film.js';
import type { Doubtful, RecordProblem } from '../model/record-problem.js';
import { framesInWords } from './draft.js';
import { sidedBy } from './facts/sided.js';
import type { Explained } from './repair/index.js';
import { isIssueFact } from './scene.js';

/** What the differences of a field rest on in the record. Fields that are not named rest on no fact that the record could have wrong. */
const RESTS_ON: Readonly<Partial<Record<DifferenceField, readonly Doubtful[]>>> = {
  number: ['number'],
  'not-scanned': ['number'],
  'empty-number': ['number', 'between'],
  'number-unfilled': ['number', 'between'],
  surplus: ['between', 'beside'],
  'not-delivered': ['delivered'],
  delivered: ['delivered'],
  page: ['page'],
  order: ['order'],
  section: ['section'],
  title: ['title'],
  date: ['date'],
  datePrinted: ['date'],
  edition: ['edition'],
  editionLabel: ['edition'],
  volume: ['volume'],
  issueNumber: ['issueNumber'],
  'extra-document': ['documents'],
  'empty-document': ['documents', 'beside'],
  'absence-missing': ['absences'],
  'absence-extra': ['absences'],
  'absence-published': ['absences'],
};

/** Fields that follow from what a finding is about: where it explains anything else they say nothing of their own. */
const FOLLOWS: readonly DifferenceField[] = ['copy', 'count', 'document', 'file', 'digest'];
/** A shift of the numbers is doubtful where it begins, however far it goes. */
const NUMBERS: readonly DifferenceField[] = ['number', 'not-scanned', 'empty-number', 'number-unfilled'];

interface Sides {
  readonly alignments: readonly Alignment[];
  readonly differences: readonly Difference[];
  readonly record: Side;
  readonly returned: Side;
}

/** A problem with its frames and issues as they are looked up. */
interface Doubt {
  readonly id: string;
  readonly says: string;
  readonly facts: ReadonlySet<Doubtful>;
  readonly frames: ReadonlySet<string>;
  readonly issues: ReadonlySet<number>;
  readonly days: RecordProblem['touches']['days'];
  readonly title: string | null;
  readonly date: string | null;
}

/**
 * Takes from the vendor what rests on facts that the record itself leaves in doubt: such a finding names the problems, its cause is unclear where
 * it was the return's, and nothing is changed without a look at the film. A finding of which only a part is in doubt stays as it is.
 */
export function withDoubts(drafts: readonly Explained[], problems: readonly RecordProblem[], sides: Sides): readonly Explained[] {
  const doubts = problems.flatMap((problem) => (problem.touches.facts.length === 0 ? [] : [doubtOf(problem, sides.record)]));
  if (doubts.length === 0) return drafts;
  const index = indexed(doubts);
  return drafts.map((draft) => {
    if (draft.cause === 'film') return draft;
    const touching = touchingAll(draft, index, sides);
    if (touching.length === 0) return draft;
    const told = draft.cause === 'collation' || draft.cause === 'unclear' ? draft : asUnclear(draft);
    const evidence = touching.slice(0, TOLD).map(({ says }) => `The record is in doubt here: ${says}`);
    return { ...told, evidence: [...told.evidence, ...evidence], doubts: touching.map(({ id }) => id) };
  });
}

/** So many problems are told beside one finding. */
const TOLD = 3;

function asUnclear(draft: Explained): Explained {
  const { scope, repair } = draft;
  const words = draft.frames === null ? 'the days around' : framesInWords(draft.frames);
  return { ...sidedBy('unclear', words, draft), scope, repair };
}

function doubtOf({ item, touches }: RecordProblem, record: Side): Doubt {
  const issues = touches.frames.flatMap(({ reel, at }) => record.reels[reel]?.frames[at]?.issue ?? []);
  return {
    id: item.id,
    says: item.says,
    facts: new Set(touches.facts),
    frames: new Set(touches.frames.map(({ reel, at }) => `${String(reel)}:${String(at)}`)),
    issues: new Set(issues),
    days: touches.days,
    title: item.title,
    date: item.date,
  };
}

/** The doubts by what they are about, so that a record with many costs no more than its findings. */
interface Index {
  readonly byFrame: ReadonlyMap<string, readonly Doubt[]>;
  readonly byIssue: ReadonlyMap<number, readonly Doubt[]>;
  readonly byDay: ReadonlyMap<string, readonly Doubt[]>;
  readonly ofDays: readonly Doubt[];
}

function indexed(doubts: readonly Doubt[]): Index {
  const byFrame = new Map<string, Doubt[]>();
  const byIssue = new Map<number, Doubt[]>();
  const byDay = new Map<string, Doubt[]>();
  for (const doubt of doubts) {
    for (const frame of doubt.frames) push(byFrame, frame, doubt);
    for (const issue of doubt.issues) push(byIssue, issue, doubt);
    if (doubt.date !== null) push(byDay, `${doubt.title ?? ''} ${doubt.date}`, doubt);
  }
  return { byFrame, byIssue, byDay, ofDays: doubts.filter(({ days }) => days !== null) };
}

/** The problems that touch all that a finding says of its own; none where one difference of it stands without. */
function touchingAll(draft: Explained, index: Index, sides: Sides): readonly Doubt[] {
  const all = draft.explains.flatMap((id) => sides.differences[id] ?? []);
  const own = all.filter(({ field }) => !FOLLOWS.includes(field));
  const shift = own.length > 0 && own.every(({ field }) => NUMBERS.includes(field));
  const asked = shift ? own.toSorted((a, b) => beginning(a) - beginning(b)).slice(0, 1) : own;
  const found = new Set<Doubt>();
  for (const difference of asked) {
    const touching = touchingOne(difference, index, sides);
    if (touching.length === 0) return [];
    for (const doubt of touching) found.add(doubt);
  }
  return [...found];
}

/** Alignments first, then the film. */
function beginning({ pairs: [first] }: Difference): number {
  return first === undefined ? Number.MAX_SAFE_INTEGER : first.alignment * 1e9 + first.pair;
}

function touchingOne(difference: Difference, index: Index, sides: Sides): readonly Doubt[] {
  const { field, pairs, recordIssue } = difference;
  const facts = RESTS_ON[field] ?? [];
  const own = (doubt: Doubt): boolean => facts.some((fact) => doubt.facts.has(fact));
  if (field === 'absence-missing' || field === 'absence-extra' || field === 'absence-published') return absences(difference, index, sides);
  if (field === 'surplus' || field === 'empty-document') return surplus(difference, index, sides);
  // Of a frame's fact the frame must be in doubt, of an issue's any of its frames.
  const whole = isIssueFact(field) || field === 'extra-document';
  const ofIssue = recordIssue === null || !whole ? [] : (index.byIssue.get(recordIssue) ?? []);
  const ofFrames = pairs.flatMap((ref) => index.byFrame.get(recordPlace(ref, sides, 0) ?? '') ?? []);
  return [...new Set([...ofIssue, ...ofFrames])].filter(own);
}

/** What the return says is absent: a page of an issue that is in doubt, or an issue on a day without one. */
function absences({ absence, otherAbsence, field }: Difference, index: Index, { record, returned }: Sides): readonly Doubt[] {
  const at = field === 'absence-published' ? otherAbsence : absence;
  const stated = at === null ? undefined : (field === 'absence-extra' ? returned : record).absences[at];
  if (stated?.date?.day == null) return [];
  return ofDay(stated.title, stated.date.day, index).filter(({ facts }) => facts.has('absences'));
}

/** Frames that only the return has: between or beside frames in doubt, or of an issue of a day on which the record has none. */
function surplus({ pairs, returnIssue }: Difference, index: Index, sides: Sides): readonly Doubt[] {
  const found = new Set<Doubt>();
  for (const ref of pairs) {
    const [before, after] = ([-1, 1] as const).map((step) => index.byFrame.get(recordPlace(ref, sides, step) ?? '') ?? []);
    for (const doubt of [...(before ?? []), ...(after ?? [])])
      if (doubt.facts.has('beside') || (doubt.facts.has('between') && before?.includes(doubt) === true && after?.includes(doubt) === true))
        found.add(doubt);
    const at = sides.alignments[ref.alignment]?.pairs[ref.pair]?.returned ?? null;
    const issue = at === null ? null : (sides.returned.reels[at.reel]?.frames[at.frame]?.issue ?? null);
    for (const doubt of ofReturnIssue(issue, index, sides)) found.add(doubt);
  }
  for (const doubt of ofReturnIssue(returnIssue, index, sides)) found.add(doubt);
  return [...found];
}

function ofReturnIssue(at: number | null, index: Index, { returned }: Sides): readonly Doubt[] {
  const issue = at === null ? undefined : returned.issues[at];
  if (issue?.date?.day == null) return [];
  return ofDay(issue.title, issue.date.day, index).filter(({ facts, days }) => days !== null && facts.has('beside'));
}

/** Problems of the issue of a day, and of days without an issue. */
function ofDay(title: string | null, day: string, { byDay, ofDays }: Index): readonly Doubt[] {
  const open = ofDays.filter(
    ({ days }) => days !== null && (title === null || title === days.title) && days.after < day && day < days.before,
  );
  return [...new Set([...(byDay.get(`${title ?? ''} ${day}`) ?? []), ...open])];
}

/** The frame of the record at a pair, or the nearest before (-1) or behind it (1), as `reel:frame`; null where there is none. */
function recordPlace({ alignment, pair }: PairRef, { alignments }: Sides, step: -1 | 0 | 1): string | null {
  const whole = alignments[alignment];
  if (whole === undefined || whole.recordReel === null) return null;
  for (let at = pair + step; ; at += step) {
    const here = whole.pairs[at];
    if (here === undefined) return null;
    if (here.record !== null) return `${String(whole.recordReel)}:${String(here.record)}`;
    if (step === 0) return null;
  }
}

function push<K>(map: Map<K, Doubt[]>, key: K, doubt: Doubt): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [doubt]);
  else list.push(doubt);
}
