import { describe, expect, it } from 'vitest';
import { convertRecord } from '../../src/collation/convert.js';
import { settledRecord } from '../../src/collation/settled.js';
import { resolveAgreement } from '../../src/judge/agreement.js';
import type { AbsentEntry, CollationRecord, FrameEntry } from '../../src/model/collation-record.js';
import type { DateReading, Side } from '../../src/model/film.js';
import type { Findings } from '../../src/model/findings.js';
import { problemInWords } from '../../src/normalise/by-cause.js';
import { normaliseRecord } from '../../src/normalise/record.js';
import { parseJson } from '../../src/read/json.js';
import { readCsv } from '../../src/read/sheet-csv.js';
import { verify } from '../../src/verify.js';
import { problemsOf, recordOfSheets } from './written.js';

// The paper and its place are invented.
const TITLE = 'ov00000001';

/** Frames that run on from the first one, each with the facts of its issue. */
function filmed(...issues: readonly (readonly [Partial<FrameEntry>, readonly string[]])[]): FrameEntry[] {
  return issues
    .flatMap(([facts, labels]) => labels.map((page) => (page === '_' ? { kind: 'blank' as const } : { ...facts, page })))
    .map((entry, at) => ({ ...entry, frame: String(at + 1) }));
}

function understood(
  frames: readonly FrameEntry[],
  absent: readonly AbsentEntry[] = [],
  titles: CollationRecord['titles'] = [{ id: TITLE }],
) {
  const reel = { number: '7', frames, ...(absent.length > 0 ? { absent } : {}) };
  const record: CollationRecord = { format: 'reeltally/collation-record/2', titles, reels: [reel] };
  return normaliseRecord({ records: [{ name: 'r.json', record }], sheets: [] });
}

/** Pages of each issue, by frame, and their orders. */
function issuesOf(side: Side): string[] {
  return side.issues.map((issue, index) => {
    const pages = side.reels.flatMap((reel) => reel.frames).filter((frame) => frame.issue === index);
    return `${issue.date?.text ?? ''}: ${pages.map((frame) => `${frame.frame?.text ?? ''}#${String(frame.order)}`).join(' ')}`;
  });
}

const YEAR = '1887-XX-XX';

