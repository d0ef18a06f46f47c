import { describe, expect, it } from 'vitest';
import type { OwnProfile, Profile } from '../../src/model/profile.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { NAMED_PROFILES } from '../../src/profiles/index.js';
import { resolveProfile } from '../../src/read/profile.js';
import { readReturn } from '../../src/read/return.js';
import { issueDocument } from './documents.js';
import { folderWith } from './folder.js';
import { sideOf } from './reading.js';

const section = (id: string, inside: string): string =>
  `<dmdSec ID="${id}"><mdWrap MDTYPE="MODS"><xmlData><m:mods xmlns:m="http://www.loc.gov/mods/v3">${inside}</m:mods></xmlData></mdWrap></dmdSec>`;
const mets = (inside: string, root = 'TYPE="Paper"'): string =>
  `<mets xmlns="http://www.loc.gov/METS/" xmlns:m="http://www.loc.gov/mods/v3" xmlns:x="http://www.w3.org/1999/xlink" ${root}>${inside}</mets>`;

const OWN: OwnProfile = {
  format: 'reeltally/profile/2',
  name: 'links',
  startsFrom: 'nothing',
  layout: 'issue-mets',
  documents: { issue: { roots: [{ element: 'mets', types: ['Paper'] }], holds: ['issue'] } },
  divisions: {
    issue: { map: 'logical', types: ['issue'] },
    page: { map: 'PHYSICAL', types: ['leaf'] },
    section: { map: 'PHYSICAL', types: ['part'] },
  },
  pagesOfIssue: 'linked',
  facts: {
    issue: { titleId: ['identifier'], date: { sources: ['originInfo/dateIssued'], shape: 'D/M/YYYY' } },
    section: { section: [{ in: 'division', path: '@LABEL' }] },
    page: {
      order: [{ in: 'division', path: '@ORDER' }],
      page: [{ in: 'division', path: '@LABEL', pattern: 'Page {this}' }],
      frame: [{ in: 'file-name', pattern: '{any}-{frame}.jp2', use: 'Master' }],
      reel: [{ in: 'folder', up: 1, pattern: '{reel}' }],
    },
  },
  files: { uses: { master: { needs: 'must' }, thumbs: { needs: 'must-not' } }, ignored: ['gone'] },
};
const own = (over: Partial<OwnProfile> = {}): Profile => resolveProfile({ ...OWN, ...over }, NAMED_PROFILES);

const ISSUES = section('i1', '<m:identifier>one</m:identifier><m:originInfo><m:dateIssued>5/3/1907</m:dateIssued></m:originInfo>');
const FILES = `<fileSec><fileGrp USE="All"><fileGrp USE="MASTER">
<file ID="f1" CHECKSUM="ABC1" CHECKSUMTYPE="SHA-256"><FLocat x:href="file://./img/x-0007.jp2"/></file><file ID="f2"><FLocat x:href="img/x-0008.jp2"/></file>
</fileGrp></fileGrp><fileGrp USE="gone"><file ID="g1"/></fileGrp></fileSec>`;
const MAPS = `<structMap TYPE="LOGICAL"><div TYPE="x:issue" DMDID="i1" ID="L1"><div TYPE="article" ID="A1"/></div></structMap>
<structMap TYPE="PHYSICAL"><div TYPE="book" ID="B"><div TYPE="part" LABEL="Section B">
<div TYPE="leaf" ID="P1" ORDER="1" LABEL="Page 1"><fptr><par><area FILEID="f1"/></par></fptr><div TYPE="area" ID="P1a"/></div></div>
<div TYPE="leaf" ID="P2" ORDER="2" LABEL="Page ii"><fptr FILEID="f2"/></div></div></structMap>`;
const LINKS = '<structLink><smLink x:from="L1" x:to="P1"/><smLink x:from="L1" x:to="P2"/></structLink>';

const side = (document: string, files: Readonly<Record<string, string>> = {}, profile = own()) =>
  sideOf(folderWith({ 'R17/paper.xml': document, ...files }), [profile]);

