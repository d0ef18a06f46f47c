import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PROFILES } from '../../src/profiles/index.js';
import { readReturn } from '../../src/read/return.js';
import { issueDocument, listed, manifest } from './documents.js';
import { folderWith } from './folder.js';
import { sideOf } from './reading.js';

const good = issueDocument({ lccn: 'sn99000001', date: '1907-03-15', edition: '1', pages: [{ order: '1', reel: '17', frame: '3' }] });
const at = (name: string): string => `sn99000001/17/${name}/${name}.xml`;

const unreadable: readonly (readonly [string, string | Buffer, RegExp])[] = [
  ['X1 entities that swell', `<!DOCTYPE m [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;">]>${good.slice(good.indexOf('<mets'))}`, /DOCTYPE/],
  ['X1 an external entity', `<!DOCTYPE m SYSTEM "file:///etc/passwd">${good.slice(good.indexOf('<mets'))}`, /DOCTYPE/],
  ['X2 nesting', '<a>'.repeat(100_000), /more than 256 deep/],
  ['X3 cut off', good.slice(0, good.length - 30), /line \d+/],
  ['X5 Latin-1 bytes in UTF-8', Buffer.from(good.replace('Present', 'Pr\u00e9sent'), 'latin1'), /UTF-8, but byte \d+ is not UTF-8/],
  ['X5 overlong bytes', Buffer.concat([Buffer.from('<a>'), Buffer.from([0xc0, 0x80]), Buffer.from('</a>')]), /byte 3 is not UTF-8/],
  ['X5 an unknown encoding', good.replace('UTF-8', 'EBCDIC-X'), /"ebcdic-x", which is not known/],
  ['X5 declared UTF-16', good.replace('UTF-8', 'UTF-16'), /declares UTF-16/],
  ['X7 the same attribute twice', '<mets TYPE="a" TYPE="b"/>', /attribute "TYPE" twice/],
  ['X7 a control character', '<a>\u0001</a>', /character stands there that XML does not allow/],
  ['X7 a reference to nothing', '<a>&nbsp;</a>', /&nbsp; is not defined/],
  ['X7 text after the root', '<a/>x', /outside the root/],
  ['X8 an element __proto__', '<mets><__proto__><a/></__proto__></mets>', /neither an issue nor a reel document/],
  ['X9 a web page', '<html><body><p>Not found<br></body></html>', /<\/body> stands where <br> is open/],
  ['X9 JSON', '{"a": 1}', /outside the root/],
  ['X9 nothing', '', /empty/],
  ['another kind of document', '<alto/>', /neither an issue nor a reel document/],
];

describe('documents that cannot be read', () => {
  it.each(unreadable)('%s is a problem, and the rest is read', async (_name, content, says) => {
    const side = await sideOf(folderWith({ [at('1907031501')]: good, [at('1907031601')]: content }));
    expect(side.issues).toHaveLength(1);
    expect(side.problems).toHaveLength(1);
    expect(side.problems[0]).toMatchObject({
      code: 'document-unreadable',
      date: '1907-03-16',
      edition: 1,
      place: { document: at('1907031601') },
    });
    expect(side.problems[0]!.says).toMatch(says);
    expect(Object.prototype).not.toHaveProperty('a');
  });

  it('X2 are not read above the size cap', async () => {
    const folder = folderWith({ [at('1907031501')]: good });
    const path = join(folder, at('1907031601'));
    mkdirSync(join(path, '..'), { recursive: true });
    // A sparse file: 65 MB that take no room.
    writeFileSync(path, '');
    truncateSync(path, 68_157_440);
    const side = await sideOf(folder);
    expect(side.problems.map((problem) => problem.says)).toEqual([expect.stringMatching(/has 68157440 bytes/) as string]);
  });

  it('P6 do not make the program wait: a pipe', async () => {
    const folder = folderWith({ [at('1907031501')]: good });
    mkdirSync(join(folder, 'sn99000001/17/1907031601'));
    execFileSync('mkfifo', [join(folder, at('1907031601'))]);
    const side = await sideOf(folder);
    expect(side.problems.map((problem) => problem.code)).toEqual(['document-unreadable']);
  });

  it('X1 a broken manifest leaves the issues', async () => {
    const side = await sideOf(
      folderWith({ [at('1907031501')]: good, 'BATCH.xml': manifest([listed('a', 'b', 'c', at('1907031501'))]).replace('</batch>', '') }),
    );
    expect(side.problems.map(({ code, place }) => [code, place.document])).toEqual([['document-unreadable', 'BATCH.xml']]);
    expect(side.issues).toHaveLength(1);
  });
});

