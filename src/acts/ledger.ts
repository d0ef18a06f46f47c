import { ledgerOf } from '../history/ledger.js';
import { ledgerMistakes } from '../history/ledger-batches.js';
import { accountMistakes } from '../history/ledger-money.js';
import type { Ledger } from '../model/ledger.js';
import { UserMistake } from '../read/mistake.js';
import { LEDGER_FORMATS, type LedgerFormat } from '../report/ledger/formats.js';
import { readLedgerFiles } from './inputs/ledger-files.js';
import { ledgerPaths } from './inputs/ledger-paths.js';
import type { LaterFile } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** Every file that a ledger can put into its folder. */
export const LEDGER_FILES: ReadonlySet<string> = new Set(LEDGER_FORMATS.flatMap(({ files }) => files.map(({ name }) => name)));

/** Tells the deliveries of batches and the batches of vendors over time, from saved results, samples, decisions and accounts, from dossiers and folders of results; `vendor` names one of them alone. Throws UserMistake. */
export async function toldLedger(paths: readonly string[], vendor: string | null, around: Surroundings): Promise<Ledger> {
  const input = await readLedgerFiles(await ledgerPaths(paths), around.now.slice(0, 10), around);
  if (input.results.length === 0)
    throw new UserMistake('None of these files is a saved result; a ledger needs at least one findings.json.');
  const mistakes = [...ledgerMistakes(input), ...accountMistakes(input)];
  if (mistakes.length > 0) throw new UserMistake(mistakes.join('\n'));
  const ledger = ledgerOf(input, vendor);
  if (vendor !== null && ledger.vendors.length === 0) throw unknownVendor(vendor, ledgerOf(input, null));
  return ledger;
}

/** A ledger in each of these forms, each made when it is written. */
export function ledgerFiles(ledger: Ledger, formats: readonly LedgerFormat[]): readonly LaterFile[] {
  return formats.flatMap(({ files }) => files.map(({ name, render }): LaterFile => ({ name, make: () => render(ledger, 80) })));
}

function unknownVendor(name: string, all: Ledger): UserMistake {
  const names = all.vendors.map(({ vendor }) => (vendor === '' ? '(not named in the agreement)' : vendor));
  return new UserMistake(`--vendor: none of the results is of ${name}. They are of ${names.join('; ')}.`);
}
