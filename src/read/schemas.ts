import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import ajvFormats from 'ajv-formats';
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

const kinds = Object.keys(kindNames) as readonly JsonKind[];

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

/** The check of one kind by its schema; `every` collects all errors instead of the first. Nothing is coerced, filled in or removed. */
export function schemaCheck(kind: JsonKind, every: boolean): ValidateFunction {
  const check = checker(every).getSchema(`https://reeltally.example/schemas/${named(kind)}`);
  if (!check) throw new Error(`The schema of ${kind} is not loaded`);
  return check;
}

const checkers = new Map<boolean, Ajv2020>();

function checker(allErrors: boolean): Ajv2020 {
  const made = checkers.get(allErrors);
  if (made) return made;
  // ownProperties, because {} would otherwise pass for having `toString`; verbose gives the value and the description to the sentence.
  // The schemas are ours: a test holds them to the meta-schema, which would cost every run more than reading its record.
  const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, ownProperties: true, allErrors, verbose: true, validateSchema: false });
  ajvFormats.default(ajv, ['date']);
  for (const kind of kinds) ajv.addSchema(readSchema(kind));
  checkers.set(allErrors, ajv);
  return ajv;
}

/** The folder `schemas` stands beside `src` and beside `dist`, two folders up from either copy of this file. */
function readSchema(kind: JsonKind): object {
  const parsed: unknown = JSON.parse(readFileSync(new URL(`../../schemas/${kind}.schema.json`, import.meta.url), 'utf8'));
  if (typeof parsed !== 'object' || parsed === null) throw new Error(`The schema of ${kind} is broken`);
  return parsed;
}
