import { resolveAgreement } from '../../src/judge/agreement.js';
import type { AbsentEntry, CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { Frame, Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { sideOfRecord } from '../../src/normalise/record-side.js';
import { verify } from '../../src/verify.js';

// Reels of a few frames, written out by hand, and what is found in a return of them that a test has spoilt.

export const TITLE = 'sn99000417';

/** A record of one reel of one title. */
export function recordOf(frames: readonly FrameEntry[], reel = '417', absent: readonly AbsentEntry[] = []): CollationRecord {
  return {
    format: 'reeltally/collation-record/2',
    titles: [{ id: TITLE, name: 'The Saltreach Plowman' }],
    reels: [{ number: reel, frames, ...(absent.length === 0 ? {} : { absent }) }],
  };
}

/** A page of one issue, with its label as its place. */
export const page = (frame: string, label: number, more: Partial<FrameEntry> = {}): FrameEntry => ({
  frame,
  date: '1902-08-06',
  page: String(label),
  order: label,
  ...more,
});

/** What the record wants delivered, each under the number that it is given; null takes a page out. */
export function returnOf(record: Side, numbers: readonly (number | null)[] | null = null, reel = '417'): Side {
  const wanted = record.reels.flatMap(({ frames }) => frames.filter((frame) => frame.deliver));
  const frames = wanted.flatMap((frame, at): Frame[] => {
    const exposure = numbers === null ? (frame.frame?.exposure ?? 0) : (numbers[at] ?? null);
    return exposure === null ? [] : [{ ...frame, frame: { text: String(exposure), exposure, half: '' } }];
  });
  const sorted = [...frames].sort((a, b) => (a.frame?.exposure ?? 0) - (b.frame?.exposure ?? 0));
  return {
    ...record,
    reels: [{ ...record.reels[0]!, number: reel.replace(/^0+/, ''), text: reel, frames: sorted, facts: {} }],
    absences: [],
  };
}

/** What is found in the return that `change` makes of the record's side. */
export function run(record: CollationRecord, change: (side: Side) => Side): Findings {
  const side = sideOfRecord(record);
  return verify({
    record: side,
    returned: change(side),
    others: [],
    agreement: resolveAgreement(null, { pageNumber: 'printed', unnumberedPage: 'omit' }),
    rulings: [],
    earlier: null,
    run: { at: '1999-01-01T00:00:00Z', received: null, batch: 'b', delivery: 1, profile: 'issue-mets', inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}

export const codes = (result: Findings): string[] => result.findings.map(({ code }) => code);
