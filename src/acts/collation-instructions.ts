import { createHash } from 'node:crypto';
import { canonicalJson } from '../collation/canonical-json.js';
import { openProblems } from '../collation/check.js';
import { instructionsFor, recordToSend } from '../collation/instructions/index.js';
import { totalsInWords } from '../collation/totals.js';
import { expectedReturn } from '../expect/index.js';
import type { Instructions } from '../model/instructions.js';
import { renderInstructionsHtml } from '../report/instructions/html.js';
import { instructionsCsv, instructionsSheet } from '../report/instructions/table.js';
import { collationRecord } from './inputs/collation-record.js';
import { explainedBeside } from './inputs/explained-items.js';
import { orderedBy } from './inputs/ordered.js';
import { policyDigest } from './outputs/policy-digest.js';
import type { ResultFile } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** The forms in which instructions can be written. */
export const INSTRUCTION_FORMS = ['html', 'xlsx', 'csv'] as const;
/** One of these forms. */
export type InstructionForm = (typeof INSTRUCTION_FORMS)[number];

const SENT = 'sent-record.json';
/** Every file that instructions can put into their folder. */
export const INSTRUCTION_FILES: ReadonlySet<string> = new Set([...INSTRUCTION_FORMS.map((form) => `instructions.${form}`), SENT]);

/** What there is to send: the sheet that goes with the film in each form, and the record as it is sent. Throws UserMistake. */
export async function recordInstructions(
  paths: readonly string[],
  options: { readonly agreement?: string; readonly profile?: string; readonly forms: readonly InstructionForm[] },
  { say }: Surroundings,
): Promise<readonly ResultFile[]> {
  const { agreement, profile } = await orderedBy(options);
  const { record, side, warnings, leaving } = await collationRecord(paths);
  const { policies, library, vendor } = agreement;
  // What the profile cannot hold is still told: the operator reads the film, not the XML.
  const { explanations } = await explainedBeside(paths, undefined);
  const doubts = openProblems(record, side, explanations).map(({ touches }) => touches);
  const reels = instructionsFor(record, side, expectedReturn(side, policies, {}), policies, leaving(), doubts);
  const sent = canonicalJson(recordToSend(record));
  const titles = side.titles.map(({ id, name }) => ({ id, name }));
  const sheet = { library, vendor, titles, reels, record: createHash('sha256').update(sent, 'utf8').digest('hex') };
  for (const warning of warnings) say(warning, 'remark');
  say(`the record: ${totalsInWords(side)}`, 'remark');
  const open = reels.flatMap(({ instructions }) => instructions).filter((one) => one.open).length;
  if (open > 0)
    say(
      `${open === 1 ? '1 instruction rests' : `${String(open)} instructions rest`} on what "reeltally collation check" doubts and ${open === 1 ? 'is' : 'are'} marked as being checked; settle or explain that before the film goes out.`,
      'remark',
    );
  if (profile === null)
    say('no profile was named: page numbers are asked for as the built-in ones have them, unless the agreement says otherwise.', 'remark');
  const files: ResultFile[] = [];
  for (const form of options.forms) files.push({ name: `instructions.${form}`, content: await writtenAs(form, sheet) });
  return [...files, { name: SENT, content: sent }];
}

async function writtenAs(form: InstructionForm, sheet: Instructions): Promise<string | Uint8Array> {
  if (form === 'html') return renderInstructionsHtml(sheet, policyDigest);
  if (form === 'csv') return instructionsCsv(sheet);
  // The packages that write workbooks take time to load, so they come in only where they are needed.
  const { writeWorkbook } = await import('../report/xlsx/write.js');
  return writeWorkbook([instructionsSheet(sheet)]);
}
