import { DECISION_FILES, decisionFiles, decisionOf, decisionPage } from '../acts/decide.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { decisionText } from '../report/decision/json.js';
import { renderDecisionText } from '../report/decision/text.js';
import { statusOf } from './exit-status.js';
import { writeAndSay } from './folder.js';
import { print, widthOf } from './streams.js';

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

const FORMATS = ['text', 'json', 'html'] as const;

/** Writes down what is decided about a delivery and on what grounds; gives the exit status of the decision. Throws UserMistake. */
export async function decideCommand(options: DecideArguments): Promise<number> {
  const { findings, sample: samples = [], invoice = null, by, on, out, replace = false, quiet = false } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  if (out !== undefined) await refuseExisting(out, replace, DECISION_FILES);
  const record = await decisionOf({ findings, samples, invoice, by, on });
  if (out === undefined) {
    await print(
      format === 'json'
        ? decisionText(record)
        : format === 'html'
          ? decisionPage(record)
          : renderDecisionText(record, widthOf(process.stdout)),
    );
  } else await writeAndSay(decisionFiles(record), { out, replace, quiet, ours: DECISION_FILES });
  return statusOf(record.decision);
}
