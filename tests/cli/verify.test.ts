import { mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { Findings } from '../../src/model/findings.js';
import { demoAgreement, demoRecord, demoReturn } from '../forge/demonstration.js';
import { newFolder, reeltally, shell } from './command.js';

const place = newFolder();
const record = join(place, 'record.json');
writeFileSync(record, JSON.stringify(demoRecord()));
const agreement = join(place, 'agreement.json');
writeFileSync(agreement, JSON.stringify(demoAgreement()));

/** The return of the demonstration as a folder. */
function batchFolder(which: 'agreeing' | 'faulty'): string {
  const { files, plan } = demoReturn(which);
  const folder = join(newFolder(), plan.batch);
  for (const { path, text } of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  return folder;
}
const faulty = batchFolder('faulty');
const agreeing = batchFolder('agreeing');

const AT = ['--at', '2031-03-04T10:00:00Z'];
const args = (batch: string, ...more: string[]): string[] => [
  'verify',
  '--collation',
  record,
  '--batch',
  batch,
  '--agreement',
  agreement,
  ...AT,
  ...more,
];
const resultOf = (stdout: string): Findings => JSON.parse(stdout) as Findings;

/** Writes a file in a new folder and gives its path. */
function file(name: string, content: unknown): string {
  const path = join(newFolder(), name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

describe('the verdict of verify', () => {
  it('is status 0 where the return agrees with the record', () => {
    const { status, stdout } = reeltally(args(agreeing));
    expect(stdout).toMatch(/^ACCEPT\n/);
    expect(stdout).toMatch(/\nVerdict: accept\.\n$/);
    expect(status).toBe(0);
  });

  it.each(['text', 'json', 'csv', 'xml'])('is status 1 for a faulty return, in the format %s as in any other', (format) => {
    const { status, stdout } = reeltally(args(faulty, '--format', format));
    expect(status).toBe(1);
    expect(stdout).toContain('issues-merged');
  });

  it('is kept when the reader of a pipe has seen enough', () => {
    const line = args(faulty, '--format', 'json')
      .map((word) => `"${word}"`)
      .join(' ');
    const { stdout, stderr } = shell(`{ "$NODE" "$MAIN" ${line} --quiet; echo "status $?" >&2; } | head -n 1`);
    expect(stdout).toBe('{\n');
    expect(stderr).toBe('status 1\n');
  });

  it('counts no finding that the library accepts, and names a ruling that meets nothing', () => {
    const found = resultOf(reeltally(args(faulty, '--format', 'json')).stdout).findings;
    const ruling = { decision: 'accept-as-is', note: '', by: 'Ilse Marrow', on: '2031-03-05' };
    const rulings = file('rulings.json', {
      format: 'reeltally/rulings/1',
      rulings: [...found.map(({ id }) => ({ finding: id, ...ruling })), { finding: 'gone-1', ...ruling }],
    });
    const { status, stdout } = reeltally(args(faulty, '--format', 'json', '--rulings', rulings));
    expect(status).toBe(0);
    expect(resultOf(stdout).run.remarks.join(' ')).toContain('gone-1');
  });

  it('is status 1 where a document of the vendor cannot be read, and the rest is verified', () => {
    const broken = batchFolder('agreeing');
    const document = readdirSync(broken, { recursive: true, encoding: 'utf8' }).find((path) => /\d{10}\.xml$/.test(path))!;
    writeFileSync(join(broken, document), '<mets');
    const { status, stdout } = reeltally(args(broken, '--format', 'json'));
    expect(status).toBe(1);
    const result = resultOf(stdout);
    expect(result.findings.map((finding) => finding.code)).toContain('document-unreadable');
    expect(result.counts.pagesMatched).toBeGreaterThan(80);
  });
});

describe('the result of verify', () => {
  const once = reeltally(args(faulty, '--format', 'json')).stdout;

  it('is the same bytes for the same inputs, wherever they lie and whatever the time zone and locale', () => {
    const moved = batchFolder('faulty');
    for (const env of [
      { TZ: 'America/New_York', LC_ALL: 'C' },
      { TZ: 'Pacific/Apia', LC_ALL: 'tr_TR.UTF-8' },
    ]) {
      expect(reeltally(args(moved, '--format', 'json'), env).stdout).toBe(once);
    }
  });

  it('holds no path of this machine', () => {
    expect(once).not.toContain(place);
    expect(once).not.toContain(dirname(faulty));
    expect(resultOf(once).run.inputs.map((input) => `${input.role} ${input.name}`)).toEqual(
      expect.arrayContaining(['collation record.json', `batch ${basename(faulty)}`, 'agreement agreement.json']),
    );
  });

  it('says of a misprinted page that the paper has it so, and nothing against that', () => {
    const wrong = resultOf(once).findings.find(({ code }) => code === 'page-number-differs');
    expect(wrong?.evidence).toEqual([
      'The paper prints 14 where 4 belongs; the printed label is to be given.',
      "What is misprinted on the paper is given as it stands there: the record's reading keeps to that, the return's breaks it once.",
    ]);
  });

  it('is not written among the files of the vendor, by whatever way that folder is named', () => {
    const batch = batchFolder('agreeing');
    const [saved, way] = [join(newFolder(), 'saved'), join(newFolder(), 'way')];
    expect(reeltally(args(batch, '--out', saved)).status).toBe(0);
    symlinkSync(batch, way);
    const render = (...more: string[]) => reeltally(['render', join(saved, 'findings.json'), '--format', 'html', ...more]);
    for (const out of [batch, join(batch, 'results', 'first'), join(way, 'results')]) {
      for (const { status, stderr } of [reeltally(args(batch, '--out', out)), render('--batch', batch, '--out', out)]) {
        expect([status, stderr]).toEqual([3, expect.stringContaining(`${out} lies in the folder of the batch, ${batch}: `)]);
      }
    }
    expect(readdirSync(batch)).not.toContain('results');
    expect(render('--batch', batch, '--pictures', 'none', '--out', `${batch}-results`).status).toBe(0);
    const gone = join(batch, 'gone');
    const { status, stderr } = render('--batch', gone, '--out', join(newFolder(), 'pages'));
    expect([status, stderr]).toEqual([
      3,
      `reeltally: --batch ${gone}: there is no such folder. Name the folder in which the batch lies.\n`,
    ]);
  });

  it('renders again to the same reports', () => {
    const folder = join(newFolder(), 'results');
    expect(reeltally(args(faulty, '--out', folder)).status).toBe(1);
    expect(readFileSync(join(folder, 'findings.json'), 'utf8')).toBe(once);
    for (const [format, name] of [
      ['text', 'summary.txt'],
      ['csv', 'discrepancies.csv'],
      ['xml', 'discrepancies.xml'],
    ] as const) {
      expect(reeltally(['render', join(folder, 'findings.json'), '--format', format]).stdout).toBe(
        readFileSync(join(folder, name), 'utf8'),
      );
    }
  });

  it('tells of the run what the options said', () => {
    const { run } = resultOf(
      reeltally(args(faulty, '--format', 'json', '--delivery', '3', '--received', '2031-03-01', '--profile', 'issue-mets')).stdout,
    );
    expect(run).toMatchObject({
      at: '2031-03-04T10:00:00Z',
      delivery: 3,
      received: '2031-03-01',
      profile: 'issue-mets',
      batch: basename(faulty),
    });
  });

  it('takes the time from SOURCE_DATE_EPOCH where no option gives it', () => {
    const { stdout } = reeltally(['verify', '--collation', record, '--batch', agreeing, '--format', 'json'], {
      SOURCE_DATE_EPOCH: '1000000000',
    });
    // 1,000,000,000 seconds after 1970 began is 2001-09-09T01:46:40Z (POSIX, Seconds Since the Epoch).
    expect(resultOf(stdout).run.at).toBe('2001-09-09T01:46:40Z');
  });

  it('counts the deliveries on from the earlier result', () => {
    const earlier = file('findings.json', once);
    const result = resultOf(reeltally(args(agreeing, '--format', 'json', '--earlier', earlier)).stdout);
    expect(result.run.delivery).toBe(2);
    expect(result.corrected.map(({ id }) => id).sort()).toEqual(
      resultOf(once)
        .findings.map(({ id }) => id)
        .sort(),
    );
  });
});

describe('a redelivery of named items', () => {
  it('replaces the documents that came again', () => {
    const terms = demoAgreement();
    const named = file('agreement.json', { ...terms, policies: { ...terms.policies, redelivery: 'named-items' } });
    const line = ['verify', '--collation', record, '--agreement', named, ...AT, '--format', 'json', '--batch', faulty];
    const again = newFolder();
    const { places } = resultOf(reeltally(line).stdout).findings.find((one) => one.code === 'sections-flattened')!;
    const document = places.find((spot) => spot.document !== undefined)!.document!;
    mkdirSync(dirname(join(again, document)), { recursive: true });
    writeFileSync(join(again, document), readFileSync(join(agreeing, document)));
    const codes = resultOf(reeltally([...line, again]).stdout).findings.map((one) => one.code);
    expect(codes).not.toContain('sections-flattened');
    expect(codes).toContain('issues-merged');
  });
});

describe('what verify cannot use', () => {
  it.each([
    ['no batch', ['verify', '--collation', record], /--batch DIR/],
    ['no record', ['verify', '--batch', faulty], /--collation FILE/],
    ['a batch that is not there', args('/nowhere/batch'), /The batch folder "\/nowhere\/batch" cannot be read/],
    ['a folder of something else', args(newFolder()), /The layout of the batch .* is not recognised/],
    [
      'several batches where whole ones are agreed',
      args(faulty, '--batch', agreeing),
      /must say so with the policy "redelivery": "named-items"/,
    ],
    ['an unknown profile', args(faulty, '--profile', 'issue-met'), /there is no profile issue-met. Built in are issue-mets, page-mods/],
    ['a time that is none', [...args(faulty), '--at', 'yesterday'], /--at: yesterday is not a time/],
    ['a day that never was', args(faulty, '--received', '2031-02-29'), /--received: 2031-02-29 is not a day of the calendar/],
    ['a delivery that is not a count', args(faulty, '--delivery', '0'), /--delivery: 0 is not a count of deliveries/],
    [
      'an agreement with an unknown code',
      args(faulty, '--agreement', file('a.json', { format: 'reeltally/agreement/2', severities: { 'date-wrong': 'note' } })),
      /there is no finding code "date-wrong"/,
    ],
    ['a result where an agreement is needed', args(faulty, '--agreement', record), /an agreement is needed here/],
    ['a list without decisions', args(faulty, '--rulings', file('r.csv', 'id,note\nx,y\n')), /there is no column "decision"/],
    [
      'a decision that is none',
      args(faulty, '--rulings', file('r.csv', 'id,decision,on\nx,,\ny,maybe,\n')),
      /row 3, column decision: "maybe" is not a decision/,
    ],
    [
      'a decision on no day',
      args(faulty, '--rulings', file('r.csv', 'id,decision,on\nx,accept-as-is,3/9/31\n')),
      /row 2, column on: "3\/9\/31" is not a day/,
    ],
    ['an earlier result that is none', args(faulty, '--earlier', agreement), /a saved result is needed here/],
  ])('%s: status 3 and a sentence', (_, line, sentence) => {
    const { status, stdout, stderr } = reeltally(line);
    expect(stderr).toMatch(sentence);
    expect([status, stdout]).toEqual([3, '']);
    expect(stderr).not.toMatch(/^\s+at /m);
  });

  it('a place for the results is looked at before the work begins', () => {
    const folder = newFolder();
    writeFileSync(join(folder, 'findings.json'), '{}');
    const { status, stderr } = reeltally(['verify', '--collation', '/nowhere.json', '--batch', '/nowhere', '--out', folder]);
    expect(status).toBe(3);
    expect(stderr).toContain('already holds results');
  });

  it('a SOURCE_DATE_EPOCH that is not a number', () => {
    const { status, stderr } = reeltally(['verify', '--collation', record, '--batch', agreeing], { SOURCE_DATE_EPOCH: 'now' });
    expect(status).toBe(3);
    expect(stderr).toContain('SOURCE_DATE_EPOCH is now; it must be a whole number of seconds');
  });
});

describe('--help-agreement', () => {
  it('prints what an agreement can say, without a record or a batch', () => {
    const { status, stdout, stderr } = reeltally(['verify', '--help-agreement']);
    expect([status, stderr]).toEqual([0, '']);
    for (const name of ['pageNumber', 'majorShare', 'reviewDays', 'limitingQuality']) expect(stdout).toContain(name);
  });
});
