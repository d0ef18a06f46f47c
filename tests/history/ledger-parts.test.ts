import { describe, expect, it } from 'vitest';
import { carryOver } from '../../src/history/carry.js';
import { faultsOf, isOpen, perThousand, sumFaults } from '../../src/history/faults.js';
import { ledgerOf } from '../../src/history/ledger.js';
import { resultsByBatch } from '../../src/history/ledger-batches.js';
import { moneyOf } from '../../src/history/ledger-money.js';
import { ledgerResult } from '../../src/history/ledger-result.js';
import { matchFindings } from '../../src/history/match.js';
import type { Finding, Findings } from '../../src/model/findings.js';
import type { LedgerInput, LedgerResult, LedgerReview } from '../../src/model/ledger.js';
import { EXAMPLE, finding as plainly } from '../report/example.js';

const finding = (id: string, facts: Partial<Finding> = {}): Finding =>
  plainly({ id, code: 'date-differs', severity: 'major', says: id, ...facts });
const review: LedgerReview = { due: null, days: 21, dayKind: 'calendar', used: null, inTime: null, overdue: 0 };
const ruled = (decision: NonNullable<Finding['ruling']>['decision'], facts: Partial<NonNullable<Finding['ruling']>> = {}) => ({
  ruling: { decision, note: '', by: 'Ilse', on: '2031-03-05', ...facts },
});
const result = (facts: Partial<Findings> = {}): Findings => ({ ...EXAMPLE, findings: [], corrected: [], ...facts });

describe('what the ledger keeps of a result', () => {
  const kept = (facts: Partial<Findings>): LedgerResult => ledgerResult(result(facts), review);

  it('is what became of earlier findings, where there is an earlier result', () => {
    expect(kept({ run: { ...EXAMPLE.run, inputs: [] } }).since).toBeNull();
    const earlier = {
      ...EXAMPLE.run,
      inputs: [
        { role: 'earlier', name: 'findings.json', sha256: 'e' },
        { role: 'collation', name: 'x', sha256: 'c' },
      ],
    };
    expect(kept({ run: earlier })).toMatchObject({ since: { corrected: 0, open: 0, new: 0, pending: 0 }, earlier: ['e'] });
    const run = { ...EXAMPLE.run, inputs: [] };
    expect(kept({ run, corrected: [finding('a')] }).since).toEqual({ corrected: 1, open: 0, new: 0, pending: 0 });
    expect(kept({ run, pending: [finding('a')] }).since).toEqual({ corrected: 0, open: 0, new: 0, pending: 1 });
    expect(kept({ run, findings: [finding('a', { status: 'open' })] }).since).toEqual({ corrected: 0, open: 1, new: 0, pending: 0 });
    expect(kept({ run, findings: [finding('a', { status: 'new' })] }).since).toEqual({ corrected: 0, open: 0, new: 1, pending: 0 });
    // one that was corrected and one that came are two, and do not cancel out
    expect(
      kept({ run, corrected: [finding('a')], findings: [finding('b', { status: 'new' }), finding('c', { status: 'open' })] }).since,
    ).toEqual({ corrected: 1, open: 1, new: 1, pending: 0 });
  });

  it('is a few words of what is open, and no finding as a whole', () => {
    const { open, pending, ids, severities } = kept({
      findings: [finding('a'), finding('b', { severity: 'note' })],
      pending: [finding('c'), finding('d', { cause: 'film' })],
    });
    const few = (id: string) => ({ id, code: 'date-differs', severity: 'major', reel: '00417', at: null, says: id });
    expect([open, pending, ids]).toEqual([[few('a')], [few('c')], ['a', 'b', 'c', 'd']]);
    expect(severities).toEqual({ critical: 0, major: 1, minor: 0, note: 1 });
  });
});

describe('faults of a delivery', () => {
  it('are what still asks something of somebody', () => {
    const open = [{}, ruled('vendor-corrects'), { severity: 'minor' as const }].map((facts) => isOpen(finding('a', facts)));
    const closed = [ruled('accept-as-is'), ruled('collation-wrong'), { severity: 'note' as const }, { cause: 'film' as const }].map(
      (facts) => isOpen(finding('a', facts)),
    );
    expect([open, closed]).toEqual([
      [true, true, true],
      [false, false, false, false],
    ]);
  });

  it('are not the record’s, nor what a record in doubt rests on before it is ruled', () => {
    const doubts = { doubts: [] };
    const counted = (facts: Partial<Finding>): number => faultsOf(result({ findings: [finding('a', facts)] })).length;
    expect([counted({}), counted({ cause: 'collation' }), counted(doubts), counted({ ...doubts, ...ruled('vendor-corrects') })]).toEqual([
      1, 0, 0, 1,
    ]);
  });

  it('are summed by code and rated by 1,000 pages, in the order of groups and codes', () => {
    const faults = faultsOf(
      result({
        counts: { ...EXAMPLE.counts, pagesReturned: 300 },
        findings: [finding('a', { count: 4 }), finding('b', { count: 2 }), finding('c', { code: 'made-up' })],
      }),
    );
    expect(faults.map(({ code, findings, frames, perThousand: rate }) => [code, findings, frames, rate])).toEqual([
      ['made-up', 1, 1, 3.33],
      ['date-differs', 2, 6, 6.67],
    ]);
    // a code that the catalogue of the result does not know is in no group
    expect(faults.map(({ group }) => group === '')).toEqual([true, false]);
    const one = { group: 'b', code: 'x', findings: 1, frames: 2, perThousand: null };
    const sums = sumFaults(
      [
        [one, { ...one, code: 'a' }],
        [
          { ...one, findings: 3 },
          { ...one, group: 'a', code: 'z' },
        ],
      ],
      1000,
    );
    expect(sums.map(({ group, code, findings, frames, perThousand: rate }) => [group, code, findings, frames, rate])).toEqual([
      ['a', 'z', 1, 2, 1],
      ['b', 'a', 1, 2, 1],
      ['b', 'x', 4, 4, 4],
    ]);
    expect([perThousand(1, 0), perThousand(1, 3000), perThousand(0, 5)]).toEqual([null, 0.33, 0]);
  });
});

