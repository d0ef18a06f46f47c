import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect } from 'vitest';
import { newFolder } from '../cli/command.js';
import { issueDocument } from '../read/documents.js';
import { batchWith } from './batch-with.js';
import { type Ending, limited, said } from './limits.js';
import type { Row } from './row.js';

const issueOf = (date: string, files: readonly string[] = []): string =>
  issueDocument({
    lccn: 'sn99000001',
    date,
    edition: '1',
    pages: [{ order: '1', number: '1', reel: '17', frame: date.slice(-2).replace(/^0/, ''), ...(files.length === 0 ? {} : { files }) }],
  });
const GOOD = issueOf('1907-03-03');
const place = (day: string): string => `sn99000001/17/190703${day}01/190703${day}01.xml`;
const WITH_GOOD = { [place('03')]: GOOD };

/** The record of these days of March 1907, a page each, whose frame has the number of the day. */
export function record(days: readonly number[]): string {
  const path = join(newFolder(), 'reel.csv');
  const rows = days.map((day) => `17,${String(day)},sn99000001,1907-03-${String(day).padStart(2, '0')},1`);
  writeFileSync(path, ['reel,frame,title,date,page', ...rows, ''].join('\n'));
  return path;
}

export const verified = async (batch: string, days: readonly number[] = [3, 4], more: readonly string[] = []): Promise<Ending> =>
  limited(['verify', '--collation', record(days), '--batch', batch, ...more]);

/** A document beside a good one: it is a finding, and the good one is verified. */
function bad(code: string, name: string, content: string | Buffer, says: string): Row {
  return {
    code,
    name,
    status: 1,
    says,
    run: async () => verified(batchWith({ ...WITH_GOOD, [place('04')]: content })),
    holds: (ending) => {
      expect(said(ending)).toContain('document-unreadable');
      expect(said(ending)).toMatch(/1 page/);
    },
  };
}

const headless = GOOD.slice(GOOD.indexOf('<mets'));
const accented = (encoding: string): string =>
  issueOf('1907-03-04').replace('UTF-8', encoding).replace('TYPE=', 'LABEL="Caf\u00e9, 1907-03-04, Matin \u00e9" TYPE=');
const utf16 = Buffer.from(accented('UTF-16'), 'utf16le');

/** Files above the cap that take no room on the disk. */
function sparse(bytes: number): string {
  const folder = batchWith(WITH_GOOD);
  const path = join(folder, place('04'));
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, '<mets a="');
  truncateSync(path, bytes);
  return folder;
}

const long = (before: string, after: string): string => `${before}${'x'.repeat(60_000_000)}${after}`;

