import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { WrittenReturn } from '../../src/model/written-return.js';
import { PROFILES } from '../../src/profiles/index.js';
import { digestsOf } from '../../src/read/fixity/digests.js';
import { readReturn } from '../../src/read/return.js';
import { receivedInWords } from '../../src/report/words.js';
import { folderWith } from './folder.js';

const digest = (algorithm: string, text: string): string => createHash(algorithm).update(text).digest('hex');

interface Stated {
  readonly name: string;
  readonly type?: string;
  readonly checksum?: string;
  readonly size?: number;
  readonly premis?: readonly [string, string];
}

/** An issue of as many pages as files, each file with the digests that are stated of it. */
function document(files: readonly Stated[]): string {
  const attributes = ({ type, checksum, size }: Stated): string =>
    `${checksum === undefined ? '' : ` CHECKSUM="${checksum}"`}${type === undefined ? '' : ` CHECKSUMTYPE="${type}"`}${size === undefined ? '' : ` SIZE="${String(size)}"`}`;
  const page = (at: number): string =>
    `<dmdSec ID="p${String(at)}"><mdWrap><xmlData><m:mods><m:part><m:extent unit="pages"><m:start>${String(at + 1)}</m:start></m:extent></m:part><m:relatedItem type="original"><m:identifier type="reel number">17</m:identifier><m:identifier type="reel sequence number">${String(at + 3)}</m:identifier></m:relatedItem></m:mods></xmlData></mdWrap></dmdSec>`;
  return `<mets xmlns="http://www.loc.gov/METS/" xmlns:m="http://www.loc.gov/mods/v3" xmlns:x="http://www.w3.org/1999/xlink" xmlns:p="info:lc/xmlns/premis-v2" TYPE="urn:example:issue">
<dmdSec ID="i"><mdWrap><xmlData><m:mods><m:relatedItem type="host"><m:identifier type="lccn">sn99000001</m:identifier></m:relatedItem><m:originInfo><m:dateIssued encoding="iso8601">1907-03-15</m:dateIssued></m:originInfo></m:mods></xmlData></mdWrap></dmdSec>
${files.map((_, at) => page(at)).join('\n')}
<amdSec>${files
    .map(({ premis }, at) =>
      premis === undefined
        ? ''
        : `<techMD ID="t${String(at)}"><p:object><p:fixity><p:messageDigestAlgorithm>${premis[0]}</p:messageDigestAlgorithm><p:messageDigest>${premis[1]}</p:messageDigest></p:fixity></p:object></techMD>`,
    )
    .join('')}</amdSec>
<fileSec><fileGrp USE="master">${files.map((file, at) => `<file ID="f${String(at)}" ADMID="t${String(at)}"${attributes(file)}><FLocat x:href="${file.name}"/></file>`).join('')}</fileGrp></fileSec>
<structMap><div TYPE="np:issue" DMDID="i">${files.map((_, at) => `<div TYPE="np:page" DMDID="p${String(at)}"><fptr FILEID="f${String(at)}"/></div>`).join('')}</div></structMap></mets>`;
}

const at = '17/1907031501';
const path = `${at}/1907031501.xml`;

async function read(files: Readonly<Record<string, string>>, fixity = true, below = ''): Promise<WrittenReturn> {
  const result = await readReturn([join(folderWith(files), below)], { profiles: PROFILES, readText: false, fixity });
  if (!result.ok) throw new Error(result.says);
  return result.written;
}

const said = ({ problems }: WrittenReturn): readonly string[] => problems.map(({ code, says }) => `${code}: ${says}`);

describe('digests of a file', () => {
  // The bytes "abc": RFC 1321 appendix A.5 (MD5), FIPS 180-2 appendices A.1 (SHA-1), B.1 (SHA-256) and C.1 (SHA-512).
  it('are those of the standards', async () => {
    const read = await digestsOf(join(folderWith({ abc: 'abc' }), 'abc'), new Set(['md5', 'sha1', 'sha256', 'sha512']));
    expect(read).toMatchObject({ ok: true, size: 3 });
    expect(read.ok && Object.fromEntries(read.digests)).toEqual({
      md5: '900150983cd24fb0d6963f7d28e17f72',
      sha1: 'a9993e364706816aba3e25717850c26c9cd0d89d',
      sha256: 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
      sha512:
        'ddaf35a193617abacc417349ae20413112e6fa4e89a97ea20a9eeee64b55d39a2192992a274fc1a836ba3c23a3feebbd454d4423643ce80e2a9ac94fa54ca49f',
    });
  });
});

