import { describe, expect, it } from 'vitest';
import { type IssueFacts, issueDocument, listed, manifest, odd, type PageFacts, plain, reelDocument } from './documents.js';
import { folderWith } from './folder.js';
import { copyLines, sideOf } from './reading.js';

const files = (frame: string): readonly string[] => [`${frame}.tif`, `${frame}.jp2`, `${frame}.pdf`, `${frame}.xml`];

const issue: IssueFacts & { readonly pages: readonly PageFacts[] } = {
  lccn: 'sn99000001',
  date: '1907-03-16',
  printed: '1907-03-15',
  edition: '02',
  caption: 'Evening &amp; Late',
  volume: '12',
  number: '75',
  label: 'The Beacon, of the Harbor, 1907-03-16, Evening &#38; Late',
  pages: [
    { order: '1', reel: '00999000017', frame: '6', files: files('0006'), section: 'Section A' },
    { order: '2', number: '2', reel: '00999000017', frame: '7', files: files('0007'), section: 'Section A' },
    { order: '3', reel: '00999000017', present: 'Not digitized, published', note: 'Page lacking', section: 'Section B' },
    { order: '4', number: 'B2', reel: '00999000017', frame: '09A', files: files('0009A'), section: 'Section B' },
  ],
};
const path = 'sn99000001/00999000017/1907031602/1907031602.xml';

describe.each([
  ['plain spelling', plain],
  ['other prefixes, IDs, quotes, order of attributes, line ends and a byte order mark', odd],
])('an issue document in %s', (_name, spelling) => {
  const batch = (): string =>
    folderWith({
      'BATCH.xml': manifest([
        listed('sn99000001', '1907-03-16', '2', `./${path}`),
        '<reel reelNumber="00999000017">sn99000001/00999000017/00999000017.xml</reel>',
      ]),
      [path]: issueDocument(issue, spelling),
      'sn99000001/00999000017/00999000017.xml': reelDocument(
        '00999000017',
        ['1', '0002'],
        { position: '2B', reductionRatio: '18x' },
        spelling,
      ),
    });

  it('gives every fact of the issue', async () => {
    const side = await sideOf(batch());
    expect(side.problems).toEqual([]);
    expect(side.issues).toHaveLength(1);
    expect(side.issues[0]).toMatchObject({
      title: 'sn99000001',
      date: { text: '1907-03-16', day: '1907-03-16' },
      datePrinted: { day: '1907-03-15' },
      edition: 2,
      editionLabel: 'Evening & Late',
      volume: '12',
      issueNumber: '75',
      present: true,
      place: { document: path },
    });
    expect(copyLines(side.issues[0]!.copies)).toEqual([
      'title | manifest | sn99000001 | sn99000001',
      'title | folder name | sn99000001 | sn99000001',
      'date | manifest | 1907-03-16 | 1907-03-16',
      'date | folder name | 19070316 | 1907-03-16',
      'date | LABEL | 1907-03-16 | 1907-03-16',
      'edition | manifest | 2 | 2',
      'edition | folder name | 02 | 2',
      'editionLabel | LABEL | Evening & Late | Evening & Late',
    ]);
  });

  it('gives every frame in the order of the film, targets among them', async () => {
    const [reel, ...others] = (await sideOf(batch())).reels;
    expect(others).toEqual([]);
    expect(reel).toMatchObject({
      number: '999000017',
      text: '00999000017',
      targetsListed: true,
      facts: { position: '2B', reductionRatio: '18x' },
    });
    expect(
      reel!.frames.map((frame) => [frame.frame?.text, frame.kind, frame.deliver, frame.order, frame.section, frame.page, frame.pageKey]),
    ).toEqual([
      ['1', 'target', false, null, null, null, null],
      ['0002', 'target', false, null, null, null, null],
      ['6', 'page', true, 1, 'A', null, null],
      ['7', 'page', true, 2, 'A', '2', '2'],
      ['09A', 'page', true, 4, 'B', 'B2', '2'],
    ]);
    expect(copyLines(reel!.frames[4]!.copies)).toEqual(['frame | file name | 0009A | 9A', 'order | structMap | place 4 | 4']);
  });

  it('gives a page that is known to be missing as an absence, not as a frame', async () => {
    expect((await sideOf(batch())).absences).toMatchObject([
      { reel: '999000017', title: 'sn99000001', edition: 2, section: 'B', page: null, order: 3, published: 'yes', issue: 0 },
    ]);
  });

  it('follows each page to its files, their digests and sizes', async () => {
    const frame = (await sideOf(batch())).reels[0]!.frames[3]!;
    expect(frame.files.map(({ use, href, digest, width, height, state }) => [use, href, digest, width, height, state])).toEqual([
      ['master', '0007.tif', 'sha1:ab10', 6501, 8400, 'not-looked-for'],
      ['service', '0007.jp2', 'sha1:ab11', 6501, 8400, 'not-looked-for'],
      ['derivative', '0007.pdf', 'sha1:ab12', 6501, 8400, 'not-looked-for'],
      ['ocr', '0007.xml', 'sha1:ab13', 6501, 8400, 'not-looked-for'],
    ]);
  });
});

