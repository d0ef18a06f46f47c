import { ledgerOf } from '../history/ledger.js';
import { ledgerMistakes } from '../history/ledger-batches.js';
import type { Ledger } from '../model/ledger.js';
import { UserMistake } from '../read/mistake.js';
import { LEDGER_FORMATS, type LedgerFormat } from '../report/ledger/formats.js';
import { readLedgerFiles } from './inputs/ledger-files.js';
import type { ResultFile } from './outputs/results-folder.js';

/** Every file that a ledger can put into its folder. */
export const LEDGER_FILES: ReadonlySet<string> = new Set(LEDGER_FORMATS.flatMap(({ files }) => files.map(({ name }) => name)));

/** Tells the deliveries of batches and the batches of vendors over time, from saved results, samples and decisions; `vendor` names one of them alone. Throws UserMistake. */
export async function toldLedger(paths: readonly string[], vendor: string | null): Promise<Ledger> {
  const input = await readLedgerFiles(paths);
  if (input.results.length === 0)
    throw new UserMistake('None of these files is a saved result; a ledger needs at least one findings.json.');
  const mistakes = ledgerMistakes(input);
  if (mistakes.length > 0) throw new UserMistake(mistakes.join('\n'));
  const ledger = ledgerOf(input, vendor);
  if (vendor !== null && ledger.vendors.length === 0) throw unknownVendor(vendor, ledgerOf(input, null));
  return ledger;
}

/** A ledger in each of these forms. */
export function ledgerFiles(ledger: Ledger, formats: readonly LedgerFormat[]): readonly ResultFile[] {
  return formats.flatMap((format) => format.files.map(({ name, render }) => ({ name, content: render(ledger, 80) })));
}

function unknownVendor(name: string, all: Ledger): UserMistake {
  const names = all.vendors.map(({ vendor }) => (vendor === '' ? '(not named in the agreement)' : vendor));
  return new UserMistake(`--vendor: none of the results is of ${name}. They are of ${names.join('; ')}.`);
}
