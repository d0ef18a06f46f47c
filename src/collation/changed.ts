import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../model/collation-record.js';
import { inSeries } from '../normalise/in-series.js';
import { reelNumber } from '../normalise/labels.js';
import { inWords } from '../normalise/record-parts.js';
import { recordToSend } from './instructions/index.js';
import { settledRecord } from './settled.js';

/** What was changed in a record since it was sent, in sentences; notes and names of people, which were not sent, are not looked at. */
export function changedSince(sent: CollationRecord, now: CollationRecord): readonly string[] {
  const [before, after] = [settledRecord(recordToSend(sent)), settledRecord(recordToSend(now))];
  const reels = matched(before.reels, after.reels, ({ number }) => reelNumber(number) ?? number);
  return [
    ...matched(before.titles, after.titles, ({ id }) => id).flatMap(({ was, is }) =>
      whole(`Title ${(is ?? was)?.id ?? ''}`, was, is).concat(was === null || is === null ? [] : fieldsOf(`Title ${is.id}`, was, is)),
    ),
    ...reels.flatMap(({ was, is }) =>
      was === null || is === null ? whole(`Reel ${(is ?? was)?.number ?? ''}`, was, is) : reelChanges(was, is),
    ),
  ];
}

interface Match<Entry> {
  readonly was: Entry | null;
  readonly is: Entry | null;
}

/** Pairs entries by a key; of several with one key the first is paired with the first, and what is left on either side stands alone. */
function matched<Entry>(before: readonly Entry[], after: readonly Entry[], key: (entry: Entry) => string): readonly Match<Entry>[] {
  const left = new Map<string, Entry[]>();
  for (const entry of before) left.set(key(entry), [...(left.get(key(entry)) ?? []), entry]);
  const pairs = after.map((is): Match<Entry> => ({ was: left.get(key(is))?.shift() ?? null, is }));
  return [...pairs, ...[...left.values()].flat().map((was) => ({ was, is: null }))];
}

function whole(name: string, was: object | null, is: object | null): readonly string[] {
  if (was !== null && is !== null) return [];
  return [was === null ? `${name} was added.` : `${name} was taken out.`];
}

function fieldsOf(name: string, was: object, is: object): readonly string[] {
  return differing(was, is).map(({ field, from, to }) => `${name}: ${changeInWords(field, from, to)}`);
}

interface Change {
  readonly field: string;
  readonly from: string | null;
  readonly to: string | null;
}

function differing(was: object, is: object): readonly Change[] {
  const [before, after] = [was, is].map((entry) => new Map<string, unknown>(Object.entries(entry)));
  const fields = [...new Set([...(before?.keys() ?? []), ...(after?.keys() ?? [])])];
  return fields.flatMap((field): readonly Change[] => {
    const [from, to] = [shown(before?.get(field)), shown(after?.get(field))];
    return from === to ? [] : [{ field, from, to }];
  });
}

function shown(value: unknown): string | null {
  if (value === undefined) return null;
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'string'
    ? value
    : Array.isArray(value) && value.every((one) => typeof one === 'string')
      ? value.join('; ')
      : JSON.stringify(value);
}

function changeInWords(field: string, from: string | null, to: string | null): string {
  if (field === 'deliver') return to === 'yes' ? 'to be delivered now, held back before.' : 'held back now, to be delivered before.';
  const name = inWords(field);
  if (from === null) return `the ${name} is given now: ${to ?? ''}.`;
  return to === null ? `the ${name} ${from} is no longer given.` : `the ${name} was ${from} and is now ${to}.`;
}

function reelChanges(was: ReelEntry, is: ReelEntry): readonly string[] {
  const name = `Reel ${is.number}`;
  const facts = (reel: ReelEntry): object => ({ ...reel, frames: [], absent: [] });
  return [
    ...fieldsOf(name, facts(was), facts(is)),
    ...frameChanges(name, was.frames, is.frames),
    ...absenceChanges(name, was.absent ?? [], is.absent ?? []),
  ];
}

