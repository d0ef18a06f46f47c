// The files of the situations written by hand: both halves of each pair, as [path, text or bytes].
import { join } from 'node:path';

/** `built` imports a module of `dist`. */
export async function scenarioFixtures(built) {
  const { batchBefore, halvesOf, SCENARIOS } = await built('demo/scenarios/index.js');
  const { convertRecord, convertToWorkbook } = await built('collation/convert.js');
  const { normaliseRecord } = await built('normalise/record.js');
  const { writeReturn } = await built('demo/write/index.js');
  const { writeTables } = await built('report/xlsx/tables.js');
  const json = (value) => `${JSON.stringify(value, null, 1)}\n`;
  const FORMS = { json: 'json', frames: 'frame-sheet', issues: 'issue-sheet', workbook: 'issue-sheet' };

  /** The record in the form in which the library keeps it; throws where that form cannot hold it. */
  async function recordFiles(slug, raw, kept) {
    const { record, problems } = normaliseRecord({ sheets: [], records: [{ name: 'record.json', record: raw }], inputs: [] });
    if (problems.length > 0) throw new RangeError(`${slug}: ${problems[0].says}`);
    const refuse = (refusals) => {
      if (refusals.length > 0) throw new RangeError(`${slug}: ${refusals[0]}`);
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

  async function halfFiles(scenario, half) {
    const returned = [...writeReturn(half.plan, scenario.profile)].map(({ path, text }) => ({ path: `return/${path}`, text }));
    return [
      ...(await recordFiles(scenario.slug, half.record, scenario.record)),
      { path: 'agreement.json', text: json({ format: 'reeltally/agreement/1', policies: half.policies }) },
      ...returned,
    ];
  }

  const all = [];
  for (const scenario of SCENARIOS) {
    const { number, slug, tells, verdict, findings } = scenario;
    const { differs, agrees } = halvesOf(scenario);
    const codes = [...new Set(findings.map(({ code }) => code))].sort().join('+');
    const before = batchBefore(scenario);
    const other = before === null ? [] : (await halfFiles(scenario, before)).map(({ path, text }) => ({ path: `other/${path}`, text }));
    const expected = { path: 'expected.json', text: json({ scenario: number, tells, verdict, findings }) };
    const halves = [
      [join('fixtures', 'differs', `${codes}--${slug}`), [...(await halfFiles(scenario, differs)), ...other, expected]],
      [join('fixtures', 'agrees', `none--${slug}`), [...(await halfFiles(scenario, agrees)), ...other]],
    ];
    for (const [folder, files] of halves) for (const { path, text } of files) all.push([join(folder, path), text]);
  }
  return all;
}
