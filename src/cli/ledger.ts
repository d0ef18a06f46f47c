import { ledgerFilesIn } from '../acts/dossier/ledger.js';
import { LEDGER_FILES, ledgerFiles, toldLedger } from '../acts/ledger.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { LEDGER_FORMATS, type LedgerFormat } from '../report/ledger/formats.js';
import { writeAndSay } from './folder.js';
import { typedInDossier } from './in-dossier.js';
import { print, tell, widthOf } from './streams.js';

/** Options of `ledger` as they come from the command line. */
export interface LedgerArguments {
  readonly vendor?: string;
  readonly format?: readonly string[];
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** Tells the deliveries of batches and the batches of vendors over time; gives 0 when that was done. Throws UserMistake. */
export async function ledgerCommand(paths: readonly string[], options: LedgerArguments): Promise<number> {
  const { out, replace = false, quiet = false } = options;
  const formats = chosen(options.format, out !== undefined);
  if (out !== undefined) await refuseExisting(out, replace, LEDGER_FILES);
  const named = paths.length > 0 ? paths : await filesHere();
  const ledger = await toldLedger(named, options.vendor ?? null);
  if (out === undefined) {
    for (const { files } of formats.slice(0, 1))
      for (const file of files.slice(0, 1)) await print(file.render(ledger, widthOf(process.stdout)));
    if (!quiet && !formats.some(({ name }) => name === 'text')) for (const remark of ledger.remarks) tell(`${remark}\n`);
  } else await writeAndSay(ledgerFiles(ledger, formats), { out, replace, quiet, ours: LEDGER_FILES });
  return 0;
}

/** The results, samples and decisions of the dossier. */
async function filesHere(): Promise<readonly string[]> {
  return ledgerFilesIn(
    await typedInDossier('Say from which files to tell: findings.json, with samples and decisions where there are any.', {}),
  );
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
