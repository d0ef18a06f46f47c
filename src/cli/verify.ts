import { statusOfDossier } from '../acts/dossier/status.js';
import { verifyInDossier } from '../acts/dossier/verify.js';
import { type VerificationFiles, verification } from '../acts/verify.js';
import { verifyInto } from '../acts/verify-into.js';
import { agreementHelp } from '../judge/agreement-help.js';
import type { Findings } from '../model/findings.js';
import { NAMED_PROFILES } from '../profiles/index.js';
import { UserMistake } from '../read/mistake.js';
import { nextInWords } from '../report/status.js';
import { checkDestination, deliver, sayClosing, sayDelivered } from './deliver.js';
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
  readonly batches?: string;
  readonly ifChanged?: true;
  readonly exit?: string;
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
  const exit = exitOf(options.exit);
  if (options.batches !== undefined) return verifyList(options.batches, options, exit);
  const { collation, batch } = options;
  if (collation === undefined) return exit(await verifyHere(options));
  if (batch === undefined) throw new UserMistake(NEEDS);
  const { out: folder, quiet = false, replace = false, ifChanged = false } = options;
  const formats = chosenFormats(options.format, folder !== undefined);
  if (folder === undefined && ifChanged) throw new UserMistake('--if-changed looks at the result in a folder: name the folder with --out.');
  const destination = { formats, folder: folder ?? null, replace, quiet, ...linked(batch) };
  // With --if-changed a result that is there may be the right one.
  if (!ifChanged) await checkDestination(destination);
  const around = surroundings({ quiet, ...(options.at === undefined ? {} : { at: options.at }) });
  const files = { ...verificationFiles(options), collation, batch };
  if (folder === undefined) {
    const result = await verification(files, around).finally(around.end);
    sayRemarks(result, quiet || formats.includes('text'));
    await deliver(result, destination);
    return exit(statusOf(result.verdict.decision));
  }
  const { result, written } = await verifyInto(files, { folder, formats, replace, ifChanged }, around).finally(around.end);
  sayRemarks(result, quiet || formats.includes('text'));
  if (!quiet) sayDelivered(result, folder, written);
  return exit(statusOf(result.verdict.decision));
}

/** The summary says them itself. */
function sayRemarks({ run }: Findings, isSaid: boolean): void {
  if (!isSaid) for (const remark of run.remarks) tell(`${remark}\n`);
}

const FILE_OPTIONS = [
  'collation',
  'batch',
  'profile',
  'agreement',
  'rulings',
  'answers',
  'earlier',
  'sent',
  'other',
  'delivery',
  'received',
  'readText',
  'fixity',
] as const satisfies readonly (keyof VerificationFiles)[];

/** What is to be read, without what is to be done with the result. */
function verificationFiles(options: VerifyArguments): Partial<VerificationFiles> {
  return Object.fromEntries(FILE_OPTIONS.flatMap((name) => (options[name] === undefined ? [] : [[name, options[name]]])));
}

/** The exit status as it was asked for. Throws UserMistake. */
function exitOf(wish: string | undefined): (status: number) => number {
  if (wish === undefined || wish === 'verdict') return (status) => status;
  if (wish === 'ran') return () => 0;
  throw new UserMistake(`--exit: ${wish} is none of verdict (the status tells the verdict) and ran (0 whenever a result was written).`);
}

/** Many batches, each with a result of its own: a line of JSON for each. The status is the highest of theirs. */
async function verifyList(list: string, options: VerifyArguments, exit: (status: number) => number): Promise<number> {
  const { batch, quiet = false, replace = false, ifChanged = false, at, out, format } = options;
  if (batch !== undefined) throw new UserMistake('--batch names one batch and --batches a list of them; give one of the two.');
  const { verifyBatches } = await import('./batches.js');
  const all = { ...verificationFiles(options), ...(out === undefined ? {} : { out }) };
  const wish = { formats: chosenFormats(format, true), replace, ifChanged, quiet, ...(at === undefined ? {} : { at }) };
  const outcomes = await verifyBatches(list, all, wish);
  return Math.max(...outcomes.map(({ status, ran }) => (ran ? exit(status) : status)));
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