describe('the batches of a ledger', () => {
  const saved = (
    batch: string,
    delivery: number,
    facts: Partial<LedgerResult> = {},
    sha256 = `${batch}${String(delivery)}`,
  ): LedgerInput['results'][number] => ({
    name: `${batch}-${String(delivery)}.json`,
    sha256,
    format: 'reeltally/findings/1',
    value: {
      ...ledgerResult(result({ run: { ...EXAMPLE.run, batch, delivery, inputs: [] } }), review),
      received: '2031-03-03',
      vendor: 'Skerry',
      ...facts,
    },
  });
  const order = (...results: LedgerInput['results']): readonly string[] =>
    resultsByBatch(results).map(({ batch, results: own }) => `${batch}: ${own.map(({ value }) => String(value.delivery)).join(' ')}`);

  it('come in the order of receipt, of verification where nobody said, then of their names', () => {
    expect(order(saved('b', 1), saved('a', 1))).toEqual(['a: 1', 'b: 1']);
    expect(order(saved('a', 1, { received: '2031-03-04' }), saved('b', 1))).toEqual(['b: 1', 'a: 1']);
    expect(order(saved('a', 1, { received: null, at: '2031-03-04T09:00:00Z' }), saved('b', 1))).toEqual(['b: 1', 'a: 1']);
    expect(order(saved('a', 1, { received: null, at: '2031-03-02T09:00:00Z' }), saved('b', 1))).toEqual(['a: 1', 'b: 1']);
    expect(order(saved('a', 10), saved('a', 9), saved('a', 9))).toEqual(['a: 9 10']);
  });

  it('are one where one was held against the other, over several names', () => {
    expect(order(saved('a', 1), saved('b', 2, { earlier: ['a1'] }), saved('c', 3, { earlier: ['b2'] }), saved('d', 1))).toEqual([
      'a: 1 2 3',
      'd: 1',
    ]);
    expect(order(saved('b', 2, { earlier: ['gone'] }))).toEqual(['b: 2']);
  });

  it('are of the vendor that one of their results names, and vendors stand by name', () => {
    expect(resultsByBatch([saved('a', 1, { vendor: '' }), saved('a', 2)])[0]?.vendor).toBe('Skerry');
    const input: LedgerInput = {
      on: '2031-04-01',
      results: [saved('a', 1, { vendor: 'B' }), saved('b', 1, { vendor: 'A' })],
      samples: [],
      decisions: [],
      accounts: [],
    };
    expect(ledgerOf(input, null).vendors.map(({ vendor }) => vendor)).toEqual(['A', 'B']);
    const account = {
      name: 'account.json',
      sha256: '',
      format: '',
      value: { vendor: '', currency: '', minorDigits: 2, batches: [], billed: '0.00', due: '0.00', released: '0.00', open: '0.00' },
    };
    expect(ledgerOf({ ...input, accounts: [account] }, null).remarks).toEqual([
      'account.json is left out: no result of a vendor without a name was given.',
    ]);
  });

  it('have vendors and currencies in the order of their names, whatever the order of the files', () => {
    const input = (...results: LedgerInput['results']): LedgerInput => ({
      on: '2031-04-01',
      results,
      samples: [],
      decisions: [],
      accounts: [],
    });
    for (const order of ['ABC', 'CBA', 'BCA', 'CAB']) {
      const results = order
        .split('')
        .map((vendor) => saved(vendor, 1, { vendor, received: `2031-03-0${String(order.indexOf(vendor) + 1)}` }));
      expect(ledgerOf(input(...results), null).vendors.map(({ vendor }) => vendor)).toEqual(['A', 'B', 'C']);
      const accounts = order.split('').map((currency) => ({
        vendor: '',
        currency,
        minorDigits: 2,
        batches: [],
        billed: '-0.05',
        due: '1',
        released: '2.5',
        open: '-1.20',
      }));
      const money = moneyOf(accounts);
      expect(money.map((one) => one.currency)).toEqual(['A', 'B', 'C']);
      // a vendor may owe more than it billed
      expect(money[0]).toMatchObject({ billed: '-0.05', due: '1.00', released: '2.50', owed: '0.00', credit: '1.20' });
    }
  });

  it('say of what is open since when it is known without a break', () => {
    const open = [{ id: 'a', code: 'date-differs', severity: 'major' as const, reel: null, at: null, says: '' }];
    const items = (...ids: readonly (readonly string[])[]): readonly number[] => {
      const results = ids.map((own, at) => saved('a', at + 1, { ids: own, open: at === ids.length - 1 ? open : [] }));
      return ledgerOf({ on: '2031-04-01', results, samples: [], decisions: [], accounts: [] }, null).vendors[0]!.batches[0]!.items.map(
        ({ since }) => since,
      );
    };
    expect([items(['a'], ['a'], ['a']), items(['a'], [], ['a']), items([], ['a'], ['a']), items(['a'])]).toEqual([[1], [3], [2], [1]]);
  });

  it('have the review of the decision, where there is one', () => {
    const decided = { ...review, used: 7, inTime: true };
    const decision = {
      name: 'decision.json',
      sha256: 'd',
      format: '',
      value: { batch: 'a', delivery: 1, decision: 'accept' as const, by: 'Ilse', on: '2031-03-10', review: decided, samples: [] },
    };
    const deliveries = (decisions: LedgerInput['decisions']) =>
      ledgerOf({ on: '2031-04-01', results: [saved('a', 1)], samples: [], decisions, accounts: [] }, null).vendors[0]!.batches[0]!
        .deliveries;
    expect([deliveries([])[0]?.review, deliveries([decision])[0]?.review]).toEqual([review, decided]);
  });
});

