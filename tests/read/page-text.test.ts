import { describe, expect, it } from 'vitest';
import type { PageText } from '../../src/model/page-text.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';
import { issueDocument } from './documents.js';
import { folderWith } from './folder.js';
import { copyLines } from './reading.js';

/** One page as ALTO 2 to 4 have it (schemas of the Library of Congress), with a word broken over two lines. */
function alto(namespace: string, page: string, image: string, unit = 'inch1200'): string {
  const space = namespace === '' ? '' : ` xmlns="${namespace}"`;
  return `<?xml version="1.0" encoding="UTF-8"?><!-- <String CONTENT="not"/> --><alto${space}><Description><MeasurementUnit>${unit}</MeasurementUnit><sourceImageInformation><fileName>batch/${image}</fileName></sourceImageInformation></Description><Layout><Page ID="P" ${page} HEIGHT="26400" WIDTH="19200"><PrintSpace><TextBlock><TextLine VPOS="500.5"><String CONTENT="Harbor"/><SP/><String CONTENT='com' SUBS_TYPE='HypPart1' SUBS_CONTENT='commissioner&#39;s'/><HYP CONTENT="-"/></TextLine><TextLine VPOS="620"><String SUBS_TYPE="HypPart2" SUBS_CONTENT="commissioner's" CONTENT="missioner's"/><String CONTENT="&quot;Fjörd&quot;"/></TextLine><TextLine VPOS="700"/></TextBlock></PrintSpace></Page></Layout></alto>`;
}

const folder = 'sn99000001/17/1907031501';
const files = (frame: string): readonly string[] => [`${frame}.tif`, `${frame}.jp2`, `${frame}.pdf`, `${frame}.xml`];
const issue = issueDocument({
  lccn: 'sn99000001',
  date: '1907-03-15',
  edition: '1',
  pages: [
    { order: '1', number: 'A3', section: 'Section A', reel: '17', frame: '3', files: files('0003') },
    { order: '2', number: '2', reel: '17', frame: '4', files: files('0004') },
  ],
});

async function read(
  texts: Readonly<Record<string, string>>,
  readText = true,
): Promise<{ side: ReturnType<typeof normaliseReturn>; texts: readonly PageText[] }> {
  const seen: PageText[] = [];
  const found = await readReturn([folderWith({ [`${folder}/1907031501.xml`]: issue, ...texts })], {
    profiles: PROFILES,
    readText,
    onPageText: (text) => seen.push(text),
  });
  if (!found.ok) throw new Error(found.says);
  return { side: normaliseReturn(found.written, found.profile), texts: seen };
}

describe('page text', () => {
  it.each(['', 'http://www.loc.gov/standards/alto/ns-v2#', 'http://www.loc.gov/standards/alto/ns-v4#'])(
    'is read whole, in the namespace %j',
    async (namespace) => {
      const { texts } = await read({ [`${folder}/0003.xml`]: alto(namespace, 'PHYSICAL_IMG_NR="3" PRINTED_IMG_NR="3"', '0003.tif') });
      expect(texts).toEqual([
        {
          document: `${folder}/0003.xml`,
          lines: [
            { text: "Harbor commissioner's", top: 500.5 },
            { text: '"Fjörd"', top: 620 },
          ],
          words: 3,
          unit: 'inch1200',
          width: 19200,
          height: 26400,
          image: 'batch/0003.tif',
          physicalNumber: '3',
          printedNumber: '3',
        },
      ]);
    },
  );

  it('says again what number the page has, on the reel and on paper, and which image it is', async () => {
    const { side } = await read({
      [`${folder}/0003.xml`]: alto('', 'PHYSICAL_IMG_NR="3.0" PRINTED_IMG_NR="3"', '0003.tif'),
      [`${folder}/0004.xml`]: alto('', 'PHYSICAL_IMG_NR="5" PRINTED_IMG_NR="8"', '0005.tif'),
    });
    const [first, second] = side.reels[0]!.frames;
    expect(first!.pageKey).toBe('3');
    expect(copyLines(first!.copies)).toEqual([
      'frame | file name | 0003 | 3',
      'exposure | page text | 3.0 | 3',
      'page | page text | 3 | 3',
      'frame | image named in the page text | 0003 | 3',
      'order | structMap | place 1 | 1',
    ]);
    expect(copyLines(second!.copies).slice(1, 4)).toEqual([
      'exposure | page text | 5 | 5',
      'page | page text | 8 | 8',
      'frame | image named in the page text | 0005 | 5',
    ]);
  });

  it('gives the size of the page only in pixels', async () => {
    const { side } = await read({
      [`${folder}/0003.xml`]: alto('', 'PHYSICAL_IMG_NR="3"', '0003.tif', 'pixel'),
      [`${folder}/0004.xml`]: alto('', 'PHYSICAL_IMG_NR="4"', '0004.tif'),
    });
    // The fourth file is the page text; its size in the METS document stands in front.
    expect(side.reels[0]!.frames.map((frame) => frame.files[3]!.width)).toEqual([6500, 6501]);
  });

  it('that cannot be read is a problem of its own', async () => {
    const { side } = await read({ [`${folder}/0003.xml`]: alto('', '', '0003.tif').slice(0, -30), [`${folder}/0004.xml`]: '<html/>' });
    expect(side.problems.map(({ code, place }) => [code, place.document])).toEqual([
      ['document-unreadable', `${folder}/0003.xml`],
      ['document-unreadable', `${folder}/0004.xml`],
    ]);
    expect(side.reels[0]!.frames).toHaveLength(2);
  });

  it('is not opened unless it is asked for', async () => {
    const { side, texts } = await read({ [`${folder}/0003.xml`]: 'no XML at all' }, false);
    expect(texts).toEqual([]);
    expect(side.problems).toEqual([]);
    expect(side.reels[0]!.frames[0]!.files[3]!.state).toBe('present');
  });
});
