import { ledgerOf } from '../history/ledger.js';
import { ledgerMistakes } from '../history/ledger-batches.js';
import type { Ledger } from '../model/ledger.js';
import { UserMistake } from '../read/mistake.js';
import { LEDGER_FORMATS, type LedgerFormat } from '../report/ledger/formats.js';
import { readLedgerFiles } from './ledger-files.js';
import { refuseExisting, writeResults } from './results-folder.js';
import { print, tell, widthOf } from './streams.js';

/** Options of `ledger` as they come from the command line. */
export interface LedgerArguments {
  readonly vendor?: string;
  readonly format?: readonly string[];
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

const OURS: ReadonlySet<string> = new Set(LEDGER_FORMATS.flatMap(({ files }) => files.map(({ name }) => name)));

/** Tells the deliveries of batches and the batches of vendors over time; gives 0 when that was done. Throws UserMistake. */
export async function ledgerCommand(paths: readonly string[], options: LedgerArguments): Promise<number> {
  const { out, replace = false, quiet = false } = options;
  const formats = chosen(options.format, out !== undefined);
  if (out !== undefined) await refuseExisting(out, replace, OURS);
  const input = await readLedgerFiles(paths);
  if (input.results.length === 0)
    throw new UserMistake('None of these files is a saved result; a ledger needs at least one findings.json.');
  const mistakes = ledgerMistakes(input);
  if (mistakes.length > 0) throw new UserMistake(mistakes.join('\n'));
  const ledger = ledgerOf(input, options.vendor ?? null);
  if (options.vendor !== undefined && ledger.vendors.length === 0) throw unknownVendor(options.vendor, ledgerOf(input, null));
  if (out === undefined) {
    for (const { files } of formats.slice(0, 1))
      for (const file of files.slice(0, 1)) await print(file.render(ledger, widthOf(process.stdout)));
    if (!quiet && !formats.some(({ name }) => name === 'text')) for (const remark of ledger.remarks) tell(`${remark}\n`);
    return 0;
  }
  const files = formats.flatMap((format) => format.files.map(({ name, render }) => ({ name, content: render(ledger, 80) })));
  await writeResults(out, files, replace, OURS);
  if (!quiet) tell(`Written to ${out}: ${files.map(({ name }) => name).join(', ')}.\n`);
  return 0;
}

function unknownVendor(name: string, all: Ledger): UserMistake {
  const names = all.vendors.map(({ vendor }) => (vendor === '' ? '(not named in the agreement)' : vendor));
  return new UserMistake(`--vendor: none of the results is of ${name}. They are of ${names.join('; ')}.`);
}

function chosen(wishes: readonly string[] | undefined, toFolder: boolean): readonly LedgerFormat[] {
  const names = (wishes ?? (toFolder ? LEDGER_FORMATS.map(({ name }) => name) : ['text'])).flatMap((wish) => wish.split(','));
  const unknown = names.filter((name) => !LEDGER_FORMATS.some((format) => format.name === name));
  if (unknown.length > 0)
    throw new UserMistake(
      `--format: a ledger has no format ${unknown.join(', ')}. There are ${LEDGER_FORMATS.map(({ name }) => name).join(', ')}.`,
    );
  if (!toFolder && new Set(names).size > 1)
    throw new UserMistake('Only one format can be printed at a time. Name one with --format, or give --out with a folder for several.');
  return LEDGER_FORMATS.filter(({ name }) => names.includes(name));
}
