import { DECISION_FILES, DELIVERY_DECISIONS, decisionData, decisionOf, decisionPage, decisionPages, keepAccount } from '../acts/decide.js';
import { decideInDossier } from '../acts/dossier/decide.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import type { DeliveryDecision } from '../model/decision.js';
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
  readonly account?: string;
  readonly deliveryDecision: string;
  readonly release?: string;
  readonly also?: readonly string[];
  readonly reason?: string;
  readonly by: string;
  readonly second?: string;
  readonly on: string;
  readonly at?: string;
  readonly out?: string;
  readonly format?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const FORMATS = ['text', 'json', 'html'] as const;

/** Writes down what a person decides about a delivery and its money; gives the exit status of the decision, 2 for one that is put off. Throws UserMistake. */
export async function decideCommand(options: DecideArguments): Promise<number> {
  const { findings, sample: samples = [], account = null, release = null, also = [], reason = '', by, second = null, on } = options;
  const { out, replace = false, quiet = false } = options;
  const format = FORMATS.find((one) => one === (options.format ?? 'text'));
  if (format === undefined)
    throw new UserMistake(`--format: there is no format ${String(options.format)}. There are ${FORMATS.join(', ')}.`);
  const delivery = DELIVERY_DECISIONS.find((one) => one === options.deliveryDecision);
  if (delivery === undefined)
    throw new UserMistake(
      `--delivery-decision: "${options.deliveryDecision}" is not a decision. There are ${DELIVERY_DECISIONS.join(', ')}.`,
    );
  if (findings === undefined) return decideHere(options, delivery);
  if (out !== undefined) await refuseExisting(out, replace, DECISION_FILES);
  const made = await decisionOf({ findings, samples, account, delivery, release, also, reason, by, second, on });
  const { record } = made;
  // first the paper, then the money: an account without the decision that moved it would be worse than the other way round
  if (out !== undefined)
    await writeAndSay([decisionData(record), ...decisionPages(record, null)], { out, replace, quiet, ours: DECISION_FILES });
  await keepAccount(made);
  if (out === undefined)
    await print(
      format === 'json'
        ? decisionText(record)
        : format === 'html'
          ? decisionPage(record, null)
          : renderDecisionText(record, widthOf(process.stdout)),
    );
  return record.delivery === 'put-off' ? 2 : statusOf(record.delivery);
}

/** The same in a dossier, which knows what the decision rests on. */
async function decideHere(options: DecideArguments, delivery: DeliveryDecision): Promise<number> {
  const { release = null, also = [], reason = '', by, second = null, on, at, sample, account, out, format, replace, quiet } = options;
  const needs = 'Say which saved result is decided about: --findings findings.json.';
  const root = await typedInDossier(needs, { sample, account, out, format, replace });
  const around = surroundings({ quiet: quiet === true, ...(at === undefined ? {} : { at }) });
  const { record, folder, written } = await decideInDossier(root, { delivery, release, also, reason, by, second, on }, around);
  await print(renderDecisionText(record, widthOf(process.stdout)));
  if (quiet !== true) {
    sayWritten(root, folder, written);
    tell(`Print ${asTyped(root, `${folder}/decision.html`)} and have it signed: it names the journal as it stands now.\n`);
  }
  return record.delivery === 'put-off' ? 2 : statusOf(record.delivery);
}
