import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { reeltally } from './command.js';
import { written } from './lantern.js';

// One METS document for a whole year: a logical structMap alone, pages by ORDERLABEL, days as D.M.YYYY, frames in the names of files, the reel in the header.

interface YearIssue {
  readonly date: string;
  readonly pages: number;
  readonly frame: number;
}

const ISSUES: readonly YearIssue[] = [
  { date: '1.3.1887', pages: 4, frame: 12 },
  { date: '4.3.1887', pages: 4, frame: 16 },
  { date: '8.3.1887', pages: 2, frame: 20 },
  { date: '11.3.1887', pages: 4, frame: 22 },
];
const frameOf = (issue: YearIssue, page: number): string => `wb-${String(issue.frame + page).padStart(4, '0')}`;
const pagesOf = (issue: YearIssue): readonly number[] => Array.from({ length: issue.pages }, (_, page) => page);

function year(issues: readonly YearIssue[]): string {
  const section = ({ date }: YearIssue, at: number): string =>
    `<dmdSec ID="A${String(at)}"><mdWrap MDTYPE="MODS"><xmlData><m:mods><m:identifier type="kennung">WB</m:identifier><m:originInfo><m:dateIssued>${date}</m:dateIssued></m:originInfo><m:part><m:detail type="Nummer"><m:number>${String(18 + at)}</m:number></m:detail></m:part></m:mods></xmlData></mdWrap></dmdSec>`;
  const files = issues.flatMap((issue) => pagesOf(issue).map((page) => frameOf(issue, page)));
  const division = (issue: YearIssue, at: number): string =>
    `<div TYPE="Ausgabe" DMDID="A${String(at)}" LABEL="Nr. ${String(18 + at)} vom ${issue.date}">${pagesOf(issue)
      .map((page) => `<div TYPE="Seite" ORDERLABEL="${String(page + 1)}"><fptr FILEID="${frameOf(issue, page)}"/></div>`)
      .join('')}</div>`;
  return `<mets xmlns="http://www.loc.gov/METS/" xmlns:m="http://www.loc.gov/mods/v3" xmlns:x="http://www.w3.org/1999/xlink" TYPE="Jahrgang" LABEL="Der Wetterbote 1887">
<metsHdr><altRecordID TYPE="film">WB-0417</altRecordID></metsHdr>${issues.map(section).join('\n')}
<fileSec><fileGrp USE="Vorlage">${files.map((name) => `<file ID="${name}"><FLocat x:href="bilder/${name}.tif"/></file>`).join('')}</fileGrp></fileSec>
<structMap TYPE="LOGICAL"><div TYPE="Jahrgang">${issues.map(division).join('\n')}</div></structMap></mets>`;
}

const PROFILE = `{
  "format": "reeltally/profile/2", "name": "wetterbote", "startsFrom": "nothing", "layout": "issue-mets",
  "documents": { "issue": { "roots": [{ "element": "mets", "types": ["Jahrgang"] }], "needs": "must" } },
  "divisions": { "issue": { "map": "LOGICAL", "types": ["Ausgabe"] }, "page": { "map": "LOGICAL", "types": ["Seite"] } },
  "pagesOfIssue": "below",
  "facts": {
    "issue": {
      "titleId": { "sources": ["identifier[@type=kennung]"], "needs": "must" },
      "date": {
        "sources": ["originInfo/dateIssued"], "shape": "D.M.YYYY", "needs": "must",
        "copies": [{ "in": "division", "path": "@LABEL", "pattern": "{any} vom {date}" }]
      },
      "issueNumber": { "sources": ["part/detail[@type=Nummer]/number"], "needs": "must" }
    },
    "page": {
      "order": { "sources": [{ "in": "place" }], "needs": "must" },
      "page": { "sources": [{ "in": "division", "path": "@ORDERLABEL" }], "needs": "must" },
      "frame": { "sources": [{ "in": "file-name", "pattern": "wb-{frame}.tif", "use": "Vorlage" }], "needs": "must" },
      "reel": { "sources": [{ "in": "document", "path": "metsHdr/altRecordID[@TYPE=film]", "pattern": "WB-{reel}" }], "needs": "must" }
    }
  },
  "titleKeys": { "WB": "zb99000041" },
  "files": { "uses": { "Vorlage": { "needs": "must", "is": "image" } } },
  "policies": { "absentPages": "omitted", "printedDate": "optional" }
}`;
const RECORD = `reel,first frame,title,date,issue number,pages
0417,11,,,,t
0417,12,zb99000041,1887-03-01,18,1-4
0417,16,zb99000041,1887-03-04,19,1-4
0417,20,zb99000041,1887-03-08,20,1-2
0417,22,zb99000041,1887-03-11,21,1-4
`;

const yearOf = (document: string): string =>
  written({
    'wb.json': PROFILE,
    'record.csv': RECORD,
    'wb-1887/wb1887.xml': document,
    ...Object.fromEntries(
      ISSUES.flatMap((issue) => pagesOf(issue).map((page) => [`wb-1887/bilder/${frameOf(issue, page)}.tif`, frameOf(issue, page)])),
    ),
  });

function verified(document: string): Findings {
  const folder = yearOf(document);
  const options = ['--collation', 'record.csv', '--batch', 'wb-1887', '--profile', 'wb.json'].map((word) =>
    word.startsWith('--') ? word : join(folder, word),
  );
  return JSON.parse(reeltally(['verify', ...options, '--format', 'json', '--quiet']).stdout) as Findings;
}

describe('one document for a whole year, by a profile of the library', () => {
  it('is read as a librarian would write it down', () => {
    const folder = yearOf(year(ISSUES));
    const { status, stdout } = reeltally(['profile', 'try', join(folder, 'wb.json'), '--batch', join(folder, 'wb-1887')]);
    expect(status).toBe(0);
    expect(stdout).toContain('Parts: 4 issues, 14 pages, 0 targets, 0 reels.');
    expect(stdout).toContain('  in place: 14 times in 1 document, such as "1", "2", "3"');
  });

  it('is accepted where it is right', () => {
    const { findings, verdict } = verified(year(ISSUES));
    expect([findings.map(({ says }) => says), verdict.decision]).toEqual([[], 'accept']);
  });

  it.each([
    ['another day', year(ISSUES.with(1, { ...ISSUES[1]!, date: '5.3.1887' })), ['date-differs']],
    ['another label', year(ISSUES).replace('ORDERLABEL="2"', 'ORDERLABEL="3"'), ['page-number-differs']],
    ['another day in the LABEL', year(ISSUES).replace('vom 8.3.1887', 'vom 9.3.1887'), ['documents-disagree']],
    ['another film', year(ISSUES).replace('WB-0417', 'WB-0418'), ['reel-number-wrong']],
    [
      'a page out of the document',
      year(ISSUES).replace(/<div TYPE="Seite" ORDERLABEL="2"><fptr FILEID="wb-0021"\/><\/div>/, ''),
      ['page-not-delivered'],
    ],
  ])('is told once where it is spoilt: %s', (_, document, codes) => {
    expect(document).not.toBe(year(ISSUES));
    expect(
      verified(document)
        .findings.filter(({ severity }) => severity !== 'note')
        .map(({ code }) => code),
    ).toEqual(codes);
  });
});
