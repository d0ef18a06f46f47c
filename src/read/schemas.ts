import { createRequire } from 'node:module';
import type { ValidateFunction } from 'ajv/dist/2020.js';
import type { Account } from '../model/account.js';
import type { Agreement } from '../model/agreement.js';
import type { CollationRecord } from '../model/collation-record.js';
import type { DecisionRecord } from '../model/decision.js';
import type { DeliveryFile, DossierFile, JournalLine, LockFile } from '../model/dossier.js';
import type { Findings } from '../model/findings.js';
import type { InvoiceResult } from '../model/invoice.js';
import type { PicturesFile } from '../model/pictures.js';
import type { OwnProfile } from '../model/profile.js';
import type { ReadingFile } from '../model/reading.js';
import type { RecordCheck } from '../model/record-check.js';
import type { Rulings } from '../model/rulings.js';
import type { FixedPlan, SavedDraw, SavedSample, SavedWorksheet } from '../model/sample.js';

/** The published file formats and what each holds. */
export interface JsonKinds {
  readonly account: Account;
  readonly agreement: Agreement;
  readonly 'collation-record': CollationRecord;
  readonly decision: DecisionRecord;
  readonly delivery: DeliveryFile;
  readonly dossier: DossierFile;
  readonly draw: SavedDraw;
  readonly findings: Findings;
  readonly invoice: InvoiceResult;
  readonly journal: JournalLine;
  readonly lock: LockFile;
  readonly plan: FixedPlan;
  readonly pictures: PicturesFile;
  readonly profile: OwnProfile;
  readonly reading: ReadingFile;
  readonly 'record-check': RecordCheck;
  readonly rulings: Rulings;
  readonly sample: SavedSample;
  readonly worksheet: SavedWorksheet;
}

export type JsonKind = keyof JsonKinds;

/** What each kind of file is called in a sentence. */
export const kindNames: Readonly<Record<JsonKind, string>> = {
  account: 'an account',
  agreement: 'an agreement',
  'collation-record': 'a collation record',
  decision: 'a decision',
  delivery: 'the delivery of a dossier',
  dossier: 'a dossier',
  draw: 'the draw of a spot check',
  findings: 'a saved result',
  invoice: 'an invoice held against a result',
  journal: 'a line of a journal',
  lock: 'a note of who writes',
  plan: 'the plan of a spot check',
  pictures: 'what was made to be looked at',
  profile: 'a profile',
  reading: 'a reading file',
  'record-check': 'a check of a record',
  rulings: 'a list of rulings',
  sample: 'a judged spot check',
  worksheet: 'a saved worksheet',
};

/** Versions of the formats that are not the first one any more; an earlier version is refused by name. */
const versions: Readonly<Partial<Record<JsonKind, number>>> = {
  agreement: 2,
  'collation-record': 2,
  decision: 2,
  draw: 2,
  findings: 2,
  profile: 2,
  sample: 2,
  worksheet: 2,
};

const named = (kind: JsonKind): string => `${kind}/${String(versions[kind] ?? 1)}`;

/** Value of `format` that a file of this kind must carry. */
export function formatOf(kind: JsonKind): string {
  return `reeltally/${named(kind)}`;
}

const load = createRequire(import.meta.url);

/**
 * The check of one kind by its schema; `every` collects all errors instead of the first. Nothing is coerced, filled in or removed. The checks are
 * made when the program is built (`.config/scripts/compile-schemas.mjs`); their folder is two up from either copy of this file.
 */
export function schemaCheck(kind: JsonKind, every: boolean): ValidateFunction {
  return load(`../../dist/checks/${kind}${every ? '-every' : ''}.cjs`) as ValidateFunction;
}