describe('a METS of physical and logical maps', () => {
  it('gives facts from divisions, names of files and folders, and dates of its own shape', async () => {
    const { issues, reels, problems } = await side(mets(ISSUES + FILES + MAPS + LINKS));
    expect(problems).toEqual([]);
    expect(issues).toMatchObject([{ title: 'one', date: { day: '1907-03-05', text: '1907-03-05' } }]);
    expect(reels).toMatchObject([{ text: 'R17' }]);
    expect(reels[0]!.frames.map(({ frame, page, order, section: label }) => [frame?.text, page, order, label])).toEqual([
      ['0007', '1', 1, 'B'],
      ['0008', 'ii', 2, null],
    ]);
    expect(reels[0]!.frames[0]!.files).toMatchObject([{ use: 'master', path: 'R17/img/x-0007.jp2', digest: 'sha256:abc1' }]);
  });

  it.each([
    ['links from the page to the issue', '<structLink><smLink x:from="P1" x:to="L1"/><smLink x:from="P2" x:to="L1"/></structLink>'],
    ['one link to the division around the pages', '<structLink><smLink x:from="L1" x:to="B"/></structLink>'],
    [
      'groups of links, from articles to parts of pages',
      `<structLink><smLinkGrp><smLocatorLink x:href="#A1" x:label="a"/><smLocatorLink x:href="#P1a" x:label="p"/><smLocatorLink x:href="#P2" x:label="p"/>
       <smArcLink x:from="a" x:to="p"/></smLinkGrp></structLink>`,
    ],
  ])('knows the pages of an issue by %s', async (_, links) => {
    const { reels, problems } = await side(mets(ISSUES + FILES + MAPS + links));
    expect(problems).toEqual([]);
    expect(reels[0]!.frames.map((frame) => frame.order)).toEqual([1, 2]);
  });

  it('says which pages no link gives to an issue', async () => {
    const { problems } = await side(mets(ISSUES + FILES + MAPS + LINKS.replace('<smLink x:from="L1" x:to="P2"/>', '')));
    expect(problems.map(({ code, says }) => [code, says])).toEqual([
      [
        'page-not-delivered',
        'One page of the structMap in "R17/paper.xml" (first: P2) belongs to no issue: no structLink leads to them from an issue.',
      ],
    ]);
  });

  it('says of a file that must be named, and of one that must not, once for all pages', async () => {
    const { reels } = await side(mets(ISSUES + FILES + MAPS.replace('<fptr FILEID="f2"/>', '') + LINKS));
    expect(reels.flatMap((reel) => reel.frames).flatMap((frame) => frame.files.map((file) => `${file.use} ${file.state}`))).toEqual([
      'master not-looked-for',
      'master unnamed',
    ]);
    const thumbs = FILES.replace('USE="MASTER"', 'USE="thumbs"');
    const { problems } = await side(mets(ISSUES + thumbs + MAPS + LINKS));
    expect(problems.filter((problem) => problem.code === 'not-ordered').map((problem) => problem.says)).toEqual([
      'Files of the use "thumbs" are not ordered, but 2 pages name one (first: img/x-0007.jp2).',
    ]);
  });

  it('tells facts that must be stated once, with how many state them not, and facts that must not be', async () => {
    const needs = own({
      facts: {
        ...OWN.facts,
        page: {
          ...OWN.facts!.page,
          titleId: { sources: ['identifier'], needs: 'must' },
          order: { sources: [{ in: 'division', path: '@ORDER' }], needs: 'must-not' },
        },
      },
    });
    const { problems, unfound } = await side(mets(ISSUES + FILES + MAPS + LINKS), {}, needs);
    expect(problems.map(({ code, says }) => [code, says])).toEqual([
      [
        'not-ordered',
        '2 pages in one document give a place in the issue ("1"), which is not to be given, the first in "R17/paper.xml" ("structMap page 1").',
      ],
    ]);
    // what a library's own profile finds nowhere may be looked for in the wrong place
    expect(unfound?.map(({ unchecked }) => [unchecked.what, unchecked.required, unchecked.why])).toEqual([
      [
        'the title identifier of the pages',
        true,
        'The profile "links" looks for it in section identifier. Nothing stands there in any of 2 pages. Either the profile looks in the wrong place, or the vendor gives no title identifier: look into a document, then correct the profile or send the return back.',
      ],
    ]);
  });

  it('counts frames on where nobody wrote a number, by date and order, and says nothing of a reel', async () => {
    const counted = own({ facts: { ...OWN.facts, page: { order: [{ in: 'division', path: '@ORDER' }], frame: [{ in: 'count' }] } } });
    const later = mets(ISSUES.replace('5/3', '4/3') + FILES + MAPS + LINKS);
    const { reels, problems } = await side(mets(ISSUES + FILES + MAPS + LINKS), { 'R17/zz.xml': later }, counted);
    expect(problems).toEqual([]);
    expect(reels).toMatchObject([{ number: '', numberInferred: true }]);
    expect(reels[0]!.frames.map(({ frame, issue }) => [frame?.text, frame?.inferred, issue])).toEqual([
      ['1', true, 1],
      ['2', true, 1],
      ['3', true, 0],
      ['4', true, 0],
    ]);
  });

  it("takes a title by its key, and a reel number from the profile itself as nobody's", async () => {
    const keyed = own({
      titleKeys: { one: 'sn99000123' },
      facts: { ...OWN.facts, page: { ...OWN.facts!.page, reel: [{ in: 'constant', text: 'Reel 9' }] } },
    });
    const { issues, reels } = await side(mets(ISSUES + FILES + MAPS + LINKS), {}, keyed);
    expect(issues[0]!.title).toBe('sn99000123');
    expect(reels).toMatchObject([{ text: 'Reel 9', numberInferred: true }]);
  });

  it('reads two documents whose names differ in a number at the end, where the profile knows of no later copies', async () => {
    const document = mets(ISSUES + FILES + MAPS + LINKS);
    const folder = folderWith({ 'R17/paper_1.xml': document, 'R17/paper_2.xml': document });
    expect((await sideOf(folder, [own()])).issues).toHaveLength(2);
    expect((await sideOf(folder, [own({ laterCopies: true })])).issues).toHaveLength(1);
  });
});

