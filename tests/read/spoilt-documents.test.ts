import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FIRST_ISSUE, films, published, REEL, REEL_DOCUMENT, SECOND_ISSUE, type Spoilt, told, verified } from './published.js';

const ISSUE = 'The Quillhaven Courant of 1884-05-14';

/** What is told of the published batch, spoilt. */
async function toldOf(spoil: (spoilt: Spoilt) => void, of: () => Spoilt = published): Promise<readonly string[]> {
  const spoilt = of();
  spoil(spoilt);
  const result = await verified(spoilt);
  const { folders, documents, sections, files } = result.counts.received;
  for (const { came, compared, found, unchecked } of [folders, documents, sections, files]) expect(came).toBe(compared + found + unchecked);
  return told(result);
}

describe('a fact that one place states twice', () => {
  const number = '<mods:identifier type="reel sequence number">9</mods:identifier>';
  const date = '<mods:dateIssued encoding="iso8601">1884-05-14</mods:dateIssued>';
  const edition = '<mods:number>1</mods:number>';
  it.each([
    [
      date,
      date.replace('14', '15'),
      `documents-disagree: Of ${ISSUE}, the document states the date twice: 1884-05-14 and 1884-05-15. The first was read.`,
    ],
    [
      edition,
      '<mods:number>2</mods:number>',
      `documents-disagree: Of ${ISSUE}, the document states the edition twice: 1 and 2. The first was read.`,
    ],
    [
      number,
      number.replace('9', '11'),
      `documents-disagree 9: Of ${ISSUE} on frame 9, the document states the frame number twice: 9 and 11. The first was read.`,
    ],
  ])('%s and %s: is one finding', async (first, second, says) => {
    expect(await toldOf((one) => one.replace(SECOND_ISSUE, first, first + second))).toEqual([says]);
  });

  it('and gives the same both times is none', async () => {
    expect(await toldOf((one) => one.replace(SECOND_ISSUE, date, date + date))).toEqual([]);
    expect(await toldOf((one) => one.replace(SECOND_ISSUE, number, number + number.replace('9', '0009')))).toEqual([]);
  });

  it('goes with the finding on the first where the second is right', async () => {
    const wrong = date.replace('14', '15');
    const said = await toldOf((one) => one.replace(SECOND_ISSUE, date, wrong + date));
    expect(said.map((one) => one.split(':')[0])).toEqual(['date-differs 8']);
  });
});

describe('a division that does not lead to its section', () => {
  it.each([
    ['a page', 'DMDID="pageModsBib2"', 'DMDID="nowhere"', 'The page division'],
    ['an issue', 'DMDID="issueModsBib"', 'DMDID="nowhere"', 'The issue division'],
    ['an issue that leads nowhere at all', ' DMDID="issueModsBib"', '', 'The issue division'],
  ])('%s: is one finding, and everything else is compared', async (_, from, to, says) => {
    expect(await toldOf((one) => one.replace(SECOND_ISSUE, from, to))).toEqual([
      expect.stringMatching(`^documents-disagree: ${says} in "${SECOND_ISSUE}" leads to .*, which was read as its own\\.$`) as string,
    ]);
    // what the section says is held against the record all the same
    const wrong = await toldOf((one) => {
      one.replace(SECOND_ISSUE, from, to);
      one.replace(SECOND_ISSUE, '<mods:dateIssued encoding="iso8601">1884-05-14', '<mods:dateIssued encoding="iso8601">1884-05-21');
    });
    expect(wrong.map((one) => one.split(':')[0])).toEqual(['date-differs 8', 'documents-disagree']);
  });

  it('and has none is one finding, not one for each fact', async () => {
    const said = await toldOf((one) => one.replace(SECOND_ISSUE, /<dmdSec ID="pageModsBib2">[\s\S]*?<\/dmdSec>/, ''));
    expect(said).toEqual([
      `vocabulary-unknown 9: Page 2 of the structMap in "${SECOND_ISSUE}" leads to no metadata section: "pageModsBib2" is none of the document, so nothing is said of it.`,
    ]);
    const issue = await toldOf((one) => one.replace(SECOND_ISSUE, /<dmdSec ID="issueModsBib">[\s\S]*?<\/dmdSec>/, ''));
    expect(issue).toEqual([
      `vocabulary-unknown: The issue in "${SECOND_ISSUE}" leads to no metadata section: "issueModsBib" is none of the document, so nothing is said of it.`,
    ]);
  });
});

describe('sections of one ID', () => {
  it('to which as many divisions lead are read in their order, and told once', async () => {
    expect(await toldOf((one) => one.replace(FIRST_ISSUE, /ID="pageModsBib\d"/g, 'ID="pageModsBib1"'))).toEqual([
      `documents-disagree: 4 metadata sections in "${FIRST_ISSUE}" have the ID "pageModsBib1" and say different things; as many divisions lead to it, so they were read in their order.`,
    ]);
  });
});

