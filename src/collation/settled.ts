import type { AbsentEntry, CollationRecord, FrameEntry, ReelEntry } from '../model/collation-record.js';
import { frameKey, readFrameNumber } from '../normalise/labels.js';

/** The record with every default written out, so that two records that mean the same are equal. Absences come in an order of their own. */
export function settledRecord(record: CollationRecord): CollationRecord {
  const only = record.titles.length === 1 ? record.titles[0]?.id : undefined;
  return { ...record, reels: record.reels.map((reel) => settledReel(reel, only)) };
}

function settledReel({ frames, absent, ...facts }: ReelEntry, only: string | undefined): ReelEntry {
  const absences = (absent ?? []).map((entry) => settledAbsence(entry, only));
  const keyed = absences.map((entry) => ({ entry, key: absenceKey(entry) })).sort((a, b) => (a.key < b.key ? -1 : a.key > b.key ? 1 : 0));
  return {
    ...facts,
    frames: frames.map((frame) => settledFrame(frame, only)),
    ...(keyed.length === 0 ? {} : { absent: keyed.map(({ entry }) => entry) }),
  };
}

function settledFrame({ order, supplement, ...frame }: FrameEntry, only: string | undefined): FrameEntry {
  const kind = frame.kind ?? 'page';
  const deliver = frame.deliver ?? kind === 'page';
  const number = readFrameNumber(frame.frame);
  return {
    ...frame,
    frame: number === null ? frame.frame : frameKey(number),
    kind,
    deliver,
    ...(frame.date === undefined ? {} : { edition: frame.edition ?? 1, ...titleOf(frame.title, only) }),
    ...(supplement === true ? { supplement } : {}),
    // A held-back frame has no order.
    ...(order === undefined || !deliver ? {} : { order }),
  };
}

function settledAbsence(entry: AbsentEntry, only: string | undefined): AbsentEntry {
  return { ...entry, ...titleOf(entry.title, only), edition: entry.edition ?? 1, published: entry.published ?? 'unknown' };
}

function titleOf(title: string | undefined, only: string | undefined): { readonly title?: string } {
  const known = title ?? only;
  return known === undefined ? {} : { title: known };
}

function absenceKey({ title, date, edition, section, order, page }: AbsentEntry): string {
  return JSON.stringify([title, date, edition, section ?? '', String(order ?? 0).padStart(5, '0'), page ?? '']);
}