describe('files and the digests that documents state', () => {
  it('agree in every algorithm and place', async () => {
    const files: readonly Stated[] = [
      { name: '1.tif', type: 'MD5', checksum: digest('md5', 'one').toUpperCase(), size: 3 },
      { name: '2.tif', type: 'SHA-1', checksum: digest('sha1', 'two') },
      { name: '3.tif', premis: ['SHA-256', digest('sha256', 'three')] },
      { name: '4.tif', type: 'SHA-512', checksum: digest('sha512', 'four'), premis: ['SHA-1', digest('sha1', 'four')] },
    ];
    const texts = { [`${at}/1.tif`]: 'one', [`${at}/2.tif`]: 'two', [`${at}/3.tif`]: 'three', [`${at}/4.tif`]: 'four' };
    const written = await read({ [path]: document(files), ...texts });
    expect([written.problems, written.unchecked]).toEqual([[], []]);
    expect(written.received.fixity).toEqual({ compared: 4, differ: 0, without: 0 });
  });

  it('are not looked at without --fixity, which is said once', async () => {
    const files = [{ name: '1.tif', type: 'MD5', checksum: digest('md5', 'another') }];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'one' }, false);
    expect(written.problems).toEqual([]);
    expect(written.received.fixity).toBeUndefined();
    expect(written.unchecked).toEqual([
      {
        what: 'digests',
        why: 'Digests are stated for 1 of the files that came, which were not held against them. The option --fixity does it.',
        frames: null,
        places: [],
        count: 1,
        required: false,
      },
    ]);
  });

  it('are counted: compared, other than stated, and without a statement', async () => {
    const files = [{ name: '1.tif', type: 'MD5', checksum: digest('md5', 'another') }, { name: '2.tif' }, { name: '3.tif', size: 5 }];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'one', [`${at}/2.tif`]: 'two', [`${at}/3.tif`]: 'three' });
    expect(written.received.fixity).toEqual({ compared: 2, differ: 1, without: 1 });
    expect(receivedInWords(written.received)).toMatch(
      / 2 files were held against the digests or sizes stated: 1 differs; for 1 page file nothing is stated\.$/,
    );
  });

  it('differ: the file, both digests, both sizes', async () => {
    const files = [{ name: '1.tif', type: 'MD5', checksum: digest('md5', 'another'), size: 7 }];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'one' });
    expect(said(written)).toEqual([
      `checksum-differs: "${at}/1.tif" is not the file that was described: its MD5 digest is ${digest('md5', 'one')}, and ${digest('md5', 'another')} is stated. It has 3 bytes; 7 are stated.`,
    ]);
    expect(written.received.files).toEqual({ came: 2, compared: 1, found: 1, unchecked: 0 });
  });

  it('tell of a picture that was copied over another', async () => {
    const files = [
      { name: '1.tif', type: 'SHA-1', checksum: digest('sha1', 'one') },
      { name: '2.tif', type: 'SHA-1', checksum: digest('sha1', 'two') },
    ];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'two', [`${at}/2.tif`]: 'two' });
    expect(said(written)).toEqual([
      expect.stringMatching(`^checksum-differs: "${at}/1.tif" has the content stated for "${at}/2.tif"`) as string,
    ]);
  });

  it('tell of two pictures that were exchanged once', async () => {
    const files = [
      { name: '1.tif', type: 'SHA-1', checksum: digest('sha1', 'one') },
      { name: '2.tif', type: 'SHA-1', checksum: digest('sha1', 'two') },
    ];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'two', [`${at}/2.tif`]: 'one' });
    expect(written.problems.map(({ says, instruction }) => [says, instruction])).toEqual([
      [
        expect.stringMatching(`^"${at}/1.tif" and "${at}/2.tif" stand in each other's place`) as string,
        `Exchange the files "${at}/1.tif" and "${at}/2.tif".`,
      ],
    ]);
    expect(written.received.files).toMatchObject({ came: 3, found: 2 });
  });

  it('differ in most of a folder, which is one problem', async () => {
    const files = [1, 2, 3, 4, 5, 6].map((page) => ({
      name: `${String(page)}.tif`,
      type: 'MD5',
      checksum: digest('md5', `before ${String(page)}`),
    }));
    const texts = Object.fromEntries(files.map(({ name }) => [`${at}/${name}`, `after ${name}`]));
    const written = await read({ [path]: document(files), ...texts });
    expect(said(written)).toEqual([
      expect.stringMatching(
        /^checksum-differs: 6 of 6 files \(.*\) are not the files that were described: their digests differ\./,
      ) as string,
    ]);
    expect(written.received.files.found).toBe(6);
  });

  it('cannot be compared by an algorithm that the program does not know, or by what is not a digest', async () => {
    const files = [
      { name: '1.tif', type: 'Adler-32', checksum: '024d0127' },
      { name: '2.tif', type: 'MD5', checksum: 'n/a' },
    ];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'one', [`${at}/2.tif`]: 'two' });
    expect(written.problems).toEqual([]);
    expect(written.unchecked.map(({ what, why, count }) => [what, why, count])).toEqual([
      ['digests that cannot be compared', 'They are made with Adler-32, which the program does not compute.', 1],
      ['digests that cannot be compared', 'What stands there is no digest of MD5.', 1],
    ]);
  });
});