describe('two structure maps', () => {
  const again = (one: Spoilt, change: (map: string) => string): void => {
    const map = /<structMap[\s\S]*<\/structMap>/.exec(one.read(SECOND_ISSUE))?.[0] ?? '';
    one.replace(SECOND_ISSUE, '</mets>', `${change(map)}</mets>`);
  };

  it('that say the same are one', async () => {
    const spoilt = published();
    again(spoilt, (map) => map);
    const result = await verified(spoilt);
    expect(told(result)).toEqual([]);
    expect(result.unchecked.map(({ what, count }) => [what, count])).toContainEqual([
      'structure maps that say once more what another says',
      1,
    ]);
  });

  it('that disagree are one finding', async () => {
    expect(await toldOf((one) => again(one, (map) => map.replace(/<div DMDID="pageModsBib2"[\s\S]*?<\/div>/, '')))).toEqual([
      `documents-disagree: Two structMaps in "${SECOND_ISSUE}" lead to the same sections and do not agree about pages or files; the first was read.`,
    ]);
  });

  it('are counted with every page that belongs to no issue', async () => {
    const spoilt = published();
    spoilt.replace(
      SECOND_ISSUE,
      '<div DMDID="issueModsBib" TYPE="np:issue">',
      `<div>${'<div TYPE="np:page"/>'.repeat(300)}</div><div DMDID="issueModsBib" TYPE="np:issue">`,
    );
    const result = await verified(spoilt);
    expect(result.findings.map(({ code }) => code)).toEqual(['page-not-delivered']);
    expect(result.counts.received.sections.found).toBe(300);
  });
});

describe('a second manifest', () => {
  it.each([`${REEL}/BATCH.xml`, 'copies/batch.xml'])('that lists the same (%s) is not a finding', async (path) => {
    const spoilt = published();
    spoilt.put(path, spoilt.read('batch.xml'));
    const result = await verified(spoilt);
    expect(told(result)).toEqual([]);
    expect(result.unchecked.map(({ what, places }) => [what, places])).toContainEqual(['second manifests', [{ document: path }]]);
  });
});

describe('a target without a number', () => {
  it('stays where the reel document has it', async () => {
    expect(await toldOf((one) => one.replace(REEL_DOCUMENT, 'type="reel sequence number">2<', 'type="reel sequence number"><'))).toEqual([
      `frame-number-wrong: The target in "${REEL_DOCUMENT}" ("targetModsBib2") gives no frame number.`,
    ]);
  });
});

describe('a page document', () => {
  const page = '11501-01/1904-01-12-01/sn99032106-1904-01-12-01-0004.mods.xml';

  it('that cannot be read explains all that is not known of its page', async () => {
    const said = await toldOf((one) => {
      const bytes = Buffer.from(one.read(page));
      one.put(page, Buffer.concat([bytes.subarray(0, 300), Buffer.from([0xe9, 0xff]), bytes.subarray(300)]));
    }, films);
    expect(said).toEqual([
      `document-unreadable 4: The document "${page}" cannot be read. The file says that it is encoded in UTF-8, but byte 300 is not UTF-8.`,
    ]);
  });

  it('beside which a later copy says something else is told', async () => {
    const later = page.replace('.mods.xml', '.mods_1.xml');
    expect(await toldOf((one) => one.put(later, one.read(page)), films)).toEqual([]);
    expect(await toldOf((one) => one.put(later, one.read(page).replace('>1<', '>9<')), films)).toEqual([
      `documents-disagree: "${page}" was read; "${later}" beside it goes by the same name and is another document.`,
    ]);
  });
});

describe('folders that are sent later', () => {
  it('leave what they replace in the account', async () => {
    const [spoilt, second] = [published(), published()];
    for (const path of second.paths()) if (!path.includes('1884051401')) second.remove(path);
    const result = await verified(spoilt, { policies: { redelivery: 'named-items' }, later: [join(second.folder)] });
    expect(told(result)).toEqual([]);
    expect(result.counts.received.files).toMatchObject({ came: 57 });
    expect(result.unchecked.map(({ what, count }) => [what, count])).toContainEqual(['files that a later folder sends again', 9]);
  });
});

