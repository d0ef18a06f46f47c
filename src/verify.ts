import { align } from './align/index.js';
import { compare } from './compare/index.js';
import { asOrdered, expectedReturn } from './expect/index.js';
import { withDoubts } from './explain/doubted.js';
import { explain } from './explain/index.js';
import { recogniseEarlier, sinceEarlier } from './history/earlier.js';
import { factsAt } from './history/facts.js';
import { followedSent, type Held } from './history/sent.js';
import { countsOf, NOTHING_CAME } from './judge/counts.js';
import { catalogueFor, findingsByPair, judgeFindings, plainFinding, uncheckedOf } from './judge/index.js';
import { neverStated } from './judge/never-stated.js';
import { strips } from './judge/strip.js';
import { verdictOf } from './judge/verdict.js';
import type { Side } from './model/film.js';
import type { Findings } from './model/findings.js';
import type { VerificationInput } from './model/verification.js';
import { issuesApart } from './normalise/copied-down.js';
import { priceCounts } from './payment/units.js';

/** Verifies a return against its collation record: aligns by frame order, compares, finds the causes, decides. Pure: the same input gives the same result. */
export function verify(input: VerificationInput): Findings {
  const { returned, agreement, run, earlier } = input;
  const { record, expected, alignments, compared, differences } = against(input.record, input);
  const followed =
    input.sent === undefined
      ? new Set<number>()
      : followedSent({ record, expected, alignments, differences }, against(input.sent.record, input));
  const { drafts, remarks: elsewhere } = explain(
    alignments,
    compared,
    record,
    expected,
    returned,
    agreement.policies,
    input.others,
    followed,
  );
  const problems = input.problems ?? [];
  const doubted = withDoubts(drafts, problems, { alignments, differences: compared.differences, record, returned });
  const { findings: named, stale } = judgeFindings(doubted, agreement, input.rulings);
  const { findings: judged, matched, remarks } = recogniseEarlier(named, earlier, run, input.contested);
  const findings = judged.map(plainFinding);
  const reels = strips(alignments, record, returned, findingsByPair(judged, compared.differences), findings);
  const told = [...compared.differences.map(({ field }) => field), ...compared.unfound.map(({ field }) => field)];
  const gaps = [
    ...compared.unfound.map((one) => one.unchecked),
    ...uncheckedOf(alignments, record, returned, agreement),
    ...neverStated(alignments, record, expected, returned, agreement, told),
  ];
  const facts = factsAt(alignments, record, compared.differences);
  const since = sinceEarlier(earlier, { run, agreement, reels, findings, unchecked: gaps }, matched, facts, input.textRead ?? false);
  const unchecked = [...gaps, ...since.unchecked];
  const pages = record.reels.flatMap((reel) => reel.frames).filter((frame) => frame.kind === 'page' && frame.deliver).length;
  return {
    format: 'reeltally/findings/2',
    tool: input.tool,
    run: { ...run, remarks: [...run.remarks, ...stale, ...elsewhere, ...since.remarks, ...remarks] },
    agreement,
    verdict: verdictOf(judged, unchecked, agreement, pages),
    counts: countsOf(
      reels,
      findings,
      compared.differences.length,
      priceCounts(agreement.terms.classes, { reels, findings }),
      returned.received ?? NOTHING_CAME,
    ),
    ...(input.sent === undefined ? {} : { sent: { changes: input.sent.changes } }),
    titles: record.titles.map(({ id, name, patterns }) => ({ id, name, patterns })),
    reels,
    findings,
    corrected: since.corrected,
    ...(since.pending.length === 0 ? {} : { pending: since.pending }),
    record: problems.map(({ item }) => item),
    unchecked,
    catalogue: catalogueFor([...findings, ...since.corrected, ...since.pending, ...problems.map(({ item }) => item)]),
  };
}

/** The return held against one state of the record. */
function against(
  written: Side,
  { returned, agreement: { policies }, stated = {} }: VerificationInput,
): Held & { readonly compared: ReturnType<typeof compare> } {
  const before = expectedReturn(written, policies, stated);
  const alignments = align(asOrdered(written, before), returned);
  const record = issuesApart(written, alignments, returned);
  const expected = record === written ? before : expectedReturn(record, policies, stated);
  const compared = compare(alignments, record, expected, returned, policies);
  return { record, expected, alignments, compared, differences: compared.differences };
}