describe('sizes that documents state', () => {
  const image = (inside: string): string =>
    document([{ name: '1.tif', premis: ['MD5', digest('md5', 'one')] }]).replace('</p:fixity>', `</p:fixity>${inside}`);

  it('are held against the files, wherever they stand', async () => {
    const [entry] = [{ name: '1.tif', size: 7 }];
    const says = `checksum-differs: "${at}/1.tif" is not the file that was described: it has 3 bytes, and 7 are stated.`;
    for (const text of [
      document([entry]),
      image('<p:size>7</p:size>'),
      image('<m:FileSize xmlns:m="http://www.loc.gov/mix/">7</m:FileSize>'),
    ])
      expect(said(await read({ [path]: text, [`${at}/1.tif`]: 'one' }))).toEqual([says]);
    const right = await read({ [path]: image('<p:size>3</p:size>'), [`${at}/1.tif`]: 'one' });
    expect([right.problems, right.unchecked]).toEqual([[], []]);
  });

  it('are not looked at without --fixity, and where they are no number', async () => {
    const without = await read({ [path]: image('<p:size>7</p:size>'), [`${at}/1.tif`]: 'one' }, false);
    expect(without.unchecked.map(({ why }) => why)).toEqual([
      'Digests and sizes are stated for 1 of the files that came, which were not held against them. The option --fixity does it.',
    ]);
    const odd = await read({ [path]: image('<p:size>3 bytes</p:size>'), [`${at}/1.tif`]: 'one' });
    expect([odd.problems, odd.unchecked.map(({ what }) => what)]).toEqual([[], ['sizes that cannot be compared']]);
  });
});