describe('what is carried over from the delivery before', () => {
  const carried = (now: Partial<Finding>, was: Partial<Finding>, contested: readonly string[] = []) => {
    const { findings, remarks } = carryOver([finding('a', now)], new Map([['a', finding('a', was)]]), 1, new Set(contested));
    return [findings[0]?.ruling?.decision ?? null, remarks] as const;
  };

  it('is a ruling on the same readings, with its name and day', () => {
    expect(carried({}, ruled('accept-as-is'))).toEqual(['accept-as-is', ['Rulings carried over from delivery 1: a (accept-as-is).']]);
    for (const gone of [{ by: ' ' }, { on: '' }])
      expect(carried({}, ruled('accept-as-is', gone))).toEqual([
        null,
        ['The earlier ruling on a (accept-as-is) has no name or no day and was not carried over.'],
      ]);
    for (const other of [{ count: 2 }, { collation: 'x' }, { return: 'x' }])
      expect(carried(other, ruled('accept-as-is'))).toEqual([
        null,
        [expect.stringContaining('was made on another reading; what stands there has changed since, so decide again.')],
      ]);
  });

  it('is none where a newer one stands or two contradict each other, and the newer answer counts', () => {
    expect(carried(ruled('vendor-corrects'), ruled('accept-as-is'))).toEqual(['vendor-corrects', []]);
    expect(carried({}, ruled('accept-as-is'), ['a'])).toEqual([null, []]);
    const answer = (text: string) => ({ answer: { text, on: '2031-03-05' } });
    const both = (now: Partial<Finding>, was: Partial<Finding>) =>
      carryOver([finding('a', now)], new Map([['a', finding('a', was)]]), 1, new Set()).findings[0]?.answer?.text;
    expect([both(answer('new'), answer('old')), both({}, answer('old')), both({}, {})]).toEqual(['new', 'old', undefined]);
  });
});

describe('earlier findings of one name', () => {
  const HASH = 'x-0123456789ab';
  const at = (suffix: string, document: string | null, given = 'r'): Finding =>
    finding(`${HASH}${suffix}`, { return: given, places: (document === null ? [] : [{ document }]) as unknown as Finding['places'] });
  const matches = (now: readonly Finding[], was: readonly Finding[]): readonly string[] =>
    [...matchFindings(now, was, false).before].map(([id, one]) => `${id.slice(HASH.length)}←${one.id.slice(HASH.length)}`);

  it('are each one of them once, by document and reading first, by number next', () => {
    expect(matches([at('', null), at('-2', null)], [at('', null), at('-2', null)])).toEqual(['←', '-2←-2']);
    expect(matches([at('-2', 'a'), at('-3', 'a')], [at('', 'a'), at('-2', 'a'), at('-3', 'b')])).toEqual(['-2←-2', '-3←']);
    // what was taken for one is not taken for another
    expect(matches([at('', 'a'), at('-2', 'a')], [at('', 'b'), at('-2', 'a')])).toEqual(['←-2', '-2←']);
    expect(matches([at('', 'a', 'new')], [at('', 'a', 'old')])).toEqual(['←']);
    expect(matches([at('-12', 'a')], [at('', 'a')])).toEqual(['-12←']);
    expect(matches([finding('x-0123456789ab-2x')], [finding('x-0123456789ab')])).toEqual([]);
  });
});