describe('encodings', () => {
  const accented = good
    .replace('</mets>', '<!-- é € --></mets>')
    .replace('TYPE=', 'LABEL="Caf\u00e9 \u20ac, 1907-03-15, Matin \u00e9" TYPE=');
  const label = async (content: Buffer): Promise<unknown> => {
    const side = await sideOf(folderWith({ [at('1907031501')]: content }));
    expect(side.problems).toEqual([]);
    return side.issues[0]!.copies.find((copy) => copy.fact === 'editionLabel')?.text;
  };
  const utf16 = Buffer.from(accented.replace('UTF-8', 'UTF-16'), 'utf16le');

  it.each([
    ['UTF-8', Buffer.from(accented)],
    ['UTF-8 with a mark', Buffer.from(`\ufeff${accented}`)],
    ['UTF-16, low byte first, with a mark', Buffer.concat([Buffer.from([0xff, 0xfe]), utf16])],
    ['UTF-16, low byte first', utf16],
    ['UTF-16, high byte first, with a mark', Buffer.concat([Buffer.from([0xfe, 0xff]), Buffer.from(utf16).swap16()])],
    ['ISO-8859-1', Buffer.from(accented.replace('UTF-8', 'ISO-8859-1').replaceAll('€', '&#8364;'), 'latin1')],
    ['windows-1252', Buffer.from(accented.replace('UTF-8', 'windows-1252').replaceAll('€', '\u0080'), 'latin1')],
  ])('X4 %s is read rightly', async (_name, content) => {
    expect(await label(content)).toBe('Matin é');
  });

  it('X6 that were applied twice are read and remarked on', async () => {
    const twice = Buffer.from(Buffer.from(accented.replaceAll('€', '')).toString('latin1'));
    const side = await sideOf(folderWith({ [at('1907031501')]: twice }));
    expect(side.problems).toEqual([]);
    expect(side.remarks.join('\n')).toContain('look encoded twice');
  });
});

describe('folders', () => {
  it('P2 P3 are not left or walked in a circle by links', async () => {
    const outside = folderWith({ 'secret.xml': good });
    const folder = folderWith({ [at('1907031501')]: good });
    symlinkSync(folder, join(folder, 'sn99000001', 'circle'));
    mkdirSync(join(folder, 'sn99000001/17/1907031601'));
    symlinkSync(join(outside, 'secret.xml'), join(folder, at('1907031601')));
    const side = await sideOf(folder);
    expect(side.issues).toHaveLength(1);
    expect(side.problems.map(({ code, says }) => [code, says])).toEqual([
      ['document-unreadable', expect.stringContaining('a link or a device') as string],
      ['document-unreadable', expect.stringContaining('The folder "sn99000001/circle" is a link') as string],
    ]);
  });

  it('P4 with names that differ only in capitals or accents are read once, and the other is said to be unread', async () => {
    const side = await sideOf(
      folderWith({ [at('1907031501')]: good, 'sn99000001/17/1907031501/1907031501.XML': good, 'e\u0301.txt': '1', '\u00e9.txt': '2' }),
    );
    expect(side.issues).toHaveLength(1);
    expect(side.unchecked.find((gap) => gap.what.includes('differ from another only in capital letters'))).toMatchObject({
      count: 1,
      places: [{ document: '\u00e9.txt' }],
    });
    expect(side.unchecked.find((gap) => gap.what === 'second copies of documents')).toMatchObject({
      count: 1,
      places: [{ document: 'sn99000001/17/1907031501/1907031501.xml' }],
    });
    expect(side.problems).toEqual([]);
  });

  it('P5 with a name that is not UTF-8 say so', async () => {
    const folder = folderWith({ [at('1907031501')]: good });
    writeFileSync(Buffer.concat([Buffer.from(`${folder}/caf`), Buffer.from([0xe9]), Buffer.from('.xml')]), good);
    const side = await sideOf(folder);
    expect(side.problems.map(({ code, says }) => [code, says])).toEqual([
      ['document-unreadable', expect.stringContaining('not UTF-8') as string],
    ]);
  });

  it('of another layout, without XML, or that are none, end in one sentence', async () => {
    const says = async (folder: string): Promise<string> => {
      const read = await readReturn([folder], { profiles: PROFILES, readText: false });
      return read.ok ? 'read' : read.says;
    };
    const calendar = '<mets xmlns="http://www.loc.gov/METS/" TYPE="newspaper"><structMap TYPE="PHYSICAL"/></mets>';
    expect(await says(folderWith({ '1907-03-15-1.xml': calendar, '1907031501.xml': calendar }))).toMatch(
      /not recognised: it holds 2 XML files: 2 of <mets TYPE="newspaper">; no document is of the layout "issue-mets" or "page-mods"/,
    );
    expect(await says(folderWith({ 'a.txt': 'x' }))).toMatch(/holds 1 files, none of them XML/);
    expect(await says('/nowhere/at/all')).toMatch(/cannot be read: there is no such file/);
    expect(await says(`${folderWith({ 'a.txt': 'x' })}/a.txt`)).toMatch(/is not a folder|a folder stands where a file should be/);
  });

  it('give the same digest for the same documents, and another when one byte differs', async () => {
    const digest = async (content: string): Promise<string> => {
      const read = await readReturn([folderWith({ 'batch_x/BATCH.xml': manifest([]), [`batch_x/${at('1907031501')}`]: content })], {
        profiles: PROFILES,
        readText: false,
      });
      return read.ok ? (read.inputs[0]?.sha256 ?? '') : '';
    };
    expect(await digest(good)).toBe(await digest(good));
    expect(await digest(good)).not.toBe(await digest(`${good} `));
  });
});
