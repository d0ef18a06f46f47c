import { statusOfDossier } from '../acts/dossier/status.js';
import { verifyInDossier } from '../acts/dossier/verify.js';
import { type VerificationFiles, verification } from '../acts/verify.js';
import { agreementHelp } from '../judge/agreement-help.js';
import { NAMED_PROFILES } from '../profiles/index.js';
import { UserMistake } from '../read/mistake.js';
import { nextInWords } from '../report/status.js';
import { checkDestination, deliver, sayClosing } from './deliver.js';
import { statusOf } from './exit-status.js';
import { chosenFormats } from './formats.js';
import { asTyped, sayWritten, typedInDossier } from './in-dossier.js';
import { print, tell } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `verify` as they come from the command line. */
export interface VerifyArguments extends Partial<VerificationFiles> {
  readonly at?: string;
  readonly out?: string;
  readonly format?: readonly string[];
  readonly replace?: true;
  readonly quiet?: true;
  readonly helpAgreement?: true;
}

/** Links lead into one folder: with several, nobody could say from a path in which of them a file lies. */
const linked = ([batch, ...more]: readonly string[]): { readonly batch?: string } =>
  batch === undefined || more.length > 0 ? {} : { batch };

const NEEDS = 'Say what to compare: the collation record with --collation FILE and what the vendor sent with --batch DIR.';

/** Verifies what the vendor sent, delivers the result and gives the exit status of the verdict. */
export async function verifyCommand(options: VerifyArguments): Promise<number> {
  if (options.helpAgreement === true) {
    await print(agreementHelp(NAMED_PROFILES));
    return 0;
  }
  const { collation, batch } = options;
  if (collation === undefined) return verifyHere(options);
  if (batch === undefined) throw new UserMistake(NEEDS);
  const folder = options.out ?? null;
  const quiet = options.quiet ?? false;
  const destination = {
    formats: chosenFormats(options.format, folder !== null),
    folder,
    replace: options.replace ?? false,
    quiet,
    ...linked(batch),
  };
  await checkDestination(destination);
  const around = surroundings({ quiet, ...(options.at === undefined ? {} : { at: options.at }) });
  const result = await verification({ ...options, collation, batch }, around).finally(around.end);
  // The summary says them itself.
  if (!quiet && !destination.formats.includes('text')) for (const remark of result.run.remarks) tell(`${remark}\n`);
  await deliver(result, destination);
  return statusOf(result.verdict.decision);
}

/** The same in a dossier, which knows the record, the terms, the delivery before, and where results are kept. */
async function verifyHere(options: VerifyArguments): Promise<number> {
  const {
    at,
    quiet = false,
    batch,
    delivery,
    received,
    readText,
    fixity,
    agreement,
    profile,
    rulings,
    answers,
    earlier,
    out,
    format,
  } = options;
  const root = await typedInDossier(NEEDS, { agreement, profile, rulings, answers, earlier, out, format, replace: options.replace });
  const around = surroundings({ quiet, ...(at === undefined ? {} : { at }) });
  const wish = {
    ...(batch === undefined ? {} : { batch }),
    ...(delivery === undefined ? {} : { delivery }),
    ...(received === undefined ? {} : { received }),
    ...(readText === undefined ? {} : { readText }),
    ...(fixity === undefined ? {} : { fixity }),
  };
  const { result, folder, written } = await verifyInDossier(root, wish, around).finally(around.end);
  if (!quiet) {
    if (written.length === 0) tell(`Nothing has changed: the result in ${asTyped(root, folder)} still stands.\n`);
    else sayWritten(root, folder, written);
    const { next } = await statusOfDossier(root, around);
    sayClosing(result, nextInWords(next));
  }
  return statusOf(result.verdict.decision);
}
