import { execFileSync } from 'node:child_process';
import { mkdirSync, readdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import type { WrittenReturn } from '../../src/model/written-return.js';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';
import { issueDocument, listed, manifest } from './documents.js';
import { folderWith } from './folder.js';

const good = issueDocument({
  lccn: 'sn99000001',
  date: '1907-03-15',
  edition: '1',
  pages: [{ order: '1', reel: '17', frame: '3', files: ['0003.tif', '0003.jp2'] }],
});
const at = 'sn99000001/17/1907031501';
const batch = { [`${at}/1907031501.xml`]: good, [`${at}/0003.tif`]: 'tif', [`${at}/0003.jp2`]: 'jp2' };
const alto = '<alto xmlns="http://www.loc.gov/standards/alto/ns-v2#"><Layout><Page ID="p" PHYSICAL_IMG_NR="3"/></Layout></alto>';

async function read(folder: string): Promise<WrittenReturn> {
  const result = await readReturn([folder], { profiles: PROFILES, readText: false });
  if (!result.ok) throw new Error(result.says);
  return result.written;
}

/** The account must add up, and each file and folder that was not compared must stand under `unchecked`. */
function expectBalance({ received, unchecked }: WrittenReturn): void {
  for (const { came, compared, found, unchecked: left } of [received.folders, received.documents, received.sections, received.files])
    expect(came).toBe(compared + found + left);
  const listedThings = unchecked.filter((gap) => gap.places.length > 0).reduce((sum, gap) => sum + gap.count, 0);
  const { files, folders, sections } = received;
  expect(listedThings).toBe(files.unchecked + folders.unchecked + sections.unchecked);
}

describe('everything that came', () => {
  it('is compared where the return holds nothing else', async () => {
    const written = await read(folderWith(batch));
    expectBalance(written);
    expect(written.received.files).toEqual({ came: 3, compared: 3, found: 0, unchecked: 0 });
    expect(written.received.folders).toEqual({ came: 3, compared: 3, found: 0, unchecked: 0 });
    expect(written.received.documents).toEqual({ came: 1, compared: 1, found: 0, unchecked: 0 });
    expect([written.problems, written.unchecked.map((gap) => gap.what)]).toEqual([[], ['digests']]);
  });

  it('is told of images and page text that no document names, once for each folder', async () => {
    const written = await read(
      folderWith({ ...batch, [`${at}/0004.tif`]: 'x', [`${at}/0005.tif`]: 'x', [`${at}/0004.xml`]: alto, 'cover.png': 'x' }),
    );
    expectBalance(written);
    expect(written.problems.map(({ code, says }) => [code, says])).toEqual([
      ['file-not-listed', '"cover.png" was sent, but no document names it.'],
      ['file-not-listed', `"${at}/0004.tif", "${at}/0004.xml", "${at}/0005.tif" were sent, but no document names them.`],
    ]);
    expect(written.received.files).toEqual({ came: 7, compared: 3, found: 4, unchecked: 0 });
  });

  it('is not held against the vendor where the document that may name it cannot be read', async () => {
    const written = await read(
      folderWith({
        ...batch,
        [`${at}/1907031501.xml`]: good.slice(0, -30),
        'batch.xml': manifest([listed('sn99000001', '1907-03-15', '1', `${at}/1907031501.xml`)]),
      }),
    );
    expectBalance(written);
    expect(written.problems.map(({ code }) => code)).toEqual(['document-unreadable']);
    expect(written.unchecked.filter((gap) => gap.what.startsWith('page files beside')).map((gap) => gap.count)).toEqual([2]);
  });

  it('is told of the same omission in many folders once', async () => {
    const many = Object.fromEntries(
      ['15', '16', '18', '19'].flatMap((day) => [
        [`sn99000001/17/190703${day}01/190703${day}01.xml`, good],
        [`sn99000001/17/190703${day}01/0003.tif`, 'x'],
        [`sn99000001/17/190703${day}01/0003.jp2`, 'x'],
        [`sn99000001/17/190703${day}01/0003.jpg`, 'x'],
      ]),
    );
    const { problems } = await read(folderWith(many));
    expect(problems.map(({ code, says }) => [code, says])).toEqual([
      ['file-not-listed', expect.stringContaining('and 1 more in 4 folders were sent') as string],
    ]);
  });

  it('is listed by kind where it is not part of the layout', async () => {
    const folder = folderWith({
      ...batch,
      'README.txt': 'x',
      'md5sums.txt': 'x',
      'thumbs/0003.jpg': 'x',
      'tools/Thumbs.db': 'x',
      'notes.xml': '<notes/>',
      '.hidden': 'x',
      'order.bin': 'x',
    });
    mkdirSync(join(folder, 'nothing here'));
    mkdirSync(join(folder, '.git'));
    symlinkSync(join(folder, 'README.txt'), join(folder, 'link.txt'));
    execFileSync('mkfifo', [join(folder, 'pipe')]);
    const written = await read(folder);
    expectBalance(written);
    expect(written.problems).toEqual([]);
    expect(
      Object.fromEntries(
        written.unchecked
          .filter((gap) => gap.places.length > 0)
          .map((gap) => [gap.what, [gap.count, gap.places.map((place) => place.document)]]),
      ),
    ).toEqual({
      'checksum lists': [1, ['md5sums.txt']],
      'devices and pipes': [1, ['pipe']],
      'empty folders': [1, ['nothing here']],
      'folders without anything that was compared': [2, ['thumbs', 'tools']],
      links: [1, ['link.txt']],
      'names that begin with a dot': [2, ['.git', '.hidden']],
      'other files': [1, ['order.bin']],
      'texts for people': [1, ['README.txt']],
      thumbnails: [2, ['thumbs/0003.jpg', 'tools/Thumbs.db']],
      'XML files of another kind': [1, ['notes.xml']],
    });
  });

  it('is counted in hidden folders too, and where a later folder sends it again', async () => {
    const hidden = await read(folderWith({ ...batch, '.cache/a/b': 'x', '.cache/c': 'x' }));
    expectBalance(hidden);
    expect([hidden.received.files, hidden.received.folders]).toMatchObject([
      { came: 5, unchecked: 2 },
      { came: 5, unchecked: 2 },
    ]);
    const folders = [folderWith(batch), folderWith({ [`${at}/0003.tif`]: 'another' })];
    const result = await readReturn(folders, { profiles: PROFILES, readText: false });
    if (!result.ok) throw new Error(result.says);
    expectBalance(result.written);
    expect(result.written.received.files).toEqual({ came: 4, compared: 3, found: 0, unchecked: 1 });
    expect(result.written.unchecked.map(({ what, places }) => [what, places[0]?.document])).toContainEqual([
      'files that a later folder sends again',
      `${at}/0003.tif (earlier folder)`,
    ]);
  });

  it('is told where nobody could look: linked folders and names that are not UTF-8', async () => {
    const outside = folderWith({ '1907031601/1907031601.xml': good });
    const folder = folderWith(batch);
    symlinkSync(join(outside, '1907031601'), join(folder, 'sn99000001/17/1907031601'));
    const name = Buffer.concat([Buffer.from(`${folder}/caf`), Buffer.from([0xe9])]);
    mkdirSync(name);
    writeFileSync(Buffer.concat([name, Buffer.from('/1907031701.xml')]), good);
    writeFileSync(Buffer.concat([Buffer.from(`${folder}/caf`), Buffer.from([0xe9]), Buffer.from('.tif')]), 'x');
    const written = await read(folder);
    expectBalance(written);
    expect(written.issues).toHaveLength(1);
    expect(written.problems.map(({ code, says }) => `${code}: ${says}`)).toEqual([
      'file-not-listed: "caf\ufffd.tif" was sent, but no document names it.',
      'document-unreadable: The name of the folder "caf\ufffd" is not UTF-8 (it shows as "caf\ufffd"), so no document can name what lies there, and nothing of it was read.',
      'document-unreadable: The folder "sn99000001/17/1907031601" is a link to another place. Links are not followed, so nothing that lies there was read.',
    ]);
    expect(written.received.folders).toMatchObject({ came: 5, found: 2 });
  });

  it('is told of damaged XML wherever it lies', async () => {
    const written = await read(folderWith({ ...batch, 'sn99000001/17/target.mix.xml': '<mix><a></mix>', 'zero.xml': '' }));
    expectBalance(written);
    expect(written.problems.map(({ code, place }) => [code, place.document])).toEqual([
      ['document-unreadable', 'zero.xml'],
      ['document-unreadable', 'sn99000001/17/target.mix.xml'],
    ]);
  });

  const root = new URL('../../fixtures/', import.meta.url).pathname;
  const fixtures = ['agrees', 'differs', 'unreadable'].flatMap((kind) => readdirSync(join(root, kind)).map((name) => join(kind, name)));
  it.each(fixtures)('adds up in %s', async (name) => {
    expectBalance(await read(join(root, name, 'return')));
  });
});

describe('documents packed with gzip', () => {
  it('are read under their plain name', async () => {
    const { [`${at}/1907031501.xml`]: document, ...rest } = batch;
    const written = await read(folderWith({ ...rest, [`${at}/1907031501.xml.gz`]: gzipSync(document) }));
    expect(written.issues.map((issue) => issue.facts.date)).toEqual(['1907-03-15']);
    expect(written.problems).toEqual([]);
    expect(written.remarks.join('\n')).toContain('packed with gzip, named here without ".gz": 1.');
  });

  it('that swell without bounds or are cut off cannot be read, and the rest is', async () => {
    const bomb = gzipSync(Buffer.alloc(80 * 1024 * 1024, 0x20));
    const written = await read(
      folderWith({
        ...batch,
        'sn99000001/17/1907031601/1907031601.xml.gz': bomb,
        'sn99000001/17/1907031701/1907031701.xml.gz': gzipSync(good).subarray(0, 200),
      }),
    );
    expect(written.issues).toHaveLength(1);
    expect(written.problems.map(({ code, says }) => `${code}: ${says}`)).toEqual([
      expect.stringMatching(/^document-unreadable: .*1907031601\.xml" cannot be read\. Unpacked it has more than 67108864 bytes/) as string,
      expect.stringMatching(
        /^document-unreadable: .*1907031701\.xml" cannot be read\. It is packed with gzip, but cannot be unpacked/,
      ) as string,
    ]);
  });

  it('give way to the same document unpacked beside them, and are told where it is another', async () => {
    const packed = async (text: string): Promise<WrittenReturn> => {
      const written = await read(folderWith({ ...batch, [`${at}/1907031501.xml.gz`]: gzipSync(text) }));
      expectBalance(written);
      expect(written.issues.map((issue) => issue.facts.date)).toEqual(['1907-03-15']);
      return written;
    };
    const [same, other] = [await packed(good), await packed(good.replace('1907-03-15', '1907-03-16'))];
    expect([same.problems, same.received.files]).toMatchObject([[], { found: 0, unchecked: 1 }]);
    expect(same.unchecked.map(({ what }) => what)).toContain('second copies of documents');
    expect(other.problems.map(({ code, says }) => `${code}: ${says}`)).toEqual([
      `documents-disagree: "${at}/1907031501.xml" was read; "${at}/1907031501.xml.gz" beside it goes by the same name and is another document.`,
    ]);
    expect(other.received.files).toMatchObject({ found: 1, unchecked: 0 });
  });
});

describe('the name of a batch', () => {
  const name = async (files: Readonly<Record<string, string>>, below = ''): Promise<string> =>
    (await read(join(folderWith(files), below))).batch;
  const inside = (folder: string): Record<string, string> =>
    Object.fromEntries(Object.entries(batch).map(([path, text]) => [`${folder}/${path}`, text]));

  it("is the manifest's, else the folder's, and never that of a payload folder", async () => {
    expect(
      await name({
        ...inside('batch_vz_ver01/data'),
        'batch_vz_ver01/data/batch.xml': manifest([listed('sn99000001', '1907-03-15', '1', `${at}/1907031501.xml`)], 'batch_vz_lantern'),
      }),
    ).toBe('batch_vz_lantern');
    expect(await name(inside('batch_vz_ver01/data'))).toBe('batch_vz_ver01');
    expect(await name(inside('batch_vz_ver01/data'), 'batch_vz_ver01/data')).toBe('batch_vz_ver01');
    expect(await name(inside('batch_vz_ver01/data'), 'batch_vz_ver01/data/')).toBe('batch_vz_ver01');
    expect(await name({ ...inside('order/data'), 'order/bagit.txt': 'BagIt-Version: 1.0\n' }, 'order')).toBe('order');
  });

  it('cannot be told where two lie in one folder, which is one sentence', async () => {
    const refused = async (files: Readonly<Record<string, string>>): Promise<string> => {
      const result = await readReturn([folderWith(files)], { profiles: PROFILES, readText: false });
      return result.ok ? 'read' : result.says.replaceAll(/\/\S*return-\w+/g, '.');
    };
    expect(await refused({ ...inside('batch_vz_ver01'), ...inside('batch_vz_ver02') })).toBe(
      'The folder "." holds several deliveries of one batch: "batch_vz_ver01" and "batch_vz_ver02". Verify one at a time: --batch ./batch_vz_ver02',
    );
    expect(await refused({ ...inside('B400022028241-RT1'), ...inside('B400022028241-RT2') })).toContain(
      'several deliveries of one batch: "B400022028241-RT1"',
    );
    expect(await refused({ ...inside('batch_vz_ash_ver01'), ...inside('batch_vz_elm_ver01') })).toContain(
      'several batches: "batch_vz_ash_ver01" and "batch_vz_elm_ver01"',
    );
    expect(
      await refused({
        ...inside('first'),
        ...inside('second'),
        'first/batch.xml': manifest([], 'batch_vz_ash'),
        'second/batch.xml': manifest([], 'batch_vz_elm'),
      }),
    ).toBe(
      'The folder "." holds two batches: "first/batch.xml" is the manifest of "batch_vz_ash" and "second/batch.xml" that of "batch_vz_elm". Verify one at a time, each from a folder of its own: --batch ./second',
    );
  });

  it('is not looked for in an archive', async () => {
    const folder = folderWith({
      'batch.zip': 'PK\u0003\u0004',
      'x/batch': 'PK\u0003\u0004',
      'y/returned': Buffer.concat([Buffer.alloc(257), Buffer.from('ustar')]),
      'z/vz.tar.gz': 'x',
    });
    const says = async (path: string): Promise<string> => {
      const result = await readReturn([join(folder, path)], { profiles: PROFILES, readText: false });
      return result.ok ? 'read' : result.says;
    };
    for (const path of ['batch.zip', 'x/batch', 'y/returned', 'z/vz.tar.gz'])
      expect(await says(path)).toMatch(/ is an archive and not a folder\. Unpack it and give the folder that comes out of it\.$/);
    expect(await says('z')).toMatch(/holds nothing but the archive "vz\.tar\.gz"\. Unpack it/);
  });
});

describe('two copies of a document', () => {
  const path = `${at}/1907031501.xml`;
  const twins = async (plain: string, later: string): Promise<WrittenReturn> => {
    const written = await read(folderWith({ ...batch, [path]: plain, [`${at}/1907031501_1.xml`]: later }));
    expectBalance(written);
    return written;
  };

  it('that say the same are not remarked on', async () => {
    const written = await twins(good, good.replace('<mets', '<!-- again --><mets'));
    expect(written.problems).toEqual([]);
    expect(written.received.documents).toEqual({ came: 2, compared: 2, found: 0, unchecked: 0 });
  });

  it('that differ in facts are told once, with the facts', async () => {
    const written = await twins(good.replaceAll('1907-03-15', '1907-03-16').replace('>3<', '>4<'), good);
    expect(written.issues.map((issue) => issue.facts.date)).toEqual(['1907-03-15']);
    expect(written.problems.map(({ code, says }) => `${code}: ${says}`)).toEqual([
      `documents-disagree: "${at}/1907031501_1.xml" was read; its other copy "${path}" states otherwise: date (1907-03-16 instead of 1907-03-15); frame (page 1: 4 instead of 3).`,
    ]);
  });
});
