import { describe, expect, it } from 'vitest';
import { issueDocument, manifest } from './documents.js';
import { folderWith } from './folder.js';
import { sideOf } from './reading.js';

interface Written {
  readonly type?: string;
  readonly label?: string;
  readonly onReel?: string;
  readonly targets?: readonly { readonly reel?: string; readonly frame?: string }[];
  readonly position?: string;
}

const identifiers = (reel: string | undefined, frame: string | undefined): string =>
  `<m:relatedItem type="original">${reel === undefined ? '' : `<m:identifier type="reel number">${reel}</m:identifier>`}${
    frame === undefined ? '' : `<m:identifier type="reel sequence number">${frame}</m:identifier>`
  }</m:relatedItem>`;

const section = (id: string, inside: string): string =>
  `<dmdSec ID="${id}"><mdWrap MDTYPE="MODS"><xmlData><m:mods>${inside}</m:mods></xmlData></mdWrap></dmdSec>`;

/** A reel document as programmes write it: no section of the reel's own, scanner targets under a division of theirs. */
function published({ type = 'urn:example:mets:microfilmReel', label, onReel, targets = [], position = '1a' }: Written): string {
  return `<?xml version="1.0"?>
<mets xmlns="http://www.loc.gov/METS/" xmlns:m="http://www.loc.gov/mods/v3" TYPE="${type}"${label === undefined ? '' : ` LABEL="${label}"`}>
${onReel === undefined ? '' : section('own', identifiers(onReel, undefined))}
${section('tech1', '<m:titleInfo><m:title>Scanner target</m:title></m:titleInfo>')}
${targets.map((target, at) => section(`t${String(at)}`, identifiers(target.reel, target.frame))).join('\n')}
<amdSec><techMD ID="facts"><reelTechMD xmlns="urn:example:reel"><position>${position}</position></reelTechMD></techMD></amdSec>
<structMap><div TYPE="np:reel"${onReel === undefined ? '' : ' DMDID="own"'}>
<div TYPE="np:techtargetreel"><div TYPE="np:target" DMDID="tech1"/></div>
${targets.map((_, at) => `<div TYPE="np:target" DMDID="t${String(at)}"/>`).join('')}
</div></structMap></mets>`;
}

const folder = 'sn99000001/0028065419A';
const issue = issueDocument({
  lccn: 'sn99000001',
  date: '1907-03-16',
  edition: '1',
  pages: [{ order: '1', reel: '0028065419A', frame: '3' }],
});
const batch = (written: Written, name = '0028065419A', listed = '0028065419A'): string =>
  folderWith({
    'batch.xml': manifest([
      `<issue lccn="sn99000001" issueDate="1907-03-16" editionOrder="1">${folder}/1907031601/1907031601.xml</issue>`,
      `<reel reelNumber="${listed}">${folder}/${name}.xml</reel>`,
    ]),
    [`${folder}/${name}.xml`]: published(written),
    [`${folder}/1907031601/1907031601.xml`]: issue,
  });

const two = [
  { reel: '0028065419A', frame: '1' },
  { reel: '0028065419A', frame: '2' },
];

describe('a reel document as published', () => {
  it('is known by its divisions, and its number is shown as it stands on the box', async () => {
    const side = await sideOf(batch({ label: '0028065419A', targets: two }));
    expect(side.problems).toEqual([]);
    expect(side.reels).toHaveLength(1);
    expect(side.reels[0]).toMatchObject({ text: '0028065419A', targetsListed: true, facts: { position: '1a' } });
  });

  it('has frames for the targets on the film, and none for those of the scanner', async () => {
    const [reel] = (await sideOf(batch({ label: '0028065419A', targets: two }))).reels;
    expect(reel!.frames.map((frame) => [frame.frame?.text, frame.kind])).toEqual([
      ['1', 'target'],
      ['2', 'target'],
      ['3', 'page'],
    ]);
  });

  it.each(['urn:example:film-roll', 'Newspaper', ''])('is read where its first element calls itself "%s"', async (type) => {
    const side = await sideOf(batch({ type, label: '0028065419A', targets: two }, 'film'));
    expect(side.problems).toEqual([]);
    expect(side.reels[0]?.targetsListed).toBe(true);
  });

  it.each([
    ['its own section', { onReel: '0028065419A', label: 'other-1' }, ['LABEL']],
    ['the sections of its targets', { targets: two, label: 'other-1' }, ['LABEL']],
    ['its LABEL', { label: '0028065419A' }, []],
    ['the manifest, where the LABEL is words', { label: 'Reel of the Beacon 1907' }, []],
  ])('takes its number from %s, and compares the other places', async (_, written, sources) => {
    const side = await sideOf(batch(written));
    expect(side.reels.map((reel) => reel.text)).toEqual(['0028065419A']);
    expect(side.problems.map((problem) => problem.code)).toEqual(sources.map(() => 'documents-disagree'));
    for (const [at, source] of sources.entries())
      expect(side.problems[at]?.says).toContain(`gives reel 0028065419A, but its ${source} says "other-1"`);
  });

  it('takes its number from the name of its file as a last resort, and compares no name', async () => {
    const bare = folderWith({ [`${folder}/0028065419A.xml`]: published({}), [`${folder}/1907031601/1907031601.xml`]: issue });
    expect((await sideOf(bare)).problems).toEqual([]);
    expect((await sideOf(batch({ label: '0028065419A' }, 'another-name-7'))).problems).toEqual([]);
  });
});
