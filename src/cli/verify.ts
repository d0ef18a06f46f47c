import { type VerificationFiles, verification } from '../acts/verify.js';
import { agreementHelp } from '../judge/agreement-help.js';
import { NAMED_PROFILES } from '../profiles/index.js';
import { UserMistake } from '../read/mistake.js';
import { checkDestination, deliver } from './deliver.js';
import { statusOf } from './exit-status.js';
import { chosenFormats } from './formats.js';
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

/** Verifies what the vendor sent, delivers the result and gives the exit status of the verdict. */
export async function verifyCommand(options: VerifyArguments): Promise<number> {
  if (options.helpAgreement === true) {
    await print(agreementHelp(NAMED_PROFILES));
    return 0;
  }
  const { collation, batch } = options;
  if (collation === undefined || batch === undefined) {
    throw new UserMistake('Say what to compare: the collation record with --collation FILE and what the vendor sent with --batch DIR.');
  }
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