export const DOCUMENT_ROWS: readonly Row[] = [
  bad(
    'X1',
    'entities that swell a thousand million times',
    `<!DOCTYPE m [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;">]>${headless}`,
    'DOCTYPE',
  ),
  bad(
    'X1',
    'one long entity, used very often',
    `<!DOCTYPE m [<!ENTITY a "${'x'.repeat(50_000)}">]><mets>${'&a;'.repeat(20_000)}</mets>`,
    'DOCTYPE',
  ),
  bad('X1', 'an entity that reads a file of the machine', `<!DOCTYPE m [<!ENTITY a SYSTEM "file:///etc/passwd">]>${headless}`, 'DOCTYPE'),
  bad(
    'X1',
    'a parameter entity of another machine',
    `<!DOCTYPE m [<!ENTITY % a SYSTEM "http://example.invalid/a"> %a;]>${headless}`,
    'DOCTYPE',
  ),
  bad('X1', 'a document type of another machine', `<!DOCTYPE m SYSTEM "http://example.invalid/m.dtd">${headless}`, 'DOCTYPE'),
  bad('X2', 'a hundred thousand elements inside each other', '<a>'.repeat(100_000), '256'),
  { code: 'X2', name: 'an attribute of a gigabyte', status: 1, says: 'are not read', run: async () => verified(sparse(1 << 30)) },
  { ...bad('X2', 'an attribute of 60 MB', long('<mets a="', '"/>'), 'document-unreadable'), slow: true },
  { ...bad('X2', 'a text of 60 MB in one element', long('<mets>', '</mets>'), 'document-unreadable'), slow: true },
  {
    code: 'X3',
    name: 'documents cut off at forty different bytes',
    status: 1,
    says: 'document-unreadable',
    run: async () => {
      const cut = Array.from({ length: 40 }, (_, at) => Math.floor((GOOD.length - 8) * ((at + 0.5) / 40)));
      const files = cut.map((end, at) => [
        `sn99000001/17/19070303${String(at + 2).padStart(2, '0')}/19070303${String(at + 2).padStart(2, '0')}.xml`,
        GOOD.slice(0, end),
      ]);
      return verified(batchWith({ ...WITH_GOOD, ...(Object.fromEntries(files) as Record<string, string>) }), [3], ['--format', 'json']);
    },
    holds: ({ stdout }) => {
      const { findings } = JSON.parse(stdout) as {
        readonly findings: readonly { readonly code: string; readonly count: number; readonly places: readonly unknown[] }[];
      };
      const unreadable = findings.filter(({ code }) => code === 'document-unreadable');
      expect(unreadable.flatMap(({ places }) => places)).toHaveLength(40);
    },
  },
  ...(
    [
      ['UTF-8 with a mark', Buffer.from(`\ufeff${accented('UTF-8')}`)],
      ['UTF-16 with a mark', Buffer.concat([Buffer.from([0xff, 0xfe]), utf16])],
      ['UTF-16 without a mark', utf16],
      ['ISO-8859-1', Buffer.from(accented('ISO-8859-1'), 'latin1')],
      ['Windows-1252', Buffer.from(accented('windows-1252').replace('Caf', '\u0080'), 'latin1')],
    ] as const
  ).map(
    ([name, content]): Row => ({
      code: 'X4',
      name: `a document in ${name}`,
      status: 0,
      says: 'ACCEPT',
      run: async () => verified(batchWith({ ...WITH_GOOD, [place('04')]: content })),
    }),
  ),
  bad('X5', 'Latin-1 bytes under the name of UTF-8', Buffer.from(accented('UTF-8'), 'latin1'), 'is not UTF-8'),
  bad('X5', 'UTF-8 bytes under the name of UTF-16', accented('UTF-16'), 'declares UTF-16'),
  bad('X5', 'an overlong NUL', Buffer.concat([Buffer.from('<a>'), Buffer.from([0xc0, 0x80]), Buffer.from('</a>')]), 'byte 3 is not UTF-8'),
  bad(
    'X5',
    'halves of a letter in three bytes each',
    Buffer.concat([Buffer.from('<a>'), Buffer.from([0xed, 0xa0, 0xbd, 0xed, 0xb8, 0x80]), Buffer.from('</a>')]),
    'byte 3 is not UTF-8',
  ),
  bad(
    'X5',
    'one stray byte',
    Buffer.concat([Buffer.from(headless.slice(0, 400)), Buffer.from([0x9d]), Buffer.from(headless.slice(400))]),
    'is not UTF-8',
  ),
  bad('X5', 'an encoding that nobody knows', GOOD.replace('UTF-8', 'EBCDIC-X'), 'which is not known'),
  bad('X5', 'a mark that the declaration contradicts', `\ufeff${accented('ISO-8859-1')}`, 'document-unreadable'),
  {
    code: 'X6',
    name: 'text that was encoded twice',
    status: 0,
    says: 'encoded twice',
    run: async () => verified(batchWith({ ...WITH_GOOD, [place('04')]: Buffer.from(Buffer.from(accented('UTF-8')).toString('latin1')) })),
  },
  bad('X7', 'an attribute twice', headless.replace('<mets ', '<mets A="1" A="2" '), 'twice'),
  bad('X7', 'a control character', '<mets>\u0001</mets>', 'XML does not allow'),
  bad('X7', 'a reference to nothing', '<mets>&nbsp;</mets>', 'is not defined'),
  bad('X7', 'more behind the end', `${GOOD}<more/>`, 'a second element stands after the root element'),
  bad('X8', 'an element called `__proto__`', '<mets><__proto__><a/></__proto__></mets>', 'document-unreadable'),
  {
    code: 'X8',
    name: 'attributes called `__proto__` and `constructor` in a document that is right',
    status: 0,
    says: 'ACCEPT',
    run: async () =>
      verified(batchWith({ ...WITH_GOOD, [place('04')]: issueOf('1907-03-04').replace('TYPE=', '__proto__="x" constructor="y" TYPE=') })),
  },
  bad('X9', 'a web page under the name of a document', '<html><body><p>Not found<br></body></html>', 'document-unreadable'),
  bad('X9', 'JSON under the name of a document', '{"a": 1}', 'outside the root'),
  bad('X9', 'a document of zero bytes', '', 'empty'),
];

