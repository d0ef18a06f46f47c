import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { newFolder, reeltally } from './command.js';

/** The help on profiles. */
export const HELP = readFileSync(fileURLToPath(new URL('../../src/help/profiles.md', import.meta.url)), 'utf8');

/** The profile of the walk through the help, put together from its pieces as a reader would. */
export function profileOfTheHelp(): string {
  const walk = HELP.slice(HELP.indexOf('**1. The frame'), HELP.indexOf('**6. Try it.**'));
  const [frame, ...pieces] = walk.split('\n\n').filter((block) => /^ {4}/.test(block));
  const begun = (frame ?? '').trimEnd().replace(/\s*\}$/, ',');
  return `${begun}\n${pieces
    .map((piece) => piece.trimEnd())
    .join('\n')
    .replaceAll(/([\]}"])\n(?= {6}")/g, '$1,\n')
    .replaceAll(',,', ',')}\n}`;
}

const PAGE = (at: number): string =>
  `<div TYPE="Side" ORDER="${String(at)}" ORDERLABEL="${String(at)}"><fptr FILEID="f${String(at)}"/></div>`;
/** The document of the walk. */
export const LANTERN = `<mets xmlns="http://www.loc.gov/METS/" TYPE="DailyPaper" LABEL="The Lantern, 15.3.1907">
<dmdSec ID="m1"><mdWrap MDTYPE="MODS"><xmlData><mods xmlns="http://www.loc.gov/mods/v3"><identifier type="paper">LANT</identifier>
<originInfo><dateIssued>15.3.1907</dateIssued></originInfo><part><detail type="issue"><number>75</number></detail></part></mods></xmlData></mdWrap></dmdSec>
<fileSec><fileGrp USE="ARCHIVE"><file ID="f1"><FLocat xmlns:x="http://www.w3.org/1999/xlink" x:href="19070315-0001.jp2"/></file>
<file ID="f2"><FLocat xmlns:x="http://www.w3.org/1999/xlink" x:href="19070315-0002.jp2"/></file></fileGrp></fileSec>
<structMap TYPE="LOGICAL"><div TYPE="Number" DMDID="m1" ID="n1"/></structMap>
<structMap TYPE="PHYSICAL"><div TYPE="Bound">${PAGE(1)}${PAGE(2)}</div></structMap></mets>`;
const RECORD = `reel,frame,kind,title,date,issue number,page,order
L1,1,target,,,,,
L1,2,page,sn99000123,1907-03-15,75,1,1
L1,3,page,sn99000123,1907-03-15,75,2,2
`;

/** A new folder with these files. */
export function written(files: Readonly<Record<string, string>>): string {
  const folder = newFolder();
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}

/** The files of the walk: record, profile and batch, with another document or profile in their place. */
export const lantern = (document = LANTERN, profile = profileOfTheHelp()): string =>
  written({
    'lantern.json': profile,
    'record.csv': RECORD,
    'lantern-batch/lantern_19070315.xml': document,
    'lantern-batch/19070315-0001.jp2': 'one',
    'lantern-batch/19070315-0002.jp2': 'two',
  });

/** The result of verifying the batch of such a folder. */
export const verdictOf = (folder: string): Findings => {
  const { status, stdout, stderr } = reeltally([
    'verify',
    ...['--collation', join(folder, 'record.csv')],
    ...['--batch', join(folder, 'lantern-batch')],
    ...['--profile', join(folder, 'lantern.json')],
    ...['--format', 'json'],
    '--quiet',
  ]);
  expect([stderr, [0, 1, 2].includes(status ?? -1)]).toEqual(['', true]);
  return JSON.parse(stdout) as Findings;
};
