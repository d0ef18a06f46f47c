import { describe, expect, it } from 'vitest';
import { resolveAgreement } from '../../src/judge/agreement.js';
import { catalogueFor, type Diagnosed, findingsByPair, judgeFindings, plainFinding } from '../../src/judge/index.js';
import { datedLater, mergedRulings, type WrittenRuling } from '../../src/judge/merged-rulings.js';
import type { Difference } from '../../src/model/difference.js';

const ruling = (more: Partial<WrittenRuling> = {}): WrittenRuling => ({
  finding: 'date-differs-1',
  decision: 'accept-as-is',
  note: '',
  by: 'Ada Pell',
  on: '2031-03-04',
  where: 'rulings.xlsx, row 3',
  ...more,
});

describe('rulings of several files', () => {
  it('hold as they are, one for each finding, without the place where they stand', () => {
    expect(mergedRulings([ruling(), ruling({ finding: 'other' })])).toEqual({
      rulings: [
        { finding: 'date-differs-1', decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '2031-03-04' },
        { finding: 'other', decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '2031-03-04' },
      ],
      contested: [],
      remarks: [],
    });
  });

  it.each([
    [{ by: ' ' }, 'no name'],
    [{ on: '' }, 'no day'],
    [{ by: '', on: ' ' }, 'no name and no day'],
  ])('do not count without a name or a day: %o', (more, lacking) => {
    expect(mergedRulings([ruling(more)])).toEqual({
      rulings: [],
      contested: [],
      remarks: [`rulings.xlsx, row 3: the ruling accept-as-is on date-differs-1 does not count: it has ${lacking}.`],
    });
  });

  it('that contradict each other count neither way, wherever the other stands', () => {
    const other = ruling({ decision: 'collation-wrong', by: 'Bo Quill', where: 'report.json' });
    const merged = mergedRulings([ruling(), ruling(), other]);
    expect(merged.rulings).toEqual([]);
    expect(merged.contested).toEqual(['date-differs-1']);
    expect(merged.remarks).toEqual([
      'date-differs-1 is ruled accept-as-is by Ada Pell on 2031-03-04 (rulings.xlsx, row 3) and collation-wrong by Bo Quill on 2031-03-04 (report.json). Neither counts until one of the two is taken out.',
    ]);
  });

  it('that say the same are one, of the later day, and what another wrote is said', () => {
    const later = ruling({ on: '2031-03-09', note: 'seen on film', where: 'b' });
    for (const both of [
      [ruling(), later],
      [later, ruling()],
    ]) {
      const { rulings, remarks } = mergedRulings(both);
      expect(rulings.map(({ on, note }) => [on, note])).toEqual([['2031-03-09', 'seen on film']]);
      expect(remarks).toEqual([
        'date-differs-1 is ruled accept-as-is more than once. Kept: Ada Pell on 2031-03-09 (b), "seen on film". Not kept: Ada Pell on 2031-03-04 (rulings.xlsx, row 3), without a note.',
      ]);
    }
    const [one] = mergedRulings([ruling({ note: 'first' }), ruling({ note: 'second' })]).rulings;
    expect(one?.note).toBe('first');
    expect(mergedRulings([ruling(), ruling({ on: '2031-03-05' })]).remarks).toEqual([]);
    expect(mergedRulings([ruling(), ruling({ by: 'Bo Quill' })]).remarks).toHaveLength(1);
  });

  it('dated later than tomorrow are pointed out, the first five by name', () => {
    const on = (day: string, finding = 'f') => ({ ...ruling({ finding }), on: day });
    expect(datedLater([on('2031-03-05')], '2031-03-04')).toEqual([]);
    expect(datedLater([on('2031-03-06', 'x')], '2031-03-04')).toEqual([
      'A ruling is dated later than the day of this comparison, 2031-03-04; look whether the year is right: x (2031-03-06).',
    ]);
    const six = ['a', 'b', 'c', 'd', 'e', 'f'].map((finding) => on('2032-01-01', finding));
    expect(datedLater(six, '2031-03-04')[0]).toMatch(/^6 rulings are dated later.*: a \(2032-01-01\), .*e \(2032-01-01\) and 1 more\.$/);
    expect(datedLater(six.slice(1), '2031-03-04')[0]).toMatch(/f \(2032-01-01\)\.$/);
    expect(datedLater([on('soon')], '2031-03-04')).toEqual([]);
    expect(datedLater([on('2032-01-01')], 'today')).toEqual([]);
  });
});

const draft = (more: Partial<Diagnosed> = {}): Diagnosed =>
  ({
    code: 'date-differs',
    title: 'sn99000417',
    date: '1902-08-06',
    edition: 1,
    field: 'date',
    reel: '417',
    at: '12',
    count: 4,
    constant: false,
    explains: [],
    about: [],
    billable: [],
    rescan: 'no',
    reach: null,
    ...more,
  }) as unknown as Diagnosed;

const judged = (drafts: readonly Diagnosed[], severities = {}, rulings: readonly WrittenRuling[] = []) =>
  judgeFindings(drafts, resolveAgreement({ format: 'reeltally/agreement/2', severities }, {}), rulings);