/** So many documents of nothing, a day each. */
const nothings = (count: number): Record<string, string> =>
  Object.fromEntries(
    Array.from({ length: count }, (_, at) => {
      const name = `${new Date(Date.UTC(1908, 0, at + 1)).toISOString().slice(0, 10).replaceAll('-', '')}01`;
      return [`sn99000001/17/${name}/${name}.xml`, ''] as const;
    }),
  );

/** From the folder of an issue it is four steps up to the folder in which the batch lies; the secrets lie there. */
const UP = '../../../../';
const unsafe = [
  `${UP}secret.tif`,
  `a/../${UP}secret-2.tif`,
  `${UP.replaceAll('.', '%2e')}secret-3.tif`,
  '/etc/hosts',
  'file:///etc/passwd',
  'http://example.invalid/x.tif',
  'C:\\secret.tif',
  '\\\\server\\x.tif',
  '..\\..\\..\\..\\secret-4.tif',
  '~/secret.tif',
  `${UP}..`,
  '.',
  `${UP}batch-evil/x.tif`,
];

function withSecret(): string {
  const parent = batchWith({ 'secret.tif': 'x', 'secret-2.tif': 'x', 'secret-3.tif': 'x', 'secret-4.tif': 'x', 'batch-evil/x.tif': 'x' });
  const batch = join(parent, 'batch');
  const pages = unsafe.map((file, at) => ({
    order: String(at + 1),
    number: String(at + 1),
    reel: '17',
    frame: String(at + 3),
    files: [file],
  }));
  const document = issueDocument({ lccn: 'sn99000001', date: '1907-03-03', edition: '1', pages });
  const path = join(batch, place('03'));
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, document);
  writeFileSync(join(dirname(path), 'own.tif'), 'x');
  return batch;
}

