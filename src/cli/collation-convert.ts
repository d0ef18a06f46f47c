import { checkConvertPlace, convertedFiles, isWorkbookPlace, writeConverted } from '../acts/collation-convert.js';
import { collationRecord } from '../acts/inputs/collation-record.js';
import { RECORD_FORMS, type RecordForm } from '../collation/convert.js';
import { totalsInWords } from '../collation/totals.js';
import { UserMistake } from '../read/mistake.js';
import { placeInWords } from './folder.js';
import { print, tell } from './streams.js';

/** Options of `collation convert` as they come from the command line. */
export interface ConvertArguments {
  readonly to?: string;
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** Writes the collation record in these files in another form; gives 0 when that was done. Throws UserMistake. */
export async function convertCommand(paths: readonly string[], options: ConvertArguments): Promise<number> {
  const form = chosenForm(options.to);
  const { out, replace = false, quiet = false } = options;
  if (out === undefined && form !== 'json')
    throw new UserMistake(
      'A record in sheets is several files, for frames or issues, titles and reels: name a folder for them with --out, or one workbook whose name ends in .xlsx.',
    );
  if (out !== undefined) await checkConvertPlace({ form, out, replace });
  const { record, side, warnings } = await collationRecord(paths);
  if (!quiet) {
    for (const warning of warnings) tell(`reeltally: ${warning}\n`);
    tell(`The record: ${totalsInWords(side)}\n`);
  }
  if (out === undefined) {
    for (const { content } of convertedFiles(record, form)) await print(content);
    return 0;
  }
  const names = await writeConverted(record, { form, out, replace });
  if (!quiet) tell(`Written to ${placeInWords(out)}: ${isWorkbookPlace(out) ? 'the sheets ' : ''}${names.join(', ')}.\n`);
  return 0;
}

function chosenForm(text: string | undefined): RecordForm {
  const form = RECORD_FORMS.find((one) => one === text);
  if (form !== undefined) return form;
  throw new UserMistake(
    `--to says into which form the record is to be written: ${RECORD_FORMS.join(', ')}${text === undefined ? '' : `; "${text}" is none of them`}.`,
  );
}