describe('digests in technical metadata', () => {
  it('are all held against the file, not the first alone', async () => {
    const two = document([{ name: '1.tif', premis: ['MD5', digest('md5', 'one')] }]).replace(
      '</p:object>',
      `<p:fixity><p:messageDigestAlgorithm>SHA-1</p:messageDigestAlgorithm><p:messageDigest>${digest('sha1', 'two')}</p:messageDigest></p:fixity></p:object>`,
    );
    expect(said(await read({ [path]: two, [`${at}/1.tif`]: 'one' }))).toEqual([expect.stringContaining('its SHA-1 digest is') as string]);
  });

  it('that are empty, or of an algorithm that is not named, are said', async () => {
    const files = [
      { name: '1.tif', type: 'MD5', checksum: '' },
      { name: '2.tif', type: '', checksum: digest('md5', 'two') },
    ];
    const written = await read({ [path]: document(files), [`${at}/1.tif`]: 'one', [`${at}/2.tif`]: 'two' });
    expect([written.problems, written.unchecked.map(({ why }) => why)]).toEqual([
      [],
      ['Nothing stands where the digest should.', 'They are made with an algorithm that is not named, which the program does not compute.'],
    ]);
  });

  it('stand in an image document of its own too', async () => {
    const page = `11/1904-01-12-01/sn99000001-1904-01-12-01-0004`;
    const mods = `<mods xmlns="http://www.loc.gov/mods/v3"><part><extent unit="pages"><start>1</start></extent></part></mods>`;
    const mix = (of: string): string =>
      `<mix xmlns="http://www.loc.gov/mix/v20"><Fixity><messageDigestAlgorithm>SHA-1</messageDigestAlgorithm><messageDigest>${digest('sha1', of)}</messageDigest></Fixity><fileSize>3</fileSize></mix>`;
    const batch = { [`${page}.mods.xml`]: mods, [`${page}.jp2`]: 'one' };
    const differing = async (of: string): Promise<readonly string[]> =>
      said(await read({ ...batch, [`${page}.mix.xml`]: mix(of) })).filter((says) => says.startsWith('checksum'));
    expect(await differing('one')).toEqual([]);
    expect(await differing('two')).toEqual([expect.stringContaining(`"${page}.jp2" is not the file that was described`) as string]);
  });
});