describe('issues whose day is not certain', () => {
  it('are distinct where their issue numbers differ, and each counts its own pages', () => {
    const { side, warnings, problems } = understood(
      filmed([{ date: YEAR, issueNumber: '12' }, ['1', '2']], [{ date: YEAR, issueNumber: '13' }, ['1', '2', '3']]),
    );
    expect([problems, warnings]).toEqual([[], []]);
    expect(issuesOf(side)).toEqual([`${YEAR}: 1#1 2#2`, `${YEAR}: 3#1 4#2 5#3`]);
    expect(side.issues.map(({ issueNumber, edition }) => [issueNumber, edition])).toEqual([
      ['12', 1],
      ['13', 1],
    ]);
  });

  it('are distinct where a page comes again, and where another issue lies between', () => {
    const again = understood(filmed([{ date: '1887' }, ['1', '2', '_', '1', '2']]));
    expect(issuesOf(again.side)).toEqual(['1887: 1#1 2#2', '1887: 4#1 5#2']);
    const between = understood(filmed([{ date: '1887' }, ['1', '2']], [{ date: '1887-03-05' }, ['1']], [{ date: '1887' }, ['3', '4']]));
    expect(issuesOf(between.side)).toEqual(['1887: 1#1 2#2', '1887-03-05: 3#1', '1887: 4#1 5#2']);
  });

  it('go on over a blank, a held-back page and pages out of order', () => {
    const frames = filmed([{ date: '1887-03-XX' }, ['1', '3', '_', '2', '4']]);
    const held: FrameEntry = { frame: '6', date: '1887-03-XX', page: '4', deliver: false };
    expect(issuesOf(understood([...frames, held]).side)).toEqual(['1887-03-XX: 1#1 2#3 4#2 5#4 6#null']);
  });

  it('keep a page that was filmed again elsewhere', () => {
    const frames = filmed([{ date: '1887' }, ['1', '2']], [{ date: '1887-03-05' }, ['1']]);
    const retake: FrameEntry = { frame: '4', date: '1887', page: '2', retakeOf: '002' };
    const first = frames.map((frame) => (frame.frame === '2' ? { ...frame, deliver: false } : frame));
    expect(issuesOf(understood([...first, retake]).side)).toEqual(['1887: 1#1 2#null 4#2', '1887-03-05: 3#1']);
  });

  it('are one issue on two reels', () => {
    const record: CollationRecord = {
      format: 'reeltally/collation-record/2',
      titles: [{ id: TITLE }],
      reels: [
        { number: '7', frames: filmed([{ date: '1887' }, ['1', '2']]) },
        { number: '8', frames: filmed([{ date: '1887' }, ['3', '4']]) },
      ],
    };
    const { side } = normaliseRecord({ records: [{ name: 'r.json', record }], sheets: [] });
    expect(side.issues).toHaveLength(1);
  });

  it('may stand beside absent ones of the same words without being said twice', () => {
    const { side, problems } = understood(filmed([{ date: '1887' }, ['1', '2', '4']], [{ date: '1887' }, ['1', '2', '3']]), [
      { date: '1887', published: 'yes' },
      { date: '1887', published: 'yes' },
      { date: '1887', page: '3', published: 'yes' },
    ]);
    expect(problems).toEqual([]);
    expect(side.absences.map(({ issue, page, order }) => [issue, page, order])).toEqual([
      [2, null, null],
      [3, null, null],
      [0, '3', 3],
    ]);
    expect(issuesOf(side).slice(0, 2)).toEqual(['1887: 1#1 2#2 3#4', '1887: 4#1 5#2 6#3']);
  });

  it('come back from both kinds of sheet', () => {
    const { record } = understood(
      filmed(
        [{ date: '1887', title: TITLE }, ['1', '2', '_', '1', '2']],
        [{ date: '1887', title: TITLE, issueNumber: '9' }, ['1', '2', '4']],
        [{ date: '1887-03-05', title: TITLE }, ['1']],
      ),
      [{ date: '1887', page: '3', title: TITLE, published: 'yes' }],
    );
    for (const form of ['frame-sheet', 'issue-sheet'] as const) {
      const { files, refusals } = convertRecord(record, form);
      expect(refusals).toEqual([]);
      const sheets = files.map(({ name, text }) => readCsv(Buffer.from(text, 'utf8'), name));
      const back = normaliseRecord({ records: [], sheets });
      expect(settledRecord(back.record)).toEqual(settledRecord(record));
      expect(issuesOf(back.side)).toEqual(issuesOf(understood(record.reels[0]!.frames, record.reels[0]!.absent).side));
    }
  });

  it('are so too where nobody can tell whether the printed date is right', () => {
    const frames = filmed([{ date: '1887-03-05' }, ['1', '2']]);
    const { side } = understood([{ ...frames[0]!, datePrinted: '1887-03-06', datePrintedJudged: 'unclear' }, frames[1]!]);
    expect(side.issues.map(({ date }) => date)).toEqual([{ text: '1887-03-05?', day: null, uncertain: true }]);
    expect(issuesOf(side)).toEqual(['1887-03-05?: 1#1 2#2']);
  });
});

/** A return that says what the record does, with other dates and numbers. */
function verified(record: Side, change: (side: Side) => Side): Findings {
  const returned = change({
    ...record,
    titles: [],
    reels: record.reels.map((reel) => ({ ...reel, frames: reel.frames.filter((frame) => frame.deliver), facts: {} })),
  });
  return verify({
    record,
    returned,
    others: [],
    agreement: resolveAgreement(null, { pageNumber: 'printed', unnumberedPage: 'omit' }),
    rulings: [],
    earlier: null,
    run: { at: '2000-01-01T00:00:00Z', received: null, batch: 'b', delivery: 1, profile: 'issue-mets', inputs: [], remarks: [] },
    tool: { name: 'reeltally', version: '0' },
  });
}

const certain = (day: string, second?: string): DateReading => ({
  text: second === undefined ? day : `${day}/${second}`,
  day,
  uncertain: false,
  ...(second === undefined ? {} : { second }),
});

