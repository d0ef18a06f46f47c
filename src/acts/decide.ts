import { basename } from 'node:path';
import type { DecisionInput, DecisionRecord, SampleSummary, Sourced } from '../model/decision.js';
import type { Findings } from '../model/findings.js';
import type { SavedSample } from '../model/sample.js';
import { decide, decisionMistakes } from '../payment/decide.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import type { JsonKind, JsonKinds } from '../read/schemas.js';
import { renderDecisionHtml } from '../report/decision/html.js';
import { decisionText } from '../report/decision/json.js';
import type { Seal } from '../report/decision/parts.js';
import { renderDecisionText } from '../report/decision/text.js';
import { listHash } from '../sampling/draw.js';
import { sampleSummary } from '../sampling/judge.js';
import { lotsOf } from '../sampling/lots.js';
import { policyDigest } from './outputs/policy-digest.js';
import type { ResultFile } from './outputs/results-folder.js';

/** What a decision rests on, as paths, and who decides on which day. */
export interface DecisionFiles {
  readonly findings: string;
  readonly samples: readonly string[];
  readonly invoice: string | null;
  readonly by: string;
  readonly on: string;
}

/** Every file that a decision puts into its folder. */
export const DECISION_FILES: ReadonlySet<string> = new Set(['decision.json', 'decision.html', 'decision.txt']);

/** Puts together what is decided about a delivery and on what grounds. Throws UserMistake. */
export async function decisionOf(files: DecisionFiles): Promise<DecisionRecord> {
  const findings = await sourced(files.findings, 'findings');
  const samples: Sourced<SampleSummary>[] = [];
  for (const path of files.samples) {
    const sample = await sourced(path, 'sample');
    refuseOtherLot(path, sample.value, findings.value);
    if (samples.some(({ value }) => value.listSha256 === sample.value.draw.listSha256 && value.seed === sample.value.draw.seed))
      throw new UserMistake(`${path}: this spot check was given already; each counts once.`);
    samples.push({ ...sample, value: sampleSummary(sample.value, sample.value.batch, sample.value.delivery) });
  }
  const invoice = files.invoice === null ? null : await sourced(files.invoice, 'invoice');
  const input: DecisionInput = { findings, samples, invoice, by: files.by, on: files.on };
  const mistakes = decisionMistakes(input);
  if (mistakes.length > 0) throw new UserMistake(mistakes.join('\n'));
  return decide(input);
}

/** A decision as the program reads it. */
export const decisionData = (record: DecisionRecord): ResultFile => ({ name: 'decision.json', content: decisionText(record) });

/** A decision as people read it; in a dossier its `seal` ties it to the journal. */
export function decisionPages(record: DecisionRecord, seal: Seal | null): readonly ResultFile[] {
  return [
    { name: 'decision.html', content: decisionPage(record, seal) },
    { name: 'decision.txt', content: renderDecisionText(record, 80, seal) },
  ];
}

/** A decision as the page that is printed and signed. */
export const decisionPage = (record: DecisionRecord, seal: Seal | null): string => renderDecisionHtml(record, policyDigest, seal);

async function sourced<K extends JsonKind>(path: string, kind: K): Promise<Sourced<JsonKinds[K]>> {
  const { value, sha256 } = await readJsonFile(path, kind);
  return { value, name: basename(path), sha256 };
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
