import { CODES, codeEntry } from '../catalogue/codes.js';
import type { ResolvedAgreement } from '../model/agreement.js';
import type { Alignment } from '../model/alignment.js';
import type { Difference } from '../model/difference.js';
import type { Side } from '../model/film.js';
import type { CatalogueEntry, Finding, Severity, Unchecked } from '../model/findings.js';
import type { Ruling } from '../model/rulings.js';
import { countedOn } from './counted-on.js';
import { withIds } from './ids.js';
import type { FindingsAt } from './strip.js';
import { SEVERITIES } from './verdict.js';

/** What diagnosis hands over: a finding before it has a name, a severity and a ruling, and what it explains and names. */
export type Diagnosed = Omit<Finding, 'id' | 'severity' | 'weighs' | 'ruling' | 'answer' | 'status'> & {
  readonly explains: readonly number[];
  readonly about: readonly { readonly alignment: number; readonly pair: number }[];
  readonly constant: boolean;
  readonly reach: unknown;
};

/** A finding with its severity, name and ruling; worst first, then in film order. */
export type Judged = Finding & Pick<Diagnosed, 'explains' | 'about' | 'constant' | 'reach'>;

/** Gives each finding the agreement's severity, a lasting name and the library's ruling, and orders them. Rulings without a finding come back as sentences. */
export function judgeFindings(
  drafts: readonly Diagnosed[],
  agreement: ResolvedAgreement,
  rulings: readonly Ruling[],
): { readonly findings: readonly Judged[]; readonly stale: readonly string[] } {
  const named = withIds(drafts).map((draft): Judged => {
    const ruling = rulings.findLast((entry) => entry.finding === draft.id);
    return {
      ...draft,
      severity: severityOf(draft.code, agreement),
      weighs: draft.constant ? 1 : Math.max(1, draft.count),
      ruling: ruling === undefined ? null : { decision: ruling.decision, note: ruling.note, by: ruling.by, on: ruling.on },
      answer: null,
    };
  });
  const findings = named
    .map((finding, index) => ({ finding, index, at: finding.about[0] ?? { alignment: Number.MAX_SAFE_INTEGER, pair: 0 } }))
    .sort(
      (a, b) =>
        rank(a.finding.severity) - rank(b.finding.severity) ||
        a.at.alignment - b.at.alignment ||
        a.at.pair - b.at.pair ||
        a.index - b.index,
    )
    .map(({ finding }) => finding);
  const known = new Set(findings.map((finding) => finding.id));
  const stale = rulings
    .filter((ruling) => !known.has(ruling.finding))
    .map((ruling) => `The ruling on ${ruling.finding} (${ruling.decision}, ${ruling.by} on ${ruling.on}) meets no finding any more.`);
  return { findings, stale };
}

function rank(severity: Severity): number {
  return SEVERITIES.indexOf(severity);
}

function severityOf(code: string, agreement: ResolvedAgreement): Severity {
  return agreement.severities[code] ?? codeEntry(code)?.severity ?? 'major';
}