describe('what is compared of them', () => {
  const pages = ['1', '2', '3', '4'];
  const { side } = understood(
    filmed([{ date: '1887', issueNumber: '12' }, pages], [{ date: '1887', issueNumber: '13' }, pages], [{ date: '1887-03-05' }, pages]),
  );
  const dated = (...days: readonly string[]): ((returned: Side) => Side) => {
    return (returned) => ({
      ...returned,
      issues: returned.issues.map((issue, at) => ({ ...issue, date: days[at] === undefined ? issue.date : certain(days[at]) })),
    });
  };

  it('is everything but the day: whatever days the vendor found, nothing is wrong', () => {
    const result = verified(side, dated('1887-02-03', '1887-02-10'));
    expect(result.findings).toEqual([]);
    expect(result.verdict.decision).toBe('accept');
    expect(result.unchecked.filter(({ why }) => why.includes('uncertain')).map(({ required }) => required)).toEqual([false, false]);
  });

  it('tells the other facts of each issue apart', () => {
    const result = verified(side, (returned) => {
      const changed = dated('1887-02-03', '1887-02-10')(returned);
      return { ...changed, issues: changed.issues.map((issue, at) => (at === 1 ? { ...issue, issueNumber: '31' } : issue)) };
    });
    expect(result.findings.map(({ code, at, collation, return: given }) => [code, at, collation, given])).toEqual([
      ['issue-number-differs', '5', '13', '31'],
    ]);
  });

  it('counts no editions of a day that nobody knows', () => {
    const agreement = resolveAgreement({ format: 'reeltally/agreement/2', policies: { editionOrder: 'filmed' } }, {});
    const result = verify({
      record: side,
      returned: { ...dated('1887-02-03', '1887-02-10')(side), reels: side.reels.map((reel) => ({ ...reel, facts: {} })) },
      others: [],
      agreement,
      rulings: [],
      earlier: null,
      run: { at: '2000-01-01T00:00:00Z', received: null, batch: 'b', delivery: 1, profile: 'issue-mets', inputs: [], remarks: [] },
      tool: { name: 'reeltally', version: '0' },
    });
    expect(result.findings).toEqual([]);
  });
});

describe('a combined issue', () => {
  const frames = filmed([{ date: '1899-01-04', combinedWith: '1899-01-05', title: TITLE }, ['1', '2', '3', '4']]);
  const absent: AbsentEntry[] = [{ title: TITLE, date: '1899-01-06', combinedWith: '1899-01-07', published: 'yes' }];
  const { side, problems, record } = understood(frames, absent);

  it('has a second day, on film or absent', () => {
    expect(problems).toEqual([]);
    expect(side.issues.map(({ date, combinedWith }) => [date?.day, combinedWith])).toEqual([
      ['1899-01-04', '1899-01-05'],
      ['1899-01-06', '1899-01-07'],
    ]);
  });

  it('must be given its first day and may be given both', () => {
    const given = (date: DateReading): string[] =>
      verified(side, (returned) => ({
        ...returned,
        issues: returned.issues.map((issue, at) => (at === 0 ? { ...issue, date } : issue)),
      })).findings.map(({ code, return: text }) => `${code} ${text ?? ''}`);
    expect(given(certain('1899-01-04'))).toEqual([]);
    expect(given(certain('1899-01-04', '1899-01-05'))).toEqual([]);
    expect(given(certain('1899-01-05'))).toEqual(['date-differs 1899-01-05']);
    expect(given(certain('1899-01-04', '1899-01-08'))).toEqual(['date-differs 1899-01-04/1899-01-08']);
  });

  it('is the only one that may be given two days', () => {
    const single = understood(filmed([{ date: '1899-01-04' }, ['1', '2', '3', '4']])).side;
    const result = verified(single, (returned) => ({
      ...returned,
      issues: returned.issues.map((issue) => ({ ...issue, date: certain('1899-01-04', '1899-01-05') })),
    }));
    expect(result.findings.map(({ code }) => code)).toEqual(['date-differs']);
  });

  it('may be stated as absent on both days', () => {
    const second = { ...side.absences[0]!, date: certain('1899-01-07') };
    const both = verified(side, (returned) => ({ ...returned, absences: [...side.absences, second] }));
    expect(both.findings).toEqual([]);
    const other = verified(side, (returned) => ({ ...returned, absences: [...side.absences, { ...second, date: certain('1899-01-09') }] }));
    expect(other.findings.map(({ code }) => code)).toEqual(['absence-stated-wrongly']);
  });

  it('is no gap in a span of absent days', () => {
    const titles = [{ id: TITLE, patterns: [{ days: ['wed' as const, 'thu' as const, 'fri' as const] }] }];
    const span = understood(frames, [{ date: '1899-01-04', dateTo: '1899-01-06', published: 'no' }], titles);
    expect(span.side.absences.map(({ date }) => date?.day)).toEqual(['1899-01-06']);
  });

  it('comes back from both kinds of sheet', () => {
    for (const form of ['frame-sheet', 'issue-sheet'] as const) {
      const { files, refusals } = convertRecord(record, form);
      expect(refusals).toEqual([]);
      expect(files[0]?.text.split('\r\n')[0]).toContain('combined with');
      const sheets = files.map(({ name, text }) => readCsv(Buffer.from(text, 'utf8'), name));
      expect(settledRecord(normaliseRecord({ records: [], sheets }).record)).toEqual(settledRecord(record));
    }
  });

  it.each([
    [{ date: '1899-01-04', combinedWith: '1899-01' }, '"1899-01-04" and "1899-01" is not a pair of certain days, as a combined issue has'],
    [{ date: '1899', combinedWith: '1899-01-05' }, '"1899" and "1899-01-05" is not a pair of certain days'],
    [{ date: '1899-01-04', combinedWith: '1899-01-04' }, '1899-01-04 and 1899-01-04 is not a pair of days that follow each other'],
  ])('with %j is refused', (facts, says) => {
    expect(
      understood(filmed([facts, ['1']]))
        .problems.map(problemInWords)
        .join(),
    ).toContain(says);
  });

  it('has no span', () => {
    const span: AbsentEntry = { date: '1899-01-06', combinedWith: '1899-01-07', dateTo: '1899-01-09' };
    const titles = [{ id: TITLE, patterns: [{ days: ['mon' as const, 'fri' as const] }] }];
    expect(
      understood(frames, [span], titles)
        .problems.map(({ says }) => says)
        .join(),
    ).toContain('a span of absent days is not a combined issue');
  });
});

