import type { Alignment } from '../model/alignment.js';
import type { Frame, Side } from '../model/film.js';
import type { Finding, ResultFrame, ResultReel } from '../model/findings.js';

/** Ids of the findings by pair, `alignment:pair`, those of which what differs there only follows, and the pairs at which anything differs. */
export interface FindingsAt {
  readonly ids: ReadonlyMap<string, readonly string[]>;
  readonly follows: ReadonlyMap<string, readonly string[]>;
  readonly differs: ReadonlySet<string>;
}

/** Every reel of the record as a strip of frames in film order, with what the return has in each place and what came of comparing it. */
export function strips(
  alignments: readonly Alignment[],
  record: Side,
  returned: Side,
  findingsAt: FindingsAt,
  findings: readonly Finding[],
): ResultReel[] {
  const reels = comparedStrips(alignments, record, returned, findingsAt);
  const byId = new Map(findings.map((finding) => [finding.id, finding]));
  // A finding that says of one page that it is not there at all says of the others that they are not right in their number alone.
  const gone = reels.flatMap((reel) => reel.frames.filter(({ state, deliver }) => state === 'record-only' && deliver));
  const lost = new Set(gone.flatMap((frame) => frame.findings));
  return reels.map((reel) => ({ ...reel, frames: reel.frames.map((frame) => ({ ...frame, state: stateInFull(frame, byId, lost) })) }));
}

/** What came of comparing a frame, from what the record orders, what came and which findings say something of it. */
function stateInFull(frame: ResultFrame, byId: ReadonlyMap<string, Finding>, lost: ReadonlySet<string>): ResultFrame['state'] {
  if (frame.state === 'record-only') return frame.deliver ? 'not-delivered' : 'record-only';
  if (frame.state !== 'differs') return frame.state;
  if (!frame.deliver && frame.returnedKind === 'page') return 'delivered-though-held-back';
  const here = [...frame.findings, ...(frame.follows ?? [])].flatMap((id) => byId.get(id) ?? []);
  const every = (fields: readonly (string | null)[]): boolean => here.length > 0 && here.every(({ field }) => fields.includes(field));
  if (frame.deliver && frame.returnedKind !== 'page' && frame.returnedKind !== 'target')
    return every(['document']) ? 'not-compared' : 'not-delivered';
  // An exposure that came for two pages is not the one page that was ordered, whatever its number.
  const whole = !frame.findings.some((id) => lost.has(id));
  return whole && every(['frame', 'number']) ? 'number-differs' : 'differs';
}

/** The strips with what the alignment alone tells: whether there is something on both sides, and whether it differs. */
function comparedStrips(alignments: readonly Alignment[], record: Side, returned: Side, findingsAt: FindingsAt): ResultReel[] {
  const byRecord = [...alignments.entries()].sort(
    ([, a], [, b]) => (a.recordReel ?? Number.MAX_SAFE_INTEGER) - (b.recordReel ?? Number.MAX_SAFE_INTEGER),
  );
  return byRecord.map(([at, alignment]) => {
    const reel = alignment.recordReel === null ? undefined : record.reels[alignment.recordReel];
    const compared = reel !== undefined && alignment.pairs.some((pair) => pair.returned !== null);
    const frames = alignment.pairs.map((pair, p): ResultFrame => {
      const mine = pair.record === null ? undefined : reel?.frames[pair.record];
      const theirs = pair.returned === null ? undefined : returned.reels[pair.returned.reel]?.frames[pair.returned.frame];
      const key = `${String(at)}:${String(p)}`;
      const ids = { findings: findingsAt.ids.get(key) ?? [], follows: findingsAt.follows.get(key) ?? [] };
      const differs = findingsAt.differs.has(key);
      return describe(
        mine,
        theirs,
        pair.exposure,
        record,
        returned,
        stateOf(
          mine,
          theirs,
          (pair.slot && (theirs !== undefined || pair.exposure !== null)) || (pair.exposure !== null && differs),
          compared,
          differs,
        ),
        ids,
      );
    });
    const number = reel?.text ?? returned.reels[alignment.returnReels[0] ?? -1]?.text ?? '';
    return { number, absent: absentOf(record, alignment.recordReel), frames };
  });
}

/** The reels of a record that nothing was held against. */
export function recordStrips(record: Side): ResultReel[] {
  return record.reels.map((reel, at) => ({
    number: reel.text,
    absent: absentOf(record, at),
    frames: reel.frames.map((frame) => describe(frame, undefined, null, record, record, 'not-compared', { findings: [], follows: [] })),
  }));
}

/** What the record states as absent on a reel; what it states of no reel stands with the first. */
function absentOf(record: Side, at: number | null): ResultReel['absent'] {
  const reel = at === null ? undefined : record.reels[at];
  return record.absences
    .filter((absence) => (absence.reel === null ? at === 0 : absence.reel === reel?.number))
    .map((absence) => ({
      title: absence.title,
      date: absence.date?.text ?? null,
      ...(absence.combinedWith === undefined ? {} : { combinedWith: absence.combinedWith }),
      edition: absence.edition,
      page: absence.page,
      published: absence.published,
    }));
}

function stateOf(
  mine: Frame | undefined,
  theirs: Frame | undefined,
  slot: boolean,
  compared: boolean,
  differs: boolean,
): ResultFrame['state'] {
  if (!compared) return 'not-compared';
  if (mine === undefined) return 'return-only';
  if (!slot && theirs === undefined) return differs ? 'record-only' : 'not-compared';
  return differs ? 'differs' : 'agrees';
}

function describe(
  mine: Frame | undefined,
  theirs: Frame | undefined,
  exposure: number | null,
  record: Side,
  returned: Side,
  state: ResultFrame['state'],
  { findings, follows }: { readonly findings: readonly string[]; readonly follows: readonly string[] },
): ResultFrame {
  const frame = mine ?? theirs;
  const issue = mine?.issue != null ? record.issues[mine.issue] : theirs?.issue != null ? returned.issues[theirs.issue] : undefined;
  return {
    frame: mine?.frame?.text ?? null,
    returned: (theirs?.frame?.inferred === true ? null : theirs?.frame?.text) ?? (exposure === null ? null : String(exposure)),
    returnedKind: theirs === undefined ? null : theirs.kind === 'page' || theirs.kind === 'target' ? theirs.kind : 'unmatched',
    state,
    kind: frame?.kind ?? 'other',
    deliver: mine?.deliver ?? false,
    title: issue?.title ?? null,
    date: issue?.date?.text ?? null,
    ...(issue?.combinedWith === undefined ? {} : { combinedWith: issue.combinedWith }),
    edition: issue === undefined ? null : (issue.edition ?? 1),
    section: frame?.section ?? null,
    page: frame?.page ?? null,
    order: frame?.order ?? null,
    condition: mine?.condition ?? [],
    sourceReel: mine?.sourceReel?.text ?? null,
    duplicateOf: mine?.duplicateOf?.text ?? null,
    files: (theirs?.files ?? []).flatMap((file) => (file.path === null ? [] : [{ use: file.use, path: file.path }])),
    findings,
    ...(follows.length === 0 ? {} : { follows }),
  };
}