/** What was not compared: whole reels, facts that the record itself calls uncertain, and what reading could not look at. */
export function uncheckedOf(alignments: readonly Alignment[], record: Side, returned: Side, agreement: ResolvedAgreement): Unchecked[] {
  const pairing = agreement.required.includes('pairing');
  // where no page was read that is said, and not that nothing came
  const nothingRead = (returned.unfound ?? []).some(({ field }) => field === 'pages');
  const reels = (nothingRead ? [] : alignments).flatMap((alignment): Unchecked[] => {
    if (alignment.pairs.some((pair) => pair.record !== null && pair.returned !== null)) return [];
    if (alignment.recordReel === null) {
      const reel = returned.reels[alignment.returnReels[0] ?? -1];
      return reel === undefined || reel.frames.length === 0
        ? []
        : [
            {
              ...(reel.numberInferred === true
                ? { what: 'pages for which the return gives no reel', why: 'no reel of the record holds what they show' }
                : { what: `reel ${reel.text} of the return`, why: 'the collation record has no such reel' }),
              frames: null,
              places: [reel.place],
              count: 1,
              required: pairing,
            },
          ];
    }
    const reel = record.reels[alignment.recordReel];
    return reel === undefined || !reel.frames.some((frame) => frame.deliver)
      ? []
      : [
          {
            what: `reel ${reel.text} of the record`,
            why: 'nothing of it is in this batch',
            frames: null,
            places: [reel.place],
            count: 1,
            required: pairing,
          },
        ];
  });
  const uncertain = record.issues.filter((issue) => issue.date?.uncertain === true);
  const dates: Unchecked[] = uncertain.map((issue) => ({
    what: `the date ${issue.date?.text ?? ''} of ${issue.title ?? 'an issue'}`,
    why: 'the record itself calls it uncertain',
    frames: null,
    places: [issue.place],
    count: 1,
    required: false,
  }));
  const inferred = alignments.flatMap((alignment) => countedOn(alignment, record, returned));
  return [...reels, ...dates, ...inferred, ...record.unchecked, ...filesOf(returned, agreement), ...returned.unchecked];
}

/** Uses of page files of which nothing came: this is a copy of the metadata alone. Where the files are required it is a finding. */
function filesOf({ fileUses = [] }: Side, { policies }: ResolvedAgreement): readonly Unchecked[] {
  const absent = policies.files === 'required' ? [] : fileUses.filter(({ came, named }) => !came && named > 0);
  if (absent.length === 0) return [];
  const uses = absent.map(({ use }) => use).join(', ');
  const what = fileUses.some(({ came }) => came) ? `page files (${uses})` : 'page files';
  const why = `No image files in this copy of the batch (${uses}), so it was not asked whether they are there.`;
  return [{ what, why, frames: null, places: [], count: absent.length, required: false }];
}

/**
 * Ids of the findings by `alignment:pair`, in the order of the findings, and the pairs at which anything differs at all. A finding that bears
 * on payment stands only at the frames that it names: a surplus image makes later numbers wrong, but puts no later page in dispute. What it
 * explains elsewhere follows from it.
 */
export function findingsByPair(findings: readonly Judged[], differences: readonly Difference[]): FindingsAt {
  const ids = new Map<string, string[]>();
  const follows = new Map<string, string[]>();
  const differs = new Set<string>();
  const keyOf = (ref: { readonly alignment: number; readonly pair: number }): string => `${String(ref.alignment)}:${String(ref.pair)}`;
  const enter = (map: Map<string, string[]>, key: string, id: string): void => {
    const list = map.get(key);
    if (list === undefined) map.set(key, [id]);
    else list.push(id);
  };
  for (const finding of findings) {
    const named = new Set(finding.about.map(keyOf));
    const touched = new Set(finding.explains.flatMap((id) => differences[id]?.pairs ?? []).map(keyOf));
    const paid = finding.billable.length > 0 || finding.rescan === 'yes';
    for (const key of new Set([...named, ...touched])) {
      differs.add(key);
      enter(paid && !named.has(key) ? follows : ids, key, finding.id);
    }
  }
  return { ids, follows, differs };
}

/** The finding as it is saved, without what only judging needs. */
export function plainFinding(judged: Judged): Finding {
  const inner: readonly string[] = ['explains', 'about', 'constant', 'reach'];
  return Object.fromEntries(Object.entries(judged).filter(([key]) => !inner.includes(key))) as unknown as Finding;
}

/** The catalogue entries that a result needs to explain itself. */
export function catalogueFor(findings: readonly { readonly code: string }[]): CatalogueEntry[] {
  const used = new Set(findings.map((finding) => finding.code));
  return CODES.filter((entry) => used.has(entry.code)).map((entry) => ({ ...entry }));
}
