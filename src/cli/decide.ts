import { DECISION_FILES, decisionData, decisionOf, decisionPage, decisionPages } from '../acts/decide.js';
import { decideInDossier } from '../acts/dossier/decide.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { decisionText } from '../report/decision/json.js';
import { renderDecisionText } from '../report/decision/text.js';
import { statusOf } from './exit-status.js';
import { writeAndSay } from './folder.js';
import { asTyped, sayWritten, typedInDossier } from './in-dossier.js';
import { print, tell, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `decide` as they come from the command line. */
export interface DecideArguments {
  readonly findings?: string;
  readonly sample?: readonly string[];
  readonly invoice?: string;
  readonly by: string;
  readonly on: string;
  readonly at?: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const FORMATS = ['text', 'json', 'html'] as const;

/** Writes down what is decided about a delivery and on what grounds; gives the exit status of the decision. Throws UserMistake. */
export async function decideCommand(options: DecideArguments): Promise<number> {
  const { findings, sample: samples = [], invoice = null, by, on, out, replace = false, quiet = false } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  if (findings === undefined) return decideHere(options);
  if (out !== undefined) await refuseExisting(out, replace, DECISION_FILES);
  const record = await decisionOf({ findings, samples, invoice, by, on });
  if (out === undefined) {
    await print(
      format === 'json'
        ? decisionText(record)
        : format === 'html'
          ? decisionPage(record, null)
          : renderDecisionText(record, widthOf(process.stdout)),
    );
  } else await writeAndSay([decisionData(record), ...decisionPages(record, null)], { out, replace, quiet, ours: DECISION_FILES });
  return statusOf(record.decision);
}

/** The same in a dossier, which knows what the decision rests on. */
async function decideHere({ by, on, at, sample, invoice, out, format, replace, quiet }: DecideArguments): Promise<number> {
  const needs = 'Say which saved result is decided about: --findings findings.json.';
  const root = await typedInDossier(needs, { sample, invoice, out, format, replace });
  const around = surroundings({ quiet: quiet === true, ...(at === undefined ? {} : { at }) });
  const { record, folder, written } = await decideInDossier(root, { by, on }, around);
  await print(renderDecisionText(record, widthOf(process.stdout)));
  if (quiet !== true) {
    sayWritten(root, folder, written);
    tell(`Print ${asTyped(root, `${folder}/decision.html`)} and have it signed: it names the journal as it stands now.\n`);
  }
  return statusOf(record.decision);
}