describe('a bag', () => {
  const files = [{ name: '1.tif' }, { name: '2.tif' }];
  const payload = { [`b/data/${path}`]: document(files), [`b/data/${at}/1.tif`]: 'one', [`b/data/${at}/2.tif`]: 'two' };
  const line = (text: string, name: string): string => `${digest('sha256', text)}  data/${name}\n`;
  const manifest = line(document(files), path) + line('one', `${at}/1.tif`) + line('two', `${at}/2.tif`);
  const bag = {
    'b/bagit.txt': 'BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n',
    'b/manifest-sha256.txt': manifest,
    'b/bag-info.txt': `Payload-Oxum: ${String(document(files).length + 6)}.3\n`,
  };

  it('that is whole agrees, with and without --fixity', async () => {
    for (const fixity of [true, false]) {
      const written = await read(
        { ...payload, ...bag, 'b/tagmanifest-md5.txt': `${digest('md5', manifest)} manifest-sha256.txt\n` },
        fixity,
        'b',
      );
      expect(written.problems).toEqual([]);
      expect(written.unchecked.map((gap) => gap.what)).toEqual(fixity ? [] : ['digests']);
      expect(written.received.files).toEqual({ came: 7, compared: 7, found: 0, unchecked: 0 });
    }
  });

  it('that lacks a file, holds another or holds a damaged one tells each', async () => {
    const more = manifest + line('three', `${at}/3.tif`);
    const written = await read(
      {
        ...payload,
        ...bag,
        [`b/data/${at}/2.tif`]: 'TWO',
        'b/data/extra.tif': 'x',
        'b/manifest-sha256.txt': more,
        'b/bag-info.txt': 'Payload-Oxum: 9.7\n',
      },
      true,
      'b',
    );
    expect(said(written)).toEqual([
      `file-missing: The bag's manifest lists "data/${at}/3.tif", but no such file was sent.`,
      'file-not-listed: "extra.tif" lies in the payload of the bag, but its manifest does not list it.',
      `manifest-disagrees: The bag says of itself (Payload-Oxum in "bag-info.txt") that it holds 7 files with 9 bytes; 4 with ${String(document(files).length + 7)} bytes came.`,
      `checksum-differs: "${at}/2.tif" is not the file that was described: its sha256 digest is ${digest('sha256', 'TWO')}, and ${digest('sha256', 'two')} is stated.`,
    ]);
  });

  it('whose manifest leads out of it is not followed', async () => {
    const written = await read(
      { ...payload, ...bag, 'b/manifest-sha256.txt': `${manifest}${digest('sha256', 'x')}  ../../etc/passwd\n` },
      true,
      'b',
    );
    expect(said(written)).toEqual([
      'manifest-disagrees: Line 4 of the bag\'s "manifest-sha256.txt" is not a digest with a path inside the bag.',
    ]);
  });

  it('that says another number of bytes of itself is told, with and without --fixity', async () => {
    for (const fixity of [true, false]) {
      const written = await read({ ...payload, ...bag, 'b/bag-info.txt': 'Payload-Oxum: 12.3\n' }, fixity, 'b');
      expect(said(written)).toEqual([
        `manifest-disagrees: The bag says of itself (Payload-Oxum in "bag-info.txt") that it holds 3 files with 12 bytes; 3 with ${String(document(files).length + 6)} bytes came.`,
      ]);
    }
  });

  it('without a manifest that can be read says nothing of its payload, which is told', async () => {
    const { 'b/manifest-sha256.txt': list, ...rest } = { ...payload, ...bag };
    expect(list).toBe(manifest);
    expect(said(await read(rest, true, 'b'))).toEqual([
      'file-missing: The bag holds no manifest of its payload, so nothing says which files it should hold.',
    ]);
    for (const put of [symlinkSync.bind(null, '/etc/hostname'), (path: string) => execFileSync('mkfifo', [path])]) {
      const folder = join(folderWith(rest), 'b');
      put(join(folder, 'manifest-sha256.txt'));
      const result = await readReturn([folder], { profiles: PROFILES, readText: false, fixity: true });
      if (!result.ok) throw new Error(result.says);
      expect(said(result.written)).toEqual([
        expect.stringMatching(/^document-unreadable: "manifest-sha256\.txt" of the bag cannot be read\. It is /) as string,
      ]);
      expect(result.written.received.files).toMatchObject({ came: 6, found: 1 });
    }
  });

  it('that leaves files to be fetched from elsewhere lacks them', async () => {
    const fetch = `https://example.org/3.tif 5 data/${at}/3.tif\nhttps://example.org/2.tif - data/${at}/2.tif\nnothing\n`;
    const written = await read({ ...payload, ...bag, 'b/fetch.txt': fetch }, true, 'b');
    expect(said(written)).toEqual([
      'manifest-disagrees: Line 3 of the bag\'s "fetch.txt" is not an address with a path inside the bag.',
      `file-missing: The bag leaves "data/${at}/3.tif" to be fetched from elsewhere ("fetch.txt"). Nothing is fetched, and no such file was sent.`,
    ]);
  });

  it('that lists a hidden file has it', async () => {
    const hidden = { ...payload, 'b/data/.notes': 'x', 'b/manifest-sha256.txt': manifest + line('x', '.notes') };
    const written = await read({ ...bag, ...hidden, 'b/bag-info.txt': `Payload-Oxum: ${String(document(files).length + 7)}.4` }, true, 'b');
    expect(said(written)).toEqual([]);
  });

  it('beside whose payload something lies tells of what may belong to pages, once, and lists the rest', async () => {
    const beside = {
      'b/0001.tif': 'x',
      'b/more/0002.jp2': 'x',
      'b/more/deep/1907031501.xml': '<mets',
      'b/about.txt': 'x',
      'b/.hidden': 'x',
    };
    const written = await read({ ...payload, ...bag, ...beside }, true, 'b');
    expect(said(written)).toEqual([
      'file-not-listed: "0001.tif", "more/0002.jp2", "more/deep/1907031501.xml" lie beside the folder "data" of the bag. The batch is that folder alone, so nothing was compared with them.',
    ]);
    expect(written.unchecked.map(({ what, count }) => [what, count])).toEqual([
      ['texts for people', 1],
      ['names that begin with a dot', 1],
    ]);
    expect(written.received.files).toEqual({ came: 11, compared: 6, found: 3, unchecked: 2 });
    expect(written.received.folders).toMatchObject({ came: 4, found: 2 });
  });

  it('whose files the documents miss already is not told a second time', async () => {
    const { [`b/data/${at}/2.tif`]: lost, ...rest } = payload;
    const written = await read({ ...rest, ...bag }, true, 'b');
    expect([lost, said(written)]).toEqual(['two', []]);
    expect(written.issues[0]?.pages[1]?.files.map(({ state }) => state)).toEqual(['missing']);
  });
});
