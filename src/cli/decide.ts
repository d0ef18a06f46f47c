import { basename } from 'node:path';
import type { DecisionInput, SampleSummary, Sourced } from '../model/decision.js';
import type { Findings } from '../model/findings.js';
import type { SavedSample } from '../model/sample.js';
import { decide, decisionMistakes } from '../payment/decide.js';
import { readJsonFile } from '../read/json.js';
import { UserMistake } from '../read/mistake.js';
import type { JsonKind, JsonKinds } from '../read/schemas.js';
import { renderDecisionHtml } from '../report/decision/html.js';
import { decisionText } from '../report/decision/json.js';
import { renderDecisionText } from '../report/decision/text.js';
import { listHash } from '../sampling/draw.js';
import { sampleSummary } from '../sampling/judge.js';
import { lotsOf } from '../sampling/lots.js';
import { statusOf } from './exit-status.js';
import { policyDigest } from './policy-digest.js';
import { refuseExisting, writeResults } from './results-folder.js';
import { print, tell, widthOf } from './streams.js';

/** Options of `decide` as they come from the command line. */
export interface DecideArguments {
  readonly findings: string;
  readonly sample?: readonly string[];
  readonly invoice?: string;
  readonly by: string;
  readonly on: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const DECISION_FILES: ReadonlySet<string> = new Set(['decision.json', 'decision.html', 'decision.txt']);
const FORMATS = ['text', 'json', 'html'] as const;

/** Writes down what is decided about a delivery and on what grounds; gives the exit status of the decision. Throws UserMistake. */
export async function decideCommand(options: DecideArguments): Promise<number> {
  const { by, on, out, replace = false } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  if (out !== undefined) await refuseExisting(out, replace, DECISION_FILES);
  const findings = await sourced(options.findings, 'findings');
  const samples: Sourced<SampleSummary>[] = [];
  for (const path of options.sample ?? []) {
    const sample = await sourced(path, 'sample');
    refuseOtherLot(path, sample.value, findings.value);
    if (samples.some(({ value }) => value.listSha256 === sample.value.draw.listSha256 && value.seed === sample.value.draw.seed))
      throw new UserMistake(`${path}: this spot check was given already; each counts once.`);
    samples.push({ ...sample, value: sampleSummary(sample.value, sample.value.batch, sample.value.delivery) });
  }
  const invoice = options.invoice === undefined ? null : await sourced(options.invoice, 'invoice');
  const input: DecisionInput = { findings, samples, invoice, by, on };
  const mistakes = decisionMistakes(input);
  if (mistakes.length > 0) throw new UserMistake(mistakes.join('\n'));
  const record = decide(input);
  if (out === undefined) {
    await print(
      format === 'json'
        ? decisionText(record)
        : format === 'html'
          ? renderDecisionHtml(record, policyDigest)
          : renderDecisionText(record, widthOf(process.stdout)),
    );
  } else {
    const files = [
      { name: 'decision.json', content: decisionText(record) },
      { name: 'decision.html', content: renderDecisionHtml(record, policyDigest) },
      { name: 'decision.txt', content: renderDecisionText(record, 80) },
    ];
    await writeResults(out, files, replace, DECISION_FILES);
    if (options.quiet !== true) tell(`Written to ${out}: ${files.map(({ name }) => name).join(', ')}.\n`);
  }
  return statusOf(record.decision);
}

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
