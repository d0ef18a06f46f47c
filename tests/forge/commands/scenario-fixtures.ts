import { join } from 'node:path';
import { convertRecord, convertToWorkbook } from '../../../src/collation/convert.js';
import type { CollationRecord } from '../../../src/model/collation-record.js';
import { normaliseRecord } from '../../../src/normalise/record.js';
import { writeTables } from '../../../src/report/xlsx/tables.js';
import { batchBefore, halvesOf, SCENARIOS } from '../scenarios/index.js';
import type { Half, Scenario } from '../scenarios/scenario.js';
import { writeReturn } from '../write/index.js';
import { json } from './made.js';

/** One half of a pair: its folder below `fixtures`, and its files. */
export interface FixtureFiles {
  readonly folder: string;
  readonly files: readonly { readonly path: string; readonly text: string | Buffer }[];
}

const FORMS = { json: 'json', frames: 'frame-sheet', issues: 'issue-sheet', workbook: 'issue-sheet' } as const;

/** The record in the form in which the library keeps it; throws where that form cannot hold it. */
async function recordFiles(slug: string, raw: CollationRecord, kept: Scenario['record']): Promise<FixtureFiles['files']> {
  const { record, problems } = normaliseRecord({ sheets: [], records: [{ name: 'record.json', record: raw }] });
  if (problems[0] !== undefined) throw new RangeError(`${slug}: ${problems[0].says}`);
  const refuse = (refusals: readonly string[]): void => {
    if (refusals[0] !== undefined) throw new RangeError(`${slug}: ${refusals[0]}`);
  };
  if (kept === 'workbook') {
    const { sheets, refusals } = convertToWorkbook(record, FORMS[kept]);
    refuse(refusals);
    return [{ path: 'record/collation.xlsx', text: Buffer.from(await writeTables(sheets)) }];
  }
  const { files, refusals } = convertRecord(record, FORMS[kept]);
  refuse(refusals);
  return files.map(({ name, text }) => ({ path: `record/${name}`, text }));
}

async function halfFiles(scenario: Scenario, half: Half): Promise<FixtureFiles['files']> {
  return [
    ...(await recordFiles(scenario.slug, half.record, scenario.record)),
    { path: 'agreement.json', text: json({ format: 'reeltally/agreement/2', policies: half.policies }) },
    ...[...writeReturn(half.plan, scenario.profile)].map(({ path, text }) => ({ path: `return/${path}`, text })),
  ];
}

/** Both halves of each situation told frame by frame. */
export async function scenarioFixtures(): Promise<FixtureFiles[]> {
  const all: FixtureFiles[] = [];
  for (const scenario of SCENARIOS) {
    const { number, slug, tells, verdict, findings } = scenario;
    const { differs, agrees } = halvesOf(scenario);
    const codes = [...new Set(findings.map(({ code }) => code))].sort().join('+');
    const before = batchBefore(scenario);
    const other = before === null ? [] : (await halfFiles(scenario, before)).map(({ path, text }) => ({ path: `other/${path}`, text }));
    const expected = { path: 'expected.json', text: json({ scenario: number, tells, verdict, findings }) };
    all.push(
      { folder: join('differs', `${codes}--${slug}`), files: [...(await halfFiles(scenario, differs)), ...other, expected] },
      { folder: join('agrees', `none--${slug}`), files: [...(await halfFiles(scenario, agrees)), ...other] },
    );
  }
  return all;
}