describe('the name of a finding', () => {
  // The name is in files that libraries have kept: one that changes loses every ruling. FNV-1a, offset basis and prime as its authors publish them.
  it('is the same in every version', () => {
    expect(judged([draft()]).findings.map(({ id }) => id)).toEqual([
      `date-differs-${fnv(['date-differs', 'sn99000417', '1902-08-06', 1, 'date', '417', '12'])}`,
    ]);
    const none = draft({ title: null, date: null, edition: null, field: null, at: null });
    expect(judged([none]).findings.map(({ id }) => id)).toEqual([`date-differs-${fnv(['date-differs', '', '', '', '', '417', ''])}`]);
  });

  it('has its twelve digits, those in front too', () => {
    const places = Array.from({ length: 300 }, (_, at) => String(at));
    const expected = places.map((at) => `date-differs-${fnv(['date-differs', 'sn99000417', '1902-08-06', 1, 'date', '417', at])}`);
    expect(judged(places.map((at) => draft({ at }))).findings.map(({ id }) => id)).toEqual(expected);
    expect(expected.some((id) => id.startsWith('date-differs-0'))).toBe(true);
  });

  it('tells apart what lies elsewhere, and what lies in the same place by a number', () => {
    const { findings } = judged([draft(), draft(), draft({ at: '13' }), draft()]);
    const [first, second, other, third] = findings.map(({ id }) => id);
    expect([second, third]).toEqual([`${first!}-2`, `${first!}-3`]);
    expect(other).not.toContain(first);
  });
});

/** Written apart from the program: FNV-1a of 32 bits over UTF-16 units with BigInt, and the low 16 bits of a second one. */
function fnv(parts: readonly (string | number)[]): string {
  const of = (start: bigint): bigint =>
    [...parts.join('\u0000').split('')].reduce((value, unit) => ((value ^ BigInt(unit.charCodeAt(0))) * 16777619n) % 2n ** 32n, start);
  return of(2166136261n).toString(16).padStart(8, '0') + (of(0x01234567n) % 65536n).toString(16).padStart(4, '0');
}

describe('a finding that is judged', () => {
  it('has the severity of the catalogue or of the agreement', () => {
    const severity = (severities: object): unknown => judged([draft()], severities).findings[0]?.severity;
    expect(severity({})).toBe('critical');
    expect(severity({ 'date-differs': 'note' })).toBe('note');
  });

  it('weighs as many pages as it has, one where one renumbering mends all, and never none', () => {
    const weighs = (more: Partial<Diagnosed>): unknown => judged([draft(more)]).findings[0]?.weighs;
    expect([weighs({}), weighs({ constant: true }), weighs({ count: 0 })]).toEqual([4, 1, 1]);
  });

  it('has the last ruling on it, and rulings on nothing are said', () => {
    const id = judged([draft()]).findings[0]!.id;
    const { findings, stale } = judged([draft()], {}, [ruling({ finding: id }), ruling({ finding: id, note: 'later' }), ruling()]);
    expect(findings[0]?.ruling).toEqual({ decision: 'accept-as-is', note: 'later', by: 'Ada Pell', on: '2031-03-04' });
    expect(stale).toEqual(['The ruling on date-differs-1 (accept-as-is, Ada Pell on 2031-03-04) meets no finding any more.']);
    expect(judged([draft()]).findings[0]?.ruling).toBeNull();
  });

  it('stands with the worst first, then in film order, those about no frame last, and otherwise as it came', () => {
    const about = (alignment: number, pair: number) => [{ alignment, pair }];
    const drafts = [
      draft({ at: 'a', code: 'volume-differs', about: about(0, 0) }),
      draft({ at: 'b' }),
      draft({ at: 'c', about: about(1, 0) }),
      draft({ at: 'd', about: about(0, 9) }),
      draft({ at: 'e', about: about(0, 2) }),
      draft({ at: 'f', about: about(0, 2) }),
    ];
    expect(judged(drafts).findings.map(({ at }) => at)).toEqual(['e', 'f', 'd', 'c', 'b', 'a']);
  });

  it('brings the words of its code along, and of no other', () => {
    expect(
      catalogueFor([draft(), draft(), draft({ code: 'volume-differs' })])
        .map(({ code }) => code)
        .toSorted(),
    ).toEqual(['date-differs', 'volume-differs']);
  });

  it('is saved without what only judging needs', () => {
    const saved = Object.keys(plainFinding(judged([draft()]).findings[0]!));
    expect(saved).toContain('weighs');
    expect(saved.filter((key) => ['explains', 'about', 'constant', 'reach'].includes(key))).toEqual([]);
  });

  it('stands at the frames that it names, and follows at those that it only explains where it bears on payment', () => {
    const differences = [{ pairs: [{ alignment: 0, pair: 5 }] }, { pairs: [{ alignment: 0, pair: 1 }] }] as unknown as Difference[];
    const at = (more: Partial<Diagnosed>) => {
      const { findings } = judged([draft({ explains: [0, 1], about: [{ alignment: 0, pair: 1 }], ...more })]);
      const { ids, follows, differs } = findingsByPair(findings, differences);
      return [[...ids.keys()], [...follows.keys()], [...differs]];
    };
    expect(at({})).toEqual([['0:1', '0:5'], [], ['0:1', '0:5']]);
    expect(at({ rescan: 'yes' })).toEqual([['0:1'], ['0:5'], ['0:1', '0:5']]);
    expect(at({ billable: [{}] as unknown as Diagnosed['billable'] })).toEqual([['0:1'], ['0:5'], ['0:1', '0:5']]);
    const two = judged([draft({ about: [{ alignment: 0, pair: 1 }] }), draft({ about: [{ alignment: 0, pair: 1 }] })]).findings;
    expect(findingsByPair(two, []).ids.get('0:1')).toEqual(two.map(({ id }) => id));
  });
});
