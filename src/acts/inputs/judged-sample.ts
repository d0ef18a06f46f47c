import { basename, dirname, join } from 'node:path';
import type { Sampling } from '../../model/agreement.js';
import type { DecidedSample, Sourced } from '../../model/decision.js';
import type { Findings } from '../../model/findings.js';
import type { SavedSample } from '../../model/sample.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { listHash } from '../../sampling/draw.js';
import { judgeSample, sampleSummary } from '../../sampling/judge.js';
import { lotsOf } from '../../sampling/lots.js';
import { savedSample } from '../../sampling/saved.js';
import { readAnsweredWorksheet } from './answered-worksheet.js';

/** What a decision rests on of one spot check, and what tells it from another. */
export interface JudgedFile {
  readonly sample: Sourced<DecidedSample>;
  readonly draw: string;
}

/**
 * Reads a judged spot check and judges it again from its draw and worksheet, which lie beside it. A result that does not follow from them
 * was changed by hand and is refused. Throws UserMistake.
 */
export async function readJudgedSample(path: string, findings: Findings): Promise<JudgedFile> {
  const { value, sha256 } = await readJsonFile(path, 'sample');
  refuseOtherLot(path, value, findings);
  refuseContradiction(path, value);
  const judgedAgain = await judgedAgainAs(path, value);
  const summary = sampleSummary(value, value.batch, value.delivery);
  const lots = value.lot.by === 'reel' ? [value.lot.name] : reelLots(findings);
  const agreed = isAgreed(value, findings.agreement.sampling);
  return {
    sample: { value: { ...summary, lots, agreed, judgedAgain }, name: basename(path), sha256 },
    draw: `${value.draw.listSha256} ${value.draw.seed}`,
  };
}

/** The lots that are to be looked at: every reel of which pages came. */
export function reelLots(findings: Findings): readonly string[] {
  return lotsOf(findings, 'page', 'reel').map(({ name }) => name);
}

/** Drawn by the plan, and of the units, that the agreement says. */
function isAgreed({ draw: { plan, unit } }: SavedSample, sampling: Sampling): boolean {
  if (unit !== sampling.unit || plan.kind !== sampling.plan) return false;
  if (plan.kind === 'limiting-quality')
    return Number(plan.limit) <= Number(sampling.limitingQuality) && Number(plan.risk) <= Number(sampling.risk);
  return plan.kind === 'share' || (plan.level === sampling.level && Number(plan.aql) === Number(sampling.aql));
}

/** A spot check speaks for this return only where its list is still the list of the lot: the hash was taken before the draw. */
function refuseOtherLot(path: string, { batch, delivery, lot, draw }: SavedSample, findings: Findings): void {
  // another batch or delivery is told with the other mistakes
  if (batch !== findings.run.batch || delivery !== findings.run.delivery) return;
  const hashes = lotsOf(findings, draw.unit, lot.by)
    .filter(({ name }) => name === lot.name)
    .map(({ list }) => listHash(list.map(({ id }) => id)));
  if (hashes.includes(draw.listSha256)) return;
  throw new UserMistake(
    `${path}: this spot check was drawn from another list of ${lot.by === 'reel' ? `reel ${lot.name}` : 'the batch'} than these findings give: the return or the record has changed since. Draw and look again.`,
  );
}

/** What the file says of itself must hang together, whether or not its sources are at hand. */
function refuseContradiction(path: string, { draw: { plan }, drawn, wrong, outcome, wrongOnes }: SavedSample): void {
  const random = wrongOnes.filter((one) => one.random).length;
  const passes = wrong <= plan.accept || (outcome === 'accepted-back-to-normal' && wrong < plan.reject);
  if (drawn === plan.size && random === wrong && passes === (outcome !== 'rejected')) return;
  throw new UserMistake(
    `${path}: this spot check contradicts itself (${String(drawn)} drawn, ${String(wrong)} wrong, ${String(random)} of them named, ${outcome}): it was changed by hand. Judge it again with "reeltally sample judge".`,
  );
}

/** Judges the sample again; false where draw or worksheet do not lie beside it. Throws UserMistake where it comes out otherwise. */
async function judgedAgainAs(path: string, sample: SavedSample): Promise<boolean> {
  const source = (role: string): { readonly name: string; readonly sha256: string } | undefined =>
    sample.inputs.find((input) => input.role === role);
  const [drawFile, sheetFile] = [source('draw'), source('worksheet')];
  if (drawFile === undefined || sheetFile === undefined) return false;
  const at = (name: string): string => join(dirname(path), basename(name));
  const draw = await readJsonFile(at(drawFile.name), 'draw').catch(absent);
  if (draw === null) return false;
  const answers = await readAnsweredWorksheet(at(sheetFile.name), draw.value, sample.by === '' ? undefined : sample.by).catch(absent);
  if (answers === null) return false;
  const changed = [
    ...(draw.sha256 === drawFile.sha256 ? [] : [drawFile.name]),
    ...(answers.sha256 === sheetFile.sha256 ? [] : [sheetFile.name]),
  ];
  if (changed.length > 0)
    throw new UserMistake(
      `${path}: ${changed.join(' and ')} changed since the spot check was judged. Judge it again with "reeltally sample judge".`,
    );
  const judged = judgeSample(draw.value, answers.sheet);
  const again = 'refused' in judged ? null : savedSample(judged, draw.value, answers.sheet, sample.inputs);
  if (again !== null && sameOutcome(again, sample)) return true;
  throw new UserMistake(
    `${path}: judged again from ${drawFile.name} and ${sheetFile.name} the spot check comes out otherwise: the file was changed by hand. Judge it again with "reeltally sample judge".`,
  );
}

function sameOutcome(a: SavedSample, b: SavedSample): boolean {
  // how the next lot is inspected follows from a ledger that is not at hand here
  const of = (sample: SavedSample): string => JSON.stringify(sorted({ ...sample, next: null }));
  return of(a) === of(b);
}

/** The same value with its keys in one order. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, one]) => [key, sorted(one)]),
  );
}

function absent(error: unknown): null {
  if (error instanceof UserMistake) return null;
  throw error;
}
