import { basename, dirname, join } from 'node:path';
import type { DecidedSample, Sourced } from '../../model/decision.js';
import type { Findings } from '../../model/findings.js';
import type { SavedDraw, SavedSample } from '../../model/sample.js';
import { readJsonFile } from '../../read/json.js';
import { UserMistake } from '../../read/mistake.js';
import { planAgain } from '../../sampling/again.js';
import { isAgreedPlan } from '../../sampling/agreed.js';
import { listHash } from '../../sampling/draw.js';
import { sampleSummary } from '../../sampling/judge.js';
import { lotsOf } from '../../sampling/lots.js';
import { sampleFrom } from '../sample-judge.js';
import { type AnsweredFile, readAnsweredWorksheet } from './answered-worksheet.js';

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
  const { plan, unit } = value.draw;
  const again = planAgain(plan, plan.lot, null);
  const sound = JSON.stringify(sorted(again)) === JSON.stringify(sorted(plan));
  const agreed = sound && isAgreedPlan(plan, unit, value.next !== null, findings.agreement.sampling);
  return {
    sample: { value: { ...summary, lots, agreed, judgedAgain }, name: basename(path), sha256 },
    draw: `${value.draw.listSha256} ${value.draw.seed}`,
  };
}

/** The lots that are to be looked at: every reel of which pages came. */
export function reelLots(findings: Findings): readonly string[] {
  return lotsOf(findings, 'page', 'reel').map(({ name }) => name);
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

/** Judges the sample again; false where the draw or a worksheet is not at hand. Throws UserMistake where it comes out otherwise. */
async function judgedAgainAs(path: string, sample: SavedSample): Promise<boolean> {
  const of = (role: string): SavedSample['inputs'] => sample.inputs.filter((input) => input.role === role);
  const [drawFile] = of('draw');
  const sheets = of('worksheet');
  if (drawFile === undefined || sheets.length === 0) return false;
  const draw = await readJsonFile(join(dirname(path), basename(drawFile.name)), 'draw').catch(absent);
  if (draw === null) return false;
  const files: AnsweredFile[] = [];
  for (const { name } of sheets) {
    const file = await beside(path, basename(name), draw.value, sample.by);
    if (file === null) return false;
    files.push(file);
  }
  const changed = [
    ...(draw.sha256 === drawFile.sha256 ? [] : [drawFile.name]),
    ...sheets.flatMap(({ name, sha256 }, at) => (files[at]?.sha256 === sha256 ? [] : [name])),
  ];
  if (changed.length > 0)
    throw new UserMistake(
      `${path}: ${changed.join(' and ')} changed since the spot check was judged. Judge it again with "reeltally sample judge".`,
    );
  const again = sampleFrom(draw.value, files, sample.by, sample.inputs);
  if (!('refused' in again) && sameOutcome(again, sample)) return true;
  throw new UserMistake(
    `${path}: judged again from ${[drawFile, ...sheets].map(({ name }) => name).join(' and ')} the spot check comes out otherwise: the file was changed by hand. Judge it again with "reeltally sample judge".`,
  );
}

/** A worksheet beside the spot check, or one folder up, where those of several lots lie. */
async function beside(path: string, name: string, draw: SavedDraw, by: string): Promise<AnsweredFile | null> {
  const own = await readAnsweredWorksheet(join(dirname(path), name), draw, by).catch(absent);
  return own ?? readAnsweredWorksheet(join(dirname(path), '..', name), draw, by).catch(absent);
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
