import { dirname } from 'node:path';
import { NEW_FORMS, type NewForm, newRecord, newRecordFiles, oldRecord, writeNewRecord } from '../acts/collation-new.js';
import type { NewRecordWords } from '../acts/inputs/blank-wish.js';
import type { BlankRecord } from '../model/blank-record.js';
import { UserMistake } from '../read/mistake.js';
import { placeInWords } from './folder.js';
import { print, tell } from './streams.js';

/** Options of `collation new` as they come from the command line. */
export interface NewArguments extends NewRecordWords {
  readonly format?: string;
  readonly out?: string;
  readonly replace?: true;
  readonly quiet?: true;
}

/** Writes a record that is to be filled in; gives 0 when that was done. Throws UserMistake. */
export async function collationNewCommand(options: NewArguments): Promise<number> {
  const { out, replace = false, quiet = false } = options;
  const form = chosenForm(options.format, out);
  if (out === undefined && form === 'xlsx' && process.stdout.isTTY)
    throw new UserMistake('A workbook cannot be shown in a terminal. Give a file for it with --out, such as --out record.xlsx.');
  const old = options.from === undefined ? null : await oldRecord(options.from, options);
  const { blank, remarks } = newRecord(options, old?.record ?? null);
  if (!quiet) for (const remark of [...(old?.warnings ?? []), ...remarks]) tell(`reeltally: ${remark}\n`);
  if (out === undefined) {
    const [first] = await newRecordFiles(blank, form, `record.${form}`);
    await print(first?.content ?? '');
    return 0;
  }
  const names = await writeNewRecord(blank, { form, out, replace });
  if (!quiet) tell(`${inWords(blank)}\nWritten to ${placeInWords(dirname(out))}: ${names.join(', ')}.\n`);
  return 0;
}

function chosenForm(wish: string | undefined, out: string | undefined): NewForm {
  const ending = /\.([a-z]+)$/i.exec(out ?? '')?.[1]?.toLowerCase();
  const text = wish ?? (out === undefined ? 'xlsx' : ending);
  const form = NEW_FORMS.find((one) => one === text);
  if (form === undefined)
    throw new UserMistake(
      wish === undefined
        ? `${out ?? ''}: a new record is written as a workbook (.xlsx), as CSV (.csv), or as a calendar to print (.html); give --out a name with one of these endings.`
        : `--format: a new record is written as ${NEW_FORMS.join(', ')}, and not as ${wish}.`,
    );
  if (wish !== undefined && ending !== undefined && NEW_FORMS.some((one) => one === ending) && ending !== wish)
    throw new UserMistake(`--out ${out ?? ''} ends in .${ending}, and --format says ${wish}; leave one of the two out.`);
  return form;
}

/** What was made, for somebody who looks whether it is what she meant. */
function inWords({ title, from, to, days, pattern, sheets }: BlankRecord): string {
  const expected = days.filter((day) => day.expected).length;
  const rows = sheets[0]?.rows.length ?? 0;
  return `${title.id}, ${from} to ${to} (${pattern.join('; ')}): ${String(expected)} issues expected, ${String(rows)} rows.`;
}
