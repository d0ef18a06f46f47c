import { readDate } from '../calendar/edtf.js';
import type { AbsentEntry, FrameEntry } from '../model/collation-record.js';
import { labelKey, plainText, reelNumber, sectionLabel, titleId, withoutSection } from './labels.js';

/** What is needed of a reel to tell its issues apart. */
interface ReelEntries {
  readonly number: string;
  readonly frames: readonly Pick<FrameEntry, 'frame' | keyof Facts>[];
  readonly absent?: readonly AbsentEntry[] | undefined;
}

type Facts = Pick<
  FrameEntry,
  | 'kind'
  | 'deliver'
  | 'title'
  | 'date'
  | 'datePrintedJudged'
  | 'edition'
  | 'volume'
  | 'issueNumber'
  | 'section'
  | 'supplement'
  | 'page'
  | 'duplicateOf'
  | 'retakeOf'
>;

/** The issue of each frame and of each absence, by reel and place in its list: equal texts are one issue. Null for what belongs to none. */
export interface IssueKeys {
  readonly frames: readonly (readonly (string | null)[])[];
  readonly absent: readonly (readonly string[])[];
}

/** An issue whose day is not certain, as far as it has been followed along the film. */
interface Run {
  readonly key: string;
  volume: string | null;
  number: string | null;
  readonly labels: Set<string>;
}

/**
 * Tells the issues of a record apart. A title, certain day and edition name an issue wherever it lies. An uncertain day names none: such
 * issues are distinct where their issue numbers differ, where something else lies between them on the film, or where a page comes again.
 * A frame that repeats or replaces another one belongs to the issue of that one. `only` is the title of a record that has one.
 */
export function issueKeys(reels: readonly ReelEntries[], only: string | null): IssueKeys {
  type Named = { readonly title?: string; readonly date?: string; readonly edition?: number };
  // All frames of an issue have the same name, and a record has a hundred thousand frames.
  const names = new Map<string, string>();
  let last: { readonly title: string; readonly date: string | undefined; readonly edition: number; readonly name: string } | null = null;
  const nameOf = ({ title = only ?? '', date, edition = 1 }: Named): string => {
    if (last?.date === date && last?.title === title && last.edition === edition) return last.name;
    const key = `${title}\n${date ?? ''}\n${String(edition)}`;
    const known = names.get(key) ?? JSON.stringify([titleId(title), date, edition]);
    names.set(key, known);
    last = { title, date, edition, name: known };
    return known;
  };
  const judged = new Set(
    reels.flatMap(({ frames }) => frames.filter((frame) => frame.datePrintedJudged === 'unclear').map((frame) => nameOf(frame))),
  );
  const sure = new Map<string, boolean>();
  let asked: { readonly name: string; readonly sure: boolean } | null = null;
  const certain = (name: string, { date = '' }: Named): boolean => {
    if (asked?.name === name) return asked.sure;
    const known = sure.get(name) ?? (!judged.has(name) && !readDate(date).uncertain);
    sure.set(name, known);
    asked = { name, sure: known };
    return known;
  };
  const runs: Run[] = [];
  const byFrame = new Map<string, Run>();
  let current: { readonly name: string; readonly run: Run } | null = null;
  const frames = reels.map((reel) =>
    reel.frames.map((frame) => {
      if (frame.date === undefined) return null;
      const name = nameOf(frame);
      if (certain(name, frame)) {
        current = null;
        return name;
      }
      const pointed = byFrame.get(placeOf(reel.number, frame.duplicateOf ?? frame.retakeOf ?? ''));
      const before: Run | undefined = current?.name === name ? current.run : undefined;
      let run = pointed ?? (before !== undefined && goesOn(before, frame) ? before : undefined);
      if (run === undefined) {
        run = { key: `${name} ${String(runs.length)}`, volume: null, number: null, labels: new Set() };
        runs.push(run);
      }
      run.volume ??= frame.volume ?? null;
      run.number ??= frame.issueNumber ?? null;
      if (shows(frame)) run.labels.add(labelOf(frame));
      byFrame.set(placeOf(reel.number, frame.frame), run);
      // what repeats a page from elsewhere does not interrupt the issue that lies around it
      if (pointed === undefined || before === undefined) current = { name, run };
      return run.key;
    }),
  );
  let alone = 0;
  const absent = reels.map((reel) =>
    (reel.absent ?? []).map((entry) => {
      const name = nameOf(entry);
      if (certain(name, entry)) return name;
      const own = runs.filter((run) => run.key.startsWith(`${name} `));
      // a page is absent from the first issue of the text that does not show it; a whole issue is one of its own
      const whole = entry.page === undefined && entry.order === undefined;
      const lacking = whole ? undefined : (own.find((run) => !run.labels.has(labelOf(entry))) ?? own[0]);
      return lacking?.key ?? `${name} absent ${whole ? String(alone++) : ''}`;
    }),
  );
  return { frames, absent };
}

/** Whether a frame that follows can belong to the issue: no other issue number, and no page that the issue has already. */
function goesOn(run: Run, frame: Facts): boolean {
  const other = (mine: string | null, given: string | undefined): boolean =>
    mine !== null && given !== undefined && plainText(mine) !== plainText(given);
  if (other(run.number, frame.issueNumber) || other(run.volume, frame.volume)) return false;
  return !shows(frame) || !run.labels.has(labelOf(frame));
}

/** A page that is delivered under a label, and no second exposure of another one. */
function shows(frame: Facts): boolean {
  return (frame.kind ?? 'page') === 'page' && frame.deliver !== false && frame.page !== undefined && frame.duplicateOf === undefined;
}

function labelOf(entry: Pick<FrameEntry, 'section' | 'supplement' | 'page'>): string {
  const section = sectionLabel(entry.section ?? '');
  return JSON.stringify([section, entry.supplement === true, labelKey(withoutSection(entry.page ?? '', section))]);
}

function placeOf(reel: string, pointer: string): string {
  const at = pointer.lastIndexOf(':');
  const [carrier, frame] = at < 0 ? [reel, pointer] : [pointer.slice(0, at), pointer.slice(at + 1)];
  return `${reelNumber(carrier) ?? ''}:${labelKey(frame)}`;
}