describe('a supplement in an issue sheet', () => {
  it('is a row of its own, and its pages stand behind those of its issue', () => {
    const { side, problems, warnings, record } = recordOfSheets({
      'issues.csv': `
        reel | first frame | title      | date       | supplement | pages
        7    | 1           | ${TITLE} | 1899-01-04 | yes        | 1-2
        7    |             | ${TITLE} | 1899-01-04 |            | 1-4,x2`,
    });
    expect([problemsOf({ problems }), warnings]).toEqual([[], []]);
    expect(side.issues).toHaveLength(1);
    expect(side.reels[0]?.frames.map(({ page, supplement, order }) => `${page ?? ''}${supplement ? 's' : ''}#${String(order)}`)).toEqual([
      '1s#5',
      '2s#6',
      '1#1',
      '2#2',
      '3#3',
      '4#4',
      '2#null',
    ]);
    expect(record.reels[0]?.frames.at(-1)?.duplicateOf).toBe('4');
    const { files, refusals } = convertRecord(record, 'issue-sheet');
    expect(refusals).toEqual([]);
    const sheets = files.map(({ name, text }) => readCsv(Buffer.from(text, 'utf8'), name));
    expect(settledRecord(normaliseRecord({ records: [], sheets }).record)).toEqual(settledRecord(record));
  });
});

describe('a record of print', () => {
  it('counts places in a volume: no frame number of it was written', () => {
    const record: CollationRecord = {
      format: 'reeltally/collation-record/2',
      titles: [{ id: TITLE }],
      reels: [{ number: 'volume 3', carrier: 'print', frames: filmed([{ date: '1899-01-04' }, ['1', '2']]) }],
    };
    const { side } = normaliseRecord({ records: [{ name: 'r.json', record }], sheets: [] });
    expect(side.reels[0]?.frames.map(({ frame }) => frame?.inferred)).toEqual([true, true]);
    const result = verified(side, (returned) => ({
      ...returned,
      reels: returned.reels.map((reel) => ({
        ...reel,
        frames: reel.frames.map((frame, at) => ({ ...frame, frame: { text: String(at + 51), exposure: at + 51, half: '' } })),
      })),
    }));
    expect(result.findings).toEqual([]);
  });
});

it('refuses the first version of the format by name', () => {
  const text = JSON.stringify({ format: 'reeltally/collation-record/1', titles: [], reels: [] });
  expect(() => parseJson(text, 'record.json', 'collation-record')).toThrow(
    'record.json: this file says that it is "reeltally/collation-record/1"; a collation record is needed here, with "format": "reeltally/collation-record/2".',
  );
});