describe('page files', () => {
  const two = { ...issue, pages: issue.pages.slice(0, 2) };
  const folder = 'sn99000001/00999000017/1907031602';

  it('are looked for only where one file of that use came', async () => {
    const side = await sideOf(folderWith({ [path]: issueDocument(two), [`${folder}/0006.TIF`]: 'image', [`${folder}/0007.jp2`]: '' }));
    const states = side.reels[0]!.frames.map((frame) => frame.files.map((file) => `${file.use} ${file.state} ${String(file.path)}`));
    expect(states).toEqual([
      [
        `master present ${folder}/0006.TIF`,
        `service missing ${folder}/0006.jp2`,
        `derivative not-looked-for ${folder}/0006.pdf`,
        `ocr not-looked-for ${folder}/0006.xml`,
      ],
      [
        `master missing ${folder}/0007.tif`,
        `service empty ${folder}/0007.jp2`,
        `derivative not-looked-for ${folder}/0007.pdf`,
        `ocr not-looked-for ${folder}/0007.xml`,
      ],
    ]);
    expect(side.fileUses).toEqual([
      { use: 'derivative', came: false, named: 2 },
      { use: 'master', came: true, named: 2 },
      { use: 'ocr', came: false, named: 2 },
      { use: 'service', came: true, named: 2 },
    ]);
    expect(side.remarks.at(-1)).toContain(`: 1 (first: "${folder}/0006.TIF", called "0006.tif").`);
  });

  it('are never sought outside the batch', async () => {
    const page = {
      ...issue.pages[0],
      files: ['../../../../../etc/passwd', 'file:///etc/passwd', '..\\secret.jp2', '%2e%2e/%2e%2e/%2e%2e/%2e%2e/x.xml'],
    };
    const side = await sideOf(folderWith({ [path]: issueDocument({ ...issue, pages: [page] }) }));
    expect(side.reels[0]!.frames[0]!.files.map(({ state, path: found }) => [state, found])).toEqual(
      Array.from({ length: 4 }, () => ['unsafe', null]),
    );
  });
});

