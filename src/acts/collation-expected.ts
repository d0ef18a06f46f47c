import { expectedCounts } from '../collation/expected/counts.js';
import { expectedDelivery } from '../collation/expected/delivery.js';
import { askedBy, needsRows } from '../collation/expected/needs.js';
import { expectedReturn } from '../expect/index.js';
import type { ExpectedReport } from '../model/expected-delivery.js';
import { expectedAmounts } from '../payment/expected.js';
import { PROFILES } from '../profiles/index.js';
import { type DueFile, dueLines, expectedFiles } from '../report/expected/index.js';
import { expectedCsv, expectedSheets, expectedText } from '../report/expected/text.js';
import { collationRecord } from './inputs/collation-record.js';
import { orderedBy } from './inputs/ordered.js';
import type { ResultFile } from './outputs/results-folder.js';
import type { Surroundings } from './surroundings.js';

/** The forms in which the list of what is to come can be written. */
export const EXPECTED_FORMS = ['text', 'csv', 'xlsx'] as const;
/** One of these forms. */
export type ExpectedForm = (typeof EXPECTED_FORMS)[number];
const FILES: Readonly<Record<ExpectedForm, string>> = { text: 'expected.txt', csv: 'expected.csv', xlsx: 'expected.xlsx' };
/** Every file that the list can put into its folder. */
export const EXPECTED_FILES: ReadonlySet<string> = new Set(Object.values(FILES));
/** The folder of the XML documents beside them, and the name of their batch. */
export const EXPECTED_FOLDER = 'expected-return';

/** The return that would be right: the list for people, and its documents where the profile that was named is one whose XML can be written. Throws UserMistake. */
export async function expectedOf(
  paths: readonly string[],
  options: { readonly agreement?: string; readonly profile?: string },
  { say }: Surroundings,
): Promise<{ readonly report: ExpectedReport; readonly documents: readonly DueFile[] | null }> {
  const { agreement, profile } = await orderedBy(options);
  const { side, warnings } = await collationRecord(paths);
  for (const warning of warnings) say(warning, 'remark');
  const { policies, terms, library, vendor } = agreement;
  const right = expectedReturn(side, policies, {});
  // A profile of the library's own keeps its facts where nobody but the library knows.
  const known = PROFILES.find(({ name }) => name === profile?.name) ?? null;
  const delivery = expectedDelivery(side, right, policies, known?.layout ?? 'issue-mets');
  const asked = profile === null ? right : expectedReturn(side, policies, askedBy(profile));
  const report = {
    library,
    vendor,
    profile: profile?.name ?? null,
    counts: expectedCounts(side),
    ...expectedAmounts(terms, side),
    currency: terms.currency,
    needs: needsRows(side, asked, policies),
    placeless: delivery.placeless,
    lines: dueLines(delivery, known?.layout ?? null),
  };
  if (known === null)
    say(
      `documents are named and written as XML for the profiles ${PROFILES.map(({ name }) => name).join(' and ')}; name one with --profile.`,
      'remark',
    );
  return { report, documents: known === null ? null : expectedFiles(delivery, known, EXPECTED_FOLDER) };
}

/** The list in each of these forms, for a folder. */
export async function expectedListFiles(report: ExpectedReport, forms: readonly ExpectedForm[]): Promise<readonly ResultFile[]> {
  const files: ResultFile[] = [];
  for (const form of forms) files.push({ name: FILES[form], content: await writtenAs(form, report) });
  return files;
}

async function writtenAs(form: ExpectedForm, report: ExpectedReport): Promise<string | Uint8Array> {
  if (form === 'text') return expectedText(report);
  if (form === 'csv') return expectedCsv(report);
  // The packages that write workbooks take time to load, so they come in only where they are needed.
  const { writeWorkbook } = await import('../report/xlsx/write.js');
  return writeWorkbook(expectedSheets(report));
}