/** Frames that stand behind one that was added or taken out have other numbers and are still the same frames. */
function frameChanges(name: string, before: readonly FrameEntry[], after: readonly FrameEntry[]): readonly string[] {
  const changes = pairedFrames(before, after).flatMap(({ was, is }): readonly { readonly frame: string; readonly says: string }[] => {
    const frame = (is ?? was)?.frame ?? '';
    if (was === null) return [{ frame, says: `was added (${is?.kind ?? 'page'}).` }];
    if (is === null) return [{ frame, says: `was taken out (${was.kind ?? 'page'}).` }];
    return differing(was, is).map((change) =>
      change.field === 'frame'
        ? { frame, says: 'has another number than before.' }
        : { frame, says: changeInWords(change.field, change.from, change.to) },
    );
  });
  const bySentence = new Map<string, string[]>();
  for (const { frame, says } of changes) bySentence.set(says, [...(bySentence.get(says) ?? []), frame]);
  return [...bySentence].map(([says, frames]) => {
    const verb =
      frames.length === 1
        ? says
        : says.replace(/^was (added|taken out) \(/, 'were $1 (').replace(/^has another number/, 'have another number');
    const gap = /^(was|were|has|have) /.test(verb) ? ' ' : ': ';
    return `${name}, ${inFrames(frames)}${gap}${verb}`;
  });
}

function inFrames(frames: readonly string[]): string {
  const runs: string[][] = [];
  for (const frame of frames) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run !== undefined && last !== undefined && /^\d+$/.test(frame) && Number(frame) === Number(last) + 1) run.push(frame);
    else runs.push([frame]);
  }
  const words = runs.map((run) => (run.length === 1 ? (run[0] ?? '') : `${run[0] ?? ''} to ${run.at(-1) ?? ''}`));
  return `${frames.length === 1 ? 'frame' : 'frames'} ${inSeries(words)}`;
}

/** Pairs frames by number where both records have the same numbers, else by what they show, from both ends towards the middle. */
function pairedFrames(before: readonly FrameEntry[], after: readonly FrameEntry[]): readonly Match<FrameEntry>[] {
  const numbers = new Set(before.map(({ frame }) => frame));
  if (before.length === after.length && after.every(({ frame }) => numbers.has(frame))) return matched(before, after, ({ frame }) => frame);
  const shows = ({ kind, date, section, page, order }: FrameEntry): string => JSON.stringify([kind, date, section, page, order]);
  let head = 0;
  while (head < Math.min(before.length, after.length) && same(before[head], after[head], shows)) head += 1;
  let tail = 0;
  while (tail < Math.min(before.length, after.length) - head && same(before.at(-1 - tail), after.at(-1 - tail), shows)) tail += 1;
  const front = before.slice(0, head).map((was, at) => ({ was, is: after[at] ?? null }));
  const back = before.slice(before.length - tail).map((was, at) => ({ was, is: after[after.length - tail + at] ?? null }));
  const middle = matched(before.slice(head, before.length - tail), after.slice(head, after.length - tail), shows);
  return [...front, ...middle, ...back];
}

function same(a: FrameEntry | undefined, b: FrameEntry | undefined, shows: (entry: FrameEntry) => string): boolean {
  return a !== undefined && b !== undefined && shows(a) === shows(b);
}

function absenceChanges(name: string, before: readonly AbsentEntry[], after: readonly AbsentEntry[]): readonly string[] {
  const key = ({ title, date, edition, section, page, order }: AbsentEntry): string =>
    JSON.stringify([title, date, edition, section, page, order]);
  return matched(before, after, key).flatMap(({ was, is }) => {
    const one = is ?? was;
    const page = one?.page === undefined ? 'the issue' : `page ${one.page}`;
    const what = `${name}, ${page} of ${one?.date ?? ''} (not on the film)`;
    return was === null || is === null ? whole(what, was, is) : fieldsOf(what, was, is);
  });
}
