import { execFileSync } from 'node:child_process';
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FIRST_ISSUE, published, REEL, REEL_DOCUMENT, SECOND_ISSUE, type Spoilt, told, verified } from './published.js';

const TIF = `${REEL}/1884051401/0008.tif`;
const ISSUE = 'The Quillhaven Courant of 1884-05-14';

/** Takes all files of pages out of the batch. */
function metadataAlone(spoilt: Spoilt): void {
  for (const path of spoilt.paths()) if (!/\/(?:1884\d+|00417028865)\.xml$|^batch\.xml$/.test(path)) spoilt.remove(path);
}

describe('a file that is named and not read', () => {
  const named: readonly (readonly [string, (spoilt: Spoilt) => void, string])[] = [
    [
      'has no name',
      (one) => one.replace(SECOND_ISSUE, './0008.tif', ''),
      `The master file of ${ISSUE} is not named: the reference to it is empty.`,
    ],
    [
      'has no reference',
      (one) => one.replace(SECOND_ISSUE, ' xlink:href="./0008.tif"', ''),
      `The master file of ${ISSUE} is not named: the reference to it is empty.`,
    ],
    [
      'is named with a backslash',
      (one) => one.replace(SECOND_ISSUE, './0008.tif', '.\\0008.tif'),
      `The master file ".\\0008.tif" of ${ISSUE} is named with a backslash, which is not a path, so it was not looked for.`,
    ],
    [
      'is named by the folder',
      (one) => one.replace(SECOND_ISSUE, './0008.tif', './'),
      `The master file "./" of ${ISSUE} is named by the document's own folder, which is not a file.`,
    ],
    [
      'is named by an address',
      (one) => one.replace(SECOND_ISSUE, './0008.tif', 'file:///D:/scans/0008.tif'),
      `The master file "file:///D:/scans/0008.tif" of ${ISSUE} is named by an address, not by a path inside the batch, and nothing is read there.`,
    ],
    [
      'lies outside',
      (one) => one.replace(SECOND_ISSUE, './0008.tif', '../../../../0008.tif'),
      `The master file "../../../../0008.tif" of ${ISSUE} is outside the batch, where nothing is read.`,
    ],
    [
      'is a link',
      (one) => {
        one.remove(TIF);
        symlinkSync('0009.tif', join(one.folder, TIF));
      },
      `The master file "0008.tif" of ${ISSUE} is a link, and links are not followed.`,
    ],
    [
      'is a pipe',
      (one) => {
        one.remove(TIF);
        execFileSync('mkfifo', [join(one.folder, TIF)]);
      },
      `The master file "0008.tif" of ${ISSUE} is a device or a pipe and not a file.`,
    ],
  ];

  it.each(named)('%s, and that is what is said', async (_, spoil, says) => {
    const spoilt = published();
    spoil(spoilt);
    const result = await verified(spoilt);
    expect(told(result).filter((one) => !one.startsWith('file-not-listed'))).toEqual([`file-missing 8: ${says}`]);
    expect(result.counts.received.sections.found).toBe(0);
  });

  it('is told without any picture in the copy too', async () => {
    const empty = published();
    metadataAlone(empty);
    expect(told(await verified(empty))).toEqual([]);
    empty.replace(SECOND_ISSUE, './0008.tif', '');
    expect(told(await verified(empty))).toEqual([
      `file-missing 8: The master file of ${ISSUE} is not named: the reference to it is empty.`,
    ]);
    const none = published();
    metadataAlone(none);
    none.replace(SECOND_ISSUE, /(<div DMDID="pageModsBib2" TYPE="np:page">)[\s\S]*?<\/div>/, '$1</div>');
    expect(told(await verified(none))).toEqual([
      `file-missing 9: 1 page of ${ISSUE} (frame 9) names no derivative, master, ocr or service file.`,
    ]);
  });

  it('goes with the other files that the same pages lack', async () => {
    const spoilt = published();
    for (const ending of ['tif', 'jp2', 'pdf']) spoilt.remove(`${REEL}/1884051401/0008.${ending}`);
    spoilt.remove(`${REEL}/0010.jp2`);
    const result = await verified(spoilt);
    expect(told(result)).toEqual([
      `file-missing 8: The derivative, master and service files 0008.tif, 0008.jp2, 0008.pdf of ${ISSUE} are not in the batch.`,
      'file-missing 10: The service file 0010.jp2 of the target on frame 10 is not in the batch.',
    ]);
    expect(result.findings.flatMap(({ code, collation, return: came }) => (code === 'file-missing' ? [[collation, came]] : []))).toEqual([
      ['derivative, master and service file 0008.tif, 0008.jp2, 0008.pdf', 'did not come'],
      ['service file 0010.jp2', 'did not come'],
    ]);
  });

  it('under other capital letters than its own is read and remarked on', async () => {
    const spoilt = published();
    spoilt.replace(SECOND_ISSUE, './0008.tif', './0008.TIF');
    const result = await verified(spoilt);
    expect(told(result)).toEqual([]);
    expect(result.run.remarks.filter((remark) => remark.includes('capital letters'))).toEqual([
      `Files whose names differ in capital letters or accents from what the documents call them: 1 (first: "${TIF}", called "0008.TIF"). They were taken for the files that are meant; systems that tell such names apart will not find them.`,
    ]);
  });
});

describe('files that the agreement requires', () => {
  const required = { policies: { files: 'required' } } as const;

  it('and of which none came are told once, not for each page', async () => {
    const spoilt = published();
    metadataAlone(spoilt);
    const result = await verified(spoilt, required);
    expect(told(result)).toEqual([
      'file-missing: Not one derivative, master, ocr or service file came with this batch; the agreement asks for the files of every page.',
    ]);
    expect(result.findings[0]).toMatchObject({ count: 6, severity: 'critical' });
    expect(result.unchecked.filter(({ what }) => what.startsWith('page files'))).toEqual([]);
    expect((await verified(spoilt)).unchecked.filter(({ what }) => what.startsWith('page files'))).toMatchObject([{ count: 4 }]);
  });

  it('and whose masters alone are wanting are told once, named or not', async () => {
    const spoilt = published();
    for (const path of spoilt.paths()) if (path.endsWith('.tif')) spoilt.remove(path);
    expect(told(await verified(spoilt, required))).toEqual([
      'file-missing: Not one master file came with this batch; the agreement asks for the files of every page.',
    ]);
    for (const document of [FIRST_ISSUE, SECOND_ISSUE, REEL_DOCUMENT]) {
      spoilt.replace(document, /<file ID="masterFile\d+".*?<\/file>/g, '');
      spoilt.replace(document, /<fptr FILEID="masterFile\d+"\/>/g, '');
    }
    expect(told(await verified(spoilt, required))).toEqual([
      'file-missing: Not one master file came with this batch, and no document names one; the agreement asks for the files of every page.',
    ]);
  });
});

describe('the text of pages', () => {
  it('was not compared where nobody read it', async () => {
    const spoilt = published();
    spoilt.put(`${REEL}/1884051401/0008.xml`, '<alto><broken');
    const result = await verified(spoilt);
    expect(told(result)).toEqual([]);
    expect(result.counts.received.files).toMatchObject({ came: 48, compared: 37, unchecked: 11 });
    expect(result.unchecked.map(({ what, count }) => [what, count])).toEqual([['text of pages', 11]]);
    expect((await verified(spoilt, { readText: true })).findings.map(({ code }) => code)).toEqual(['document-unreadable']);
  });
});
