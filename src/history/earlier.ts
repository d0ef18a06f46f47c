import { codeEntry } from '../catalogue/codes.js';
import type { Finding, Findings, Run, Unchecked } from '../model/findings.js';
import { changedPolicies } from './agreed.js';
import { carryOver } from './carry.js';
import type { FactsAt } from './facts.js';
import { type Comparison, fateOf } from './fate.js';
import { mapFilm, spotsOf } from './film-map.js';
import { type Matched, matchFindings } from './match.js';
import { filesChanged } from './record-change.js';

/** What an earlier delivery adds to a result. */
export interface SinceEarlier {
  readonly corrected: readonly Finding[];
  readonly pending: readonly Finding[];
  readonly unchecked: readonly Unchecked[];
  readonly remarks: readonly string[];
}

/** Finds the earlier findings again among these, and gives each its status and what was decided and answered before. Without an earlier result all stays as it is. */
export function recogniseEarlier<T extends Finding>(
  findings: readonly T[],
  earlier: Findings | null,
  run: Run,
  contested: readonly string[] = [],
): { readonly findings: readonly T[]; readonly matched: Matched; readonly remarks: readonly string[] } {
  if (earlier === null) return { findings, matched: { before: new Map(), kept: new Map(), gone: [], renamed: [] }, remarks: [] };
  const known = [...earlier.findings, ...(earlier.pending ?? [])];
  const matched = matchFindings(findings, known, filesChanged(earlier, { run }, 'collation') === true);
  const named = findings.map((finding): T => ({ ...finding, id: matched.kept.get(finding.id) ?? finding.id }));
  return { ...carryOver(named, matched.before, earlier.run.delivery, new Set(contested)), matched };
}

/** Sorts the earlier findings that are gone: corrected where that was seen, pending with the reason where it was not. */
export function sinceEarlier(
  earlier: Findings | null,
  now: Comparison['now'],
  matched: Matched,
  facts: FactsAt,
  textRead: boolean,
): SinceEarlier {
  if (earlier === null) return { corrected: [], pending: [], unchecked: [], remarks: [] };
  const both = compared(earlier, now, matched, facts, textRead);
  const corrected: Finding[] = [];
  const pending: Finding[] = [];
  const unchecked: Unchecked[] = [];
  for (const finding of matched.gone) {
    const fate = fateOf(finding, both);
    if (fate.is === 'corrected') corrected.push({ ...plain(finding), changed: fate.changed });
    else {
      pending.push(plain(finding));
      const what = `whether ${finding.id} of delivery ${String(earlier.run.delivery)} was corrected`;
      const required = fate.required && weighs(finding);
      unchecked.push({ what, why: fate.why, frames: finding.frames, places: finding.places, count: 1, required });
    }
  }
  return { corrected, pending, unchecked, remarks: [...remarksOn(earlier, now, matched), ...again(earlier, now, matched)] };
}

function compared(earlier: Findings, now: Comparison['now'], matched: Matched, facts: FactsAt, textRead: boolean): Comparison {
  const groups = new Map(earlier.catalogue.map((entry) => [entry.code, entry.group]));
  const [was, is] = [mapFilm(earlier.reels), mapFilm(now.reels)];
  return {
    earlier,
    now,
    was,
    is,
    here: new Map(now.findings.map((finding) => [finding.id, new Set(spotsOf(finding, is))])),
    there: new Map([...matched.before].map(([id, finding]) => [id, new Set(spotsOf(finding, was))])),
    groupOf: (code) => codeEntry(code)?.group ?? groups.get(code) ?? '',
    facts,
    textRead,
  };
}

/** The finding without what only holds in its own result. */
function plain(finding: Finding): Finding {
  const inner: readonly string[] = ['status', 'changed'];
  return Object.fromEntries(Object.entries(finding).filter(([key]) => !inner.includes(key))) as unknown as Finding;
}

/** A finding that alone could keep a batch from being accepted: it may not be forgotten because nobody could look. */
function weighs({ severity, cause, ruling }: Finding): boolean {
  if (cause === 'film' || (ruling !== null && ruling.decision !== 'vendor-corrects')) return false;
  return severity === 'critical' || severity === 'major';
}

/** What else is not as it was, and bears on the comparison of the two deliveries. */
function remarksOn(earlier: Findings, now: Comparison['now'], matched: Matched): readonly string[] {
  const { run } = earlier;
  const policies = changedPolicies(
    run.profile === now.run.profile ? earlier.agreement.policies : now.agreement.policies,
    now.agreement.policies,
  );
  return [
    ...(run.batch === now.run.batch
      ? []
      : [
          `The earlier result is of ${run.batch}, this one of ${now.run.batch}: taken for the same batch, because both are of the same reel.`,
        ]),
    ...(filesChanged(earlier, now, 'batch') === false
      ? ["The vendor's documents are the same as in the earlier delivery, byte for byte."]
      : []),
    ...(filesChanged(earlier, now, 'collation') === true ? ['The collation record was changed since the earlier delivery.'] : []),
    ...(run.profile === now.run.profile
      ? []
      : [`The earlier delivery was read with the profile ${run.profile}, this one with ${now.run.profile}.`]),
    ...policies.map(
      ({ policy, was, is }) => `The policy "${policy}" of the agreement was ${was} for the earlier delivery and is ${is} now.`,
    ),
    ...matched.renamed.map(({ was, is }) => `${was} is listed as ${is} now, because the record numbers its frames otherwise.`),
  ];
}

/** Findings that had been corrected once and are there again. */
function again(earlier: Findings, now: Comparison['now'], matched: Matched): readonly string[] {
  const once = new Set(earlier.corrected.map((finding) => finding.id));
  return now.findings
    .filter((finding) => once.has(finding.id) && !matched.before.has(finding.id))
    .map((finding) => `${finding.id} had been corrected by delivery ${String(earlier.run.delivery)} and is there again.`);
}