describe('everything in a METS document', () => {
  const path = 'sn99000001/17/1907031601/1907031601.xml';
  const two = {
    lccn: 'sn99000001',
    date: '1907-03-16',
    edition: '1',
    pages: [
      { order: '1', reel: '17', frame: '6', files: ['0006.tif'] },
      { order: '2', reel: '17', frame: '7', files: ['0007.tif'] },
    ],
  };
  const readDocument = async (text: string) => {
    const read = await readReturn([folderWith({ [path]: text })], { profiles: NAMED_PROFILES.slice(0, 1), readText: false });
    if (!read.ok) throw new Error(read.says);
    return { received: read.written.received, side: normaliseReturn(read.written, read.profile) };
  };

  it('is accounted for: sections, file entries and divisions', async () => {
    const { received } = await readDocument(issueDocument(two));
    expect(received.sections).toEqual({ came: 8, compared: 8, found: 0, unchecked: 0 });
  });

  it('is accounted for where nothing leads to it', async () => {
    const more = issueDocument(two)
      .replace('<amdSec', `${section('alone', '<m:titleInfo><m:title>An article</m:title></m:titleInfo>')}<amdSec`)
      .replace('</fileSec>', '<fileGrp USE="thumb"><file ID="t9"><FLocat x:href="t.jpg"/></file></fileGrp></fileSec>')
      .replace('</structMap>', '</structMap><structMap><div TYPE="article"><div TYPE="block"/><div TYPE="block"/></div></structMap>');
    const { received, side: read } = await readDocument(more);
    expect(received.sections).toEqual({ came: 12, compared: 8, found: 0, unchecked: 4 });
    expect(read.problems).toEqual([]);
  });

  it('is told where two sections have one ID: what differs is a problem, what is the same is not', async () => {
    const text = issueDocument(two);
    const again = /<dmdSec ID="page2">.*?<\/dmdSec>/s.exec(text)?.[0] ?? '';
    const same = await readDocument(text.replace('<amdSec', `${again}<amdSec`));
    expect(same.side.problems).toEqual([]);
    expect(same.received.sections).toMatchObject({ came: 9, unchecked: 1 });
    const other = await readDocument(text.replace('<amdSec', `${again.replace('>7<', '>9<')}<amdSec`));
    expect(other.side.problems.map(({ code, says }) => [code, says])).toEqual([
      ['documents-disagree', `Two metadata sections in "${path}" have the ID "page2" and say different things; the first was read.`],
    ]);
    expect(other.received.sections).toMatchObject({ came: 9, found: 1 });
  });

  it('is told where a page points to a file that is not listed', async () => {
    const { side: read } = await readDocument(issueDocument(two).replace('FILEID="file01"', 'FILEID="file99"'));
    expect(read.problems.map(({ code, returned }) => [code, returned])).toEqual([['file-missing', 'file99']]);
  });

  it('is told where a division of a page has no files and the others have', async () => {
    const text = issueDocument(two).replace('<fptr FILEID="file02"/>', '');
    const read = await sideOf(folderWith({ [path]: text, [path.replace('1907031601.xml', '0006.tif')]: 'x' }));
    expect(read.reels[0]!.frames.map((frame) => frame.files.map((file) => file.state))).toEqual([['present'], ['unnamed']]);
  });
});

describe('a target of the scanner', () => {
  it('must have no number on the film', async () => {
    const document = mets(
      `${section('t', '<m:relatedItem type="original"><m:identifier type="reel sequence number">5</m:identifier></m:relatedItem>')}
       <structMap><div TYPE="np:reel"><div TYPE="np:techtargetreel"><div TYPE="np:target" DMDID="t"/></div></div></structMap>`,
      'TYPE="urn:x:microfilmReel" LABEL="17"',
    );
    const { problems, reels } = await sideOf(folderWith({ 'sn99000001/17/17.xml': document }));
    expect(problems.map(({ code, says }) => [code, says])).toEqual([
      ['not-ordered', 'The scanner\'s target "t" in "sn99000001/17/17.xml" gives the frame number 5, but it is not on the film.'],
    ]);
    expect(reels[0]!.frames).toEqual([]);
  });
});
