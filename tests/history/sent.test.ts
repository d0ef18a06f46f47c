import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { strFromU8, unzipSync } from 'fflate';
import { afterAll, describe, expect, it } from 'vitest';
import { changedSince } from '../../src/collation/changed.js';
import { expectedDelivery } from '../../src/collation/expected/delivery.js';
import { expectedReturn } from '../../src/expect/index.js';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { CollationRecord, FrameEntry, ReelEntry } from '../../src/model/collation-record.js';
import type { Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { normaliseReturn } from '../../src/normalise/return.js';
import { statedFacts } from '../../src/normalise/return-needs.js';
import { issueMets } from '../../src/profiles/issue-mets.js';
import { parseJson } from '../../src/read/json.js';
import { readReturn } from '../../src/read/return.js';
import { renderCsv } from '../../src/report/csv.js';
import { expectedFiles } from '../../src/report/expected/index.js';
import { renderHtml } from '../../src/report/html/index.js';
import { renderJson } from '../../src/report/json.js';
import { renderText } from '../../src/report/text/index.js';
import { renderXlsx } from '../../src/report/xlsx/index.js';
import { verify } from '../../src/verify.js';

const root = mkdtempSync(join(tmpdir(), 'sent-'));
afterAll(() => rmSync(root, { recursive: true }));
let count = 0;

// An invented weekly of four pages, eight issues, with a blank, a held-back repeat and an absent page.
const DAYS = ['1899-01-05', '1899-01-12', '1899-01-19', '1899-01-26', '1899-02-02', '1899-02-09', '1899-02-16', '1899-02-23'];

function record(edit: (frames: FrameEntry[]) => FrameEntry[] = (frames) => frames, facts: Partial<ReelEntry> = {}): CollationRecord {
  const frames = DAYS.flatMap((date, nth): FrameEntry[] =>
    [1, 2, 3, 4].map((page) => ({
      frame: '',
      title: 'tv1',
      date,
      edition: 1,
      volume: '7',
      issueNumber: String(40 + nth),
      page: String(page),
      order: page,
    })),
  );
  frames.splice(8, 0, { frame: '', kind: 'blank' });
  frames.splice(14, 0, { frame: '', title: 'tv1', date: '1899-01-26', page: '1', deliver: false });
  const numbered = edit(frames).map((frame, at) => ({ ...frame, frame: String(at + 1) }));
  return {
    format: 'reeltally/collation-record/2',
    titles: [{ id: 'tv1', name: 'Tarn Valley Post', language: 'eng' }],
    reels: [{ number: '14', frames: numbered, absent: [{ title: 'tv1', date: '1899-03-02', published: 'yes' }], ...facts }],
  };
}

const sideOf = (written: CollationRecord): Side => {
  const { side, problems } = normaliseRecord({ records: [{ name: 'r.json', record: written }], sheets: [] });
  expect(problems).toEqual([]);
  return side;
};

const agreement = resolveAgreement({ format: 'reeltally/agreement/2', policies: { absentIssues: 'stated' } }, issueMets.policies);

/** What is found in the return that one record asks for, held against another, which was or was not what the vendor had. */
async function held(followed: CollationRecord, now: CollationRecord, sent: CollationRecord | null): Promise<Findings> {
  count += 1;
  const folder = join(root, String(count));
  const side = sideOf(followed);
  const { policies } = agreement;
  const delivery = expectedDelivery(side, expectedReturn(side, policies, {}), policies, 'issue-mets');
  for (const { path, text } of expectedFiles(delivery, issueMets, 'batch_tarn')) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const read = await readReturn([folder], { profiles: [issueMets], readText: false, fixity: false });
  if (!read.ok) throw new Error(read.says);
  return verify({
    record: sideOf(now),
    returned: normaliseReturn(read.written, read.profile),
    stated: statedFacts(read.profile),
    others: [],
    ...(sent === null ? {} : { sent: { record: sideOf(sent), changes: changedSince(sent, now) } }),
    agreement,
    rulings: [],
    earlier: null,
    run: { at: '2031-01-01T00:00:00Z', received: null, batch: 'batch_tarn', delivery: 1, profile: 'issue-mets', inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}

const at =
  (index: number, change: Partial<FrameEntry>) =>
  (frames: FrameEntry[]): FrameEntry[] =>
    frames.map((frame, nth) => (nth === index ? { ...frame, ...change } : frame));
const issue =
  (date: string, change: Partial<FrameEntry>) =>
  (frames: FrameEntry[]): FrameEntry[] =>
    frames.map((frame) => (frame.date === date && frame.deliver !== false ? { ...frame, ...change } : frame));

const SENT = record();

const CHANGES: readonly (readonly [string, CollationRecord, string])[] = [
  ['date', record(issue('1899-02-09', { date: '1899-02-10' })), 'Reel 14, frames 23 to 26: the date was 1899-02-09 and is now 1899-02-10.'],
  ['page', record(at(2, { page: '5' })), 'Reel 14, frame 3: the page was 3 and is now 5.'],
  ['held back since', record(at(3, { deliver: false })), 'Reel 14, frame 4: held back now, to be delivered before.'],
  [
    'delivered since',
    record((frames) => at(14, { deliver: true, order: 5 })(frames)),
    'Reel 14, frame 15: to be delivered now, held back before.',
  ],
  [
    'absence added',
    record(undefined, {
      absent: [
        { title: 'tv1', date: '1899-03-02', published: 'yes' },
        { title: 'tv1', date: '1899-03-09', published: 'yes' },
      ],
    }),
    'Reel 14, the issue of 1899-03-09 (not on the film) was added.',
  ],
  ['absence taken out', record(undefined, { absent: [] }), 'Reel 14, the issue of 1899-03-02 (not on the film) was taken out.'],
  ['order', record((frames) => at(1, { order: 3 })(at(2, { order: 2 })(frames))), 'Reel 14, frame 2: the order was 2 and is now 3.'],
  ['edition', record(issue('1899-02-16', { date: '1899-02-09', edition: 2 })), 'Reel 14, frames 27 to 30: the edition was 1 and is now 2.'],
  ['issue number', record(issue('1899-02-23', { issueNumber: '48' })), 'Reel 14, frames 31 to 34: the issue number was 47 and is now 48.'],
  [
    'a blank put in',
    record((frames) => [...frames.slice(0, 20), { frame: '', kind: 'blank' }, ...frames.slice(20)]),
    'Reel 14, frame 21 was added (blank).',
  ],
  ['a page taken out', record((frames) => frames.filter((_, nth) => nth !== 20)), 'Reel 14, frame 21 was taken out (page).'],
];

describe('a record that was changed after it was sent', () => {
  it.each(CHANGES)('does not charge the vendor who followed it: %s', async (_, now, change) => {
    const result = await held(SENT, now, SENT);
    expect(result.sent?.changes).toContain(change);
    expect(result.findings.length).toBeGreaterThan(0);
    expect(result.findings.map(({ cause, asSent, repair }) => ({ cause, asSent, repair }))).toEqual(
      result.findings.map(() => ({ cause: 'collation', asSent: true, repair: [] })),
    );
    for (const { evidence } of result.findings) expect(evidence[0]).toContain('The vendor followed the record as it was sent');
    expect(result.verdict.decision).not.toBe('return-for-rework');
    expect(renderText(result)).toContain('The record since it was sent');
    // one sentence of what it means and the changes themselves, in every report that people read
    const sheets = unzipSync(await renderXlsx(result));
    const book = Object.values(sheets)
      .map((bytes) => strFromU8(bytes))
      .join(' ');
    for (const text of [renderHtml(result), renderCsv(result), book]) {
      expect(text).toContain(change);
      expect(text.replaceAll('&#39;', "'").split("held in the vendor's favour")).toHaveLength(2);
    }
    expect(() => parseJson(renderJson(result), 'findings.json', 'findings')).not.toThrow();
  });

  it.each(CHANGES)('finds nothing where the vendor has what the record says now: %s', async (_, now) => {
    expect((await held(now, now, SENT)).findings).toEqual([]);
  });

  it('still charges what the vendor did wrong by both, beside what was changed', async () => {
    // the vendor gave page 3 of the first issue another number and the sixth issue another date; the record changed the eighth issue's number
    const slip = record((frames) => issue('1899-02-09', { date: '1899-02-11' })(at(2, { page: '8' })(frames)));
    const now = record(issue('1899-02-23', { issueNumber: '48' }));
    const result = await held(slip, now, SENT);
    const told = result.findings.map(({ code, asSent }) => [code, asSent === true]);
    expect(told).toContainEqual(['issue-number-differs', true]);
    expect(told).toContainEqual(['date-differs', false]);
    expect(told).toContainEqual(['page-number-differs', false]);
    expect(told.filter(([, own]) => own === true)).toHaveLength(1);
  });

  it('still charges a lost page where frames were numbered anew since', async () => {
    const slip = record((frames) => frames.filter((_, nth) => nth !== 28));
    const now = record((frames) => [...frames.slice(0, 20), { frame: '', kind: 'blank' }, ...frames.slice(20)]);
    const result = await held(slip, now, SENT);
    const told = result.findings.map(({ code, at: place, asSent }) => [code, place, asSent === true]);
    expect(told).toContainEqual(['frame-not-scanned', '30', false]);
    expect(told).toContainEqual(['frame-not-scanned', '21', true]);
  });

  it('says so where nothing was changed, and changes nothing in the findings', async () => {
    const slip = record(at(2, { page: '8' }));
    const [without, beside] = [await held(slip, SENT, null), await held(slip, SENT, SENT)];
    expect(beside.findings).toEqual(without.findings);
    expect(beside.sent).toEqual({ changes: [] });
    expect(renderText(beside)).toContain('Nothing was changed in the record since it was sent.');
    expect(renderHtml(beside)).toContain('Nothing was changed in the record since it was sent.');
    expect(renderCsv(beside)).toBe(renderCsv(without));
  });
});