describe('a film', () => {
  it.each([
    [1, 1],
    [2, 2],
    [3, 10],
  ])('whose document lists targets but not the one in place %i', async (place, frame) => {
    const said = await toldOf((one) => {
      one.replace(REEL_DOCUMENT, new RegExp(`<dmdSec ID="targetModsBib${String(place)}">[\\s\\S]*?</dmdSec>`), '');
      one.replace(REEL_DOCUMENT, new RegExp(`<fileGrp ID="targetFileGrp${String(place + 2)}">[\\s\\S]*?</fileGrp>`), '');
      one.replace(REEL_DOCUMENT, new RegExp(`<div DMDID="targetModsBib${String(place)}"[\\s\\S]*?</div>`), '');
      for (const ending of ['tif', 'jp2', 'pdf', 'xml']) one.remove(`${REEL}/${String(frame).padStart(4, '0')}.${ending}`);
    });
    expect(said).toEqual([
      `target-not-listed ${String(frame)}: 1 target of reel 00417028865 (frame ${String(frame)}) is not listed in the return.`,
    ]);
  });

  it('whose document names another paper and another time', async () => {
    const said = await toldOf((one) => {
      one.replace(REEL_DOCUMENT, 'The Quillhaven Courant (Quillhaven, Verrin)', 'The Ormsley Herald (Ormsley, Verrin)');
      one.replace(REEL_DOCUMENT, '<prg:startDate>1884-05-07', '<prg:startDate>1790-01-01');
      one.replace(REEL_DOCUMENT, '<prg:endDate>1884-05-14', '<prg:endDate>1791-01-01');
    });
    expect(said).toEqual([
      'reel-facts-differ: Reel 00417028865: the span of dates is 1790-01-01 to 1791-01-01 in the return and 1884-05-07 to 1884-05-14 in the record.',
      'reel-facts-differ: Reel 00417028865: the list of titles is The Ormsley Herald (Ormsley, Verrin) in the return and The Quillhaven Courant in the record.',
    ]);
  });

  it('of which nothing came outside its issues, although every number must be filled', async () => {
    const said = await toldOf((one) => {
      one.remove('11501-01/UNMATCHED');
      one.remove('11502-01/UNMATCHED');
    }, films);
    expect(said).toEqual([
      'frame-number-gap 1: Nothing came under frames 1 to 3, neither in an issue nor outside one, although the numbers must be unbroken.',
      'frame-number-gap 1: Nothing came under frames 1, 2, 3 and 10, neither in an issue nor outside one, although the numbers must be unbroken.',
    ]);
  });
});

describe('a document that is not read', () => {
  const says = async (from: string, to: string): Promise<string> =>
    (await toldOf((one) => one.replace(SECOND_ISSUE, from, to)))[0]?.replace(/ It is the document of.*/, '') ?? '';

  it('for what it holds is not called ill-formed', async () => {
    expect(await says('<mets ', '<!DOCTYPE mets SYSTEM "mets.dtd"><mets ')).toBe(
      `document-unreadable 8: The document "${SECOND_ISSUE}" cannot be read (line 2). It has a document type (DOCTYPE), which is not read because it can change or swell the document.`,
    );
    expect(await says('<metsHdr ', `${'<x>'.repeat(300)}${'</x>'.repeat(300)}<metsHdr `)).toBe(
      `document-unreadable 8: The document "${SECOND_ISSUE}" cannot be read (line 3). It nests its elements more than 256 deep, and no document of a newspaper does.`,
    );
    expect(await says('</mets>', '')).toContain('It is not well-formed XML: ');
  });
});

describe('a value that is longer than any honest one', () => {
  const long = 'Q'.repeat(100_000);
  const places: readonly (readonly [string, string | RegExp, string])[] = [
    ['date', '1884-05-14</mods:dateIssued', `${long}</mods:dateIssued`],
    ['title', 'sn99041200</mods:identifier', `${long}</mods:identifier`],
    ['frame number', 'sequence number">9<', `sequence number">${long}<`],
    ['reel number', 'type="reel number">00417028865', `type="reel number">${long}`],
    ['page number', '<mods:number>2</mods:number>', `<mods:number>${long}</mods:number>`],
    ['statement', 'Present<', `${long}<`],
    ['file name', './0008.tif', `./${long}.tif`],
    ['section', 'ID="pageModsBib2"', `ID="${long}"`],
    ['kind of division', 'TYPE="np:page"', `TYPE="np:${long}"`],
    ['pointer to a file', 'FILEID="masterFile2"', `FILEID="${long}"`],
    ['use of a file', 'USE="master"', `USE="${long}"`],
  ];

  it.each(places)('%s: is cut in every sentence, and its length said', async (_, from, to) => {
    const spoilt = published();
    spoilt.replace(SECOND_ISSUE, from, to);
    const result = await verified(spoilt);
    const { findings, unchecked, reels } = result;
    expect(findings.length + unchecked.length).toBeGreaterThan(0);
    expect(JSON.stringify({ findings, unchecked, reels }).match(/Q{100,}/g)).toBeNull();
  });
});