export const PATH_ROWS: readonly Row[] = [
  {
    code: 'O14',
    name: '256 findings: the status is no count',
    status: 1,
    says: 'document-unreadable',
    run: async () => verified(batchWith({ ...WITH_GOOD, ...nothings(256) }), [3], ['--format', 'jsonl']),
    holds: ({ stdout }) => {
      expect(JSON.parse(stdout)).toMatchObject({ severities: { critical: 256 } });
    },
  },
  {
    code: 'P1',
    name: 'names of files that lead out of the batch, in thirteen spellings',
    status: 1,
    says: 'file-missing',
    run: async () => {
      const path = join(newFolder(), 'reel.csv');
      writeFileSync(
        path,
        `reel,frame,title,date,page\n${unsafe.map((_, at) => `17,${String(at + 3)},sn99000001,1907-03-03,${String(at + 1)}`).join('\n')}\n`,
      );
      return limited(['verify', '--collation', path, '--batch', withSecret(), '--format', 'json']);
    },
    holds: ({ stdout }) => {
      const { findings } = JSON.parse(stdout) as { readonly findings: readonly { readonly code: string; readonly count: number }[] };
      expect(findings.filter(({ code }) => code === 'file-missing').reduce((sum, { count }) => sum + count, 0)).toBe(unsafe.length);
      expect(stdout).not.toMatch(/localhost|root:/);
    },
  },
  {
    code: 'P2',
    name: 'a link to a document outside the batch',
    status: 1,
    says: 'is a link',
    run: async () => {
      const batch = batchWith(WITH_GOOD);
      mkdirSync(dirname(join(batch, place('04'))), { recursive: true });
      symlinkSync(join(batchWith({ 'x.xml': issueOf('1907-03-04') }), 'x.xml'), join(batch, place('04')));
      return verified(batch);
    },
  },
  {
    code: 'P3',
    name: 'links that lead round in a circle',
    status: 1,
    says: 'is a link',
    run: async () => {
      const batch = batchWith(WITH_GOOD);
      symlinkSync(batch, join(batch, 'sn99000001', 'circle'));
      symlinkSync('b', join(batch, 'a'));
      symlinkSync('a', join(batch, 'b'));
      return verified(batch, [3]);
    },
  },
  {
    code: 'P4',
    name: 'names that differ in capitals or in the spelling of an accent alone',
    status: 0,
    says: 'differ from another only in capital letters',
    run: async () =>
      verified(batchWith({ ...WITH_GOOD, 'e\u0301.txt': '1', '\u00e9.txt': '2', 'CON.txt': '3', 'con.TXT': '4', 'x .txt': '5' }), [3]),
  },
  {
    code: 'P5',
    name: 'a name that is no UTF-8',
    status: 1,
    says: 'not UTF-8',
    run: async () => {
      const batch = batchWith(WITH_GOOD);
      writeFileSync(Buffer.concat([Buffer.from(`${batch}/caf`), Buffer.from([0xe9]), Buffer.from('.xml')]), GOOD);
      return verified(batch, [3]);
    },
  },
  {
    code: 'P6',
    name: 'a pipe under the name of a document',
    status: 1,
    says: 'document-unreadable',
    run: async () => {
      const batch = batchWith(WITH_GOOD);
      mkdirSync(dirname(join(batch, place('04'))), { recursive: true });
      execFileSync('mkfifo', [join(batch, place('04'))]);
      return verified(batch);
    },
  },
  {
    code: 'P6',
    name: 'a device as the record',
    status: 3,
    says: 'not a plain file',
    run: async () => limited(['collation', 'check', '/dev/zero']),
  },
  {
    code: 'P6',
    name: 'a pipe as the agreement',
    status: 3,
    says: 'not a plain file',
    run: async () => {
      const pipe = join(newFolder(), 'agreement.json');
      execFileSync('mkfifo', [pipe]);
      return verified(batchWith(WITH_GOOD), [3], ['--agreement', pipe]);
    },
  },
  {
    code: 'P7',
    name: '20,000 files where the system opens 256 at once',
    status: 0,
    says: 'ACCEPT',
    slow: true,
    run: async () => {
      const folder = newFolder();
      const days = Array.from({ length: 4000 }, (_, at) => new Date(Date.UTC(1850, 0, at + 1)).toISOString().slice(0, 10));
      const path = join(newFolder(), 'reel.csv');
      writeFileSync(
        path,
        ['reel,frame,title,date,page', ...days.map((date, at) => `17,${String(at + 1)},sn99000001,${date},1`), ''].join('\n'),
      );
      const files = ['0001.tif', '0001.jp2', '0001.pdf', '0001.xml'];
      for (const [at, date] of days.entries()) {
        const name = `${date.replaceAll('-', '')}01`;
        const issue = join(folder, 'sn99000001/17', name);
        mkdirSync(issue, { recursive: true });
        const page = { order: '1', number: '1', reel: '17', frame: String(at + 1), files };
        // Each file has a digest of its own.
        const document = issueDocument({ lccn: 'sn99000001', date, edition: '1', pages: [page] }).replaceAll('>AB0', `>AB${String(at)}A`);
        writeFileSync(join(issue, `${name}.xml`), document);
        for (const file of files) writeFileSync(join(issue, file), 'x');
      }
      return limited(['verify', '--collation', path, '--batch', folder], { shell: 'ulimit -n 256; "$@"' });
    },
  },
];
