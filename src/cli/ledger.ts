import { listedPaths } from '../acts/inputs/ledger-paths.js';
import { LEDGER_FILES, ledgerFiles, toldLedger } from '../acts/ledger.js';
import { refuseExisting } from '../acts/outputs/results-folder.js';
import { UserMistake } from '../read/mistake.js';
import { LEDGER_FORMATS, type LedgerFormat } from '../report/ledger/formats.js';
import { writeAndSay } from './folder.js';
import { typedInDossier } from './in-dossier.js';
import { print, tell, widthOf } from './streams.js';
import { surroundings } from './surroundings.js';

/** Options of `ledger` as they come from the command line. */
export interface LedgerArguments {
  readonly vendor?: string;
  readonly from?: string;
  readonly at?: string;
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
  const around = surroundings({ quiet, ...(options.at === undefined ? {} : { at: options.at }) });
  const given = [...paths, ...(options.from === undefined ? [] : await listedPaths(options.from))];
  const named = given.length > 0 ? given : [await dossierHere()];
  const ledger = await toldLedger(named, options.vendor ?? null, around).finally(around.end);
  if (out === undefined) {
    for (const { files } of formats.slice(0, 1))
      for (const file of files.slice(0, 1)) {
        const made = await file.render(ledger, widthOf(process.stdout));
        await print(typeof made === 'string' || made instanceof Uint8Array ? made : [...made].join(''));
      }
    if (!quiet && !formats.some(({ name }) => name === 'text')) for (const remark of ledger.remarks) tell(`${remark}\n`);
  } else await writeAndSay(ledgerFiles(ledger, formats), { out, replace, quiet, ours: LEDGER_FILES });
  return 0;
}

/** The dossier in which the command was typed. */
async function dossierHere(): Promise<string> {
  return typedInDossier(
    'Say from which files, dossiers or folders to tell: findings.json, with samples, decisions and accounts where there are any.',
    {},
  );
}

function chosen(wishes: readonly string[] | undefined, toFolder: boolean): readonly LedgerFormat[] {
  const names = (wishes ?? (toFolder ? LEDGER_FORMATS.map(({ name }) => name) : ['text'])).flatMap((wish) => wish.split(','));
  const unknown = names.filter((name) => !LEDGER_FORMATS.some((format) => format.name === name));
  if (unknown.length > 0)
    throw new UserMistake(
      `--format: a ledger has no format ${unknown.join(', ')}. There are ${LEDGER_FORMATS.map(({ name }) => name).join(', ')}.`,
    );
  if (!toFolder && names.includes('xlsx') && process.stdout.isTTY)
    throw new UserMistake('A workbook cannot be shown in a terminal. Give a folder for it with --out, or lead the output into a file.');
  if (!toFolder && new Set(names).size > 1)
    throw new UserMistake('Only one format can be printed at a time. Name one with --format, or give --out with a folder for several.');
  return LEDGER_FORMATS.filter(({ name }) => names.includes(name));
}