describe('a manifest', () => {
  const other = { ...issue, date: '1907-03-18', edition: '1', label: undefined, pages: [] };

  it('is compared with what was sent', async () => {
    const side = await sideOf(
      folderWith({
        'BATCH.xml': manifest([
          listed('sn99000002', '1907-03-17', '3', path),
          listed('sn99000001', '1907-03-20', '1', './sn99000001/00999000017/1907032001/1907032001.xml'),
          '<reel reelNumber="00999000018">./sn99000001/00999000018/00999000018.xml</reel>',
        ]),
        [path]: issueDocument(issue),
        'sn99000001/00999000017/1907031801/1907031801.xml': issueDocument(other),
      }),
    );
    expect(copyLines(side.issues[0]!.copies).filter((line) => line.includes('| manifest |'))).toEqual([
      'title | manifest | sn99000002 | sn99000002',
      'date | manifest | 1907-03-17 | 1907-03-17',
      'edition | manifest | 3 | 3',
    ]);
    expect(side.problems.map(({ code, title, date, edition, reel }) => [code, title, date, edition, reel])).toEqual([
      ['file-missing', 'sn99000001', '1907-03-20', 1, null],
      ['file-missing', null, null, null, '999000018'],
      ['file-not-listed', null, '1907-03-18', 1, null],
    ]);
    expect(side.problems[0]!.says).toBe(
      'The manifest lists an issue of 1907-03-20 at "./sn99000001/00999000017/1907032001/1907032001.xml", but no such document was sent.',
    );
  });

  it('may name a folder that is not in the delivery, as public manifests do', async () => {
    const side = await sideOf(
      folderWith({
        'data/BATCH_1.xml': manifest([listed('sn99000001', '1907-03-16', '2', `../batch_example/${path}`)]),
        [`data/${path}`]: issueDocument(issue),
      }),
    );
    expect(side.problems).toEqual([]);
    expect(side.remarks.join(' ')).toContain('found by their last parts: 1');
  });

  it('that lists a document twice says so', async () => {
    const line = listed('sn99000001', '1907-03-16', '2', path);
    const side = await sideOf(folderWith({ 'batch.xml': manifest([line, line]), [path]: issueDocument(issue) }));
    expect(side.problems.map((problem) => problem.code)).toEqual(['manifest-disagrees']);
  });

  it('takes a tail that two documents share for neither', async () => {
    const side = await sideOf(
      folderWith({
        'BATCH.xml': manifest([listed('sn99000001', '1907-03-16', '2', '/mnt/work/1907031602.xml')]),
        [path]: issueDocument(issue),
        'sn99000009/00999000017/1907031602/1907031602.xml': issueDocument({ ...issue, lccn: 'sn99000009' }),
      }),
    );
    expect(side.problems.map((problem) => problem.code).sort()).toEqual(['file-missing', 'file-not-listed', 'file-not-listed']);
  });
});

describe('a document that lies there twice', () => {
  const later = path.replace('.xml', '_1.xml');

  it('is read in its later copy, and the choice is said', async () => {
    const side = await sideOf(
      folderWith({ [path]: issueDocument({ ...issue, volume: '1' }), [later]: issueDocument({ ...issue, volume: '99' }) }),
    );
    expect(side.issues.map((read) => read.volume)).toEqual(['99']);
    expect(side.remarks.join('\n')).toContain('Documents that lie there in several copies: 1.');
  });

  it('is read in its earlier copy where the later one is broken, which is a problem', async () => {
    const side = await sideOf(folderWith({ [path]: issueDocument(issue), [later]: issueDocument(issue).slice(0, 900) }));
    expect(side.issues).toHaveLength(1);
    expect(side.problems).toMatchObject([{ code: 'document-unreadable', date: '1907-03-16', edition: 2, place: { document: later } }]);
  });
});

describe('facts that cannot be understood', () => {
  it('become problems, and nothing is lost', async () => {
    const pages = [
      { order: 'one', reel: '17', frame: 'x', present: 'present' },
      { order: '2', reel: '17', present: 'PRESENT' },
      { order: '3', frame: '5', present: 'Not digitised, publication unknown.' },
      { order: '4', frame: '8', present: 'Perhaps' },
    ];
    const side = await sideOf(folderWith({ [path]: issueDocument({ ...issue, edition: 'second', present: 'here', pages }) }));
    expect(side.problems.map(({ code, field, returned }) => `${code} ${field} ${returned}`).sort()).toEqual([
      'frame-number-wrong frame null',
      'reel-number-wrong reel null',
      'vocabulary-unknown edition second',
      'vocabulary-unknown frame x',
      'vocabulary-unknown order one',
      'vocabulary-unknown present Perhaps',
      'vocabulary-unknown present here',
    ]);
    // The page that is said to be missing but has a frame number stands as a frame and as an absence; pages without a number stay where they are described.
    expect(side.reels[0]!.frames.map((frame) => [frame.frame?.text, frame.order])).toEqual([
      [undefined, null],
      [undefined, 2],
      ['5', 3],
      ['8', 4],
    ]);
    expect(side.absences).toMatchObject([{ order: 3, published: 'unknown' }]);
  });

  it('include a division that leads nowhere, which is mended where only one section can be meant', async () => {
    const mended = await sideOf(folderWith({ [path]: issueDocument(issue).replace('DMDID="page2"', 'DMDID="nowhere"') }));
    expect(mended.problems.map(({ code, says }) => [code, says])).toEqual([
      [
        'documents-disagree',
        `The page division in "${path}" leads to "nowhere", which is not a metadata section of it; nothing leads to the section "page2", which was read as its own.`,
      ],
    ]);
    expect(mended.reels[0]!.frames.map((frame) => frame.frame?.exposure ?? null)).toEqual([6, 7, 9]);
    const gone = issueDocument(issue)
      .replace('DMDID="page2"', 'DMDID="nowhere"')
      .replace(/<dmdSec ID="page2">.*?<\/dmdSec>/s, '');
    const side = await sideOf(folderWith({ [path]: gone }));
    expect(side.problems.map(({ code, says }) => [code, says])).toEqual([
      [
        'vocabulary-unknown',
        `Page 2 of the structMap in "${path}" leads to no metadata section: "nowhere" is none of the document, so nothing is said of it.`,
      ],
    ]);
    expect(side.reels[0]!.frames.map((frame) => [frame.frame?.exposure ?? null, frame.undescribed])).toEqual([
      [6, undefined],
      [null, true],
      [9, undefined],
    ]);
  });

  it('include a page section that the structMap leaves out', async () => {
    const text = issueDocument(issue).replace(/<div TYPE="np:page" DMDID="page2">.*?<\/div>/s, '');
    const side = await sideOf(folderWith({ [path]: text }));
    expect(side.problems.map(({ code, says }) => [code, says])).toEqual([
      ['page-not-delivered', `The page section "page2" in "${path}" is not in the structMap, so the page is described and not delivered.`],
    ]);
  });
});

describe('an issue that is absent as a whole', () => {
  it('is an absence on the reel of its folder', async () => {
    const absent = {
      ...issue,
      date: '1907-03-18',
      edition: '1',
      printed: undefined,
      label: undefined,
      present: 'Not digitized, not published',
      pages: [],
    };
    const side = await sideOf(
      folderWith({
        [path]: issueDocument(issue),
        'sn99000001/00999000017/1907031801/1907031801.xml': issueDocument(absent),
      }),
    );
    expect(side.issues.map((read) => read.present)).toEqual([true, false]);
    expect(side.absences.at(-1)).toMatchObject({
      reel: '999000017',
      date: { day: '1907-03-18' },
      page: null,
      order: null,
      published: 'no',
      issue: 1,
    });
  });
});

describe('the order of the structMap', () => {
  it('disagrees with the orders given only where the pages change places, not where a hole is left', async () => {
    const at = (order: string, frame: string): PageFacts => ({ order, frame, reel: '17' });
    const side = await sideOf(
      folderWith({ [path]: issueDocument({ ...issue, pages: [at('1', '6'), at('4', '7'), at('3', '8'), at('6', '9')] }) }),
    );
    const copies = side.reels[0]!.frames.map((frame) => frame.copies.find((copy) => copy.source === 'structMap'));
    expect(copies.map((copy) => [copy?.text, copy?.value])).toEqual([
      ['place 1', '1'],
      ['place 2', '3'],
      ['place 3', '4'],
      ['place 4', '6'],
    ]);
  });
});
