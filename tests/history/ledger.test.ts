import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import ajvFormats from 'ajv-formats';
import { describe, expect, it } from 'vitest';
import { ledgerOf } from '../../src/history/ledger.js';
import { ledgerMistakes } from '../../src/history/ledger-batches.js';
import { accountMistakes } from '../../src/history/ledger-money.js';
import { ledgerResult } from '../../src/history/ledger-result.js';
import type { Findings } from '../../src/model/findings.js';
import type { LedgerAccount, LedgerDecision, LedgerInput, LedgerReview, LedgerSample } from '../../src/model/ledger.js';
import { readXlsx } from '../../src/read/sheet-xlsx.js';
import { LEDGER_FORMATS } from '../../src/report/ledger/formats.js';
import { ledgerHtml } from '../../src/report/ledger/html.js';
import { monthsOf, statesOf } from '../../src/report/ledger/overview.js';
import { ledgerText } from '../../src/report/ledger/text.js';
import { nextInspection } from '../../src/sampling/switching.js';
import { DEMO_MISTAKES, demoAgreement } from '../forge/demonstration.js';
import { HOSTILE, STEERING } from '../report/hostile.js';
import { demoDelivered } from './deliveries.js';

const review: LedgerReview = { due: '2031-03-22', days: 21, dayKind: 'calendar', used: null, inTime: null, overdue: 0 };
const result = (value: Findings, name = `${value.run.batch}-${String(value.run.delivery)}.json`, sha256 = name) =>
  ({ name, sha256, format: value.format, value: ledgerResult(value, review) }) satisfies LedgerInput['results'][number];
const file = <T>(value: T, name: string) => ({ name, sha256: name, format: 'x', value });
const input = (
  results: LedgerInput['results'],
  samples: readonly LedgerSample[] = [],
  decisions: readonly LedgerDecision[] = [],
  accounts: readonly LedgerAccount[] = [],
): LedgerInput => ({
  on: '2031-05-01',
  results,
  samples: samples.map((sample, at) => file(sample, `sample-${String(at)}.json`)),
  decisions: decisions.map((decision, at) => file(decision, `decision-${String(at)}.json`)),
  accounts: accounts.map((account, at) => file(account, `account-${String(at)}.json`)),
});
const sample = (batch: string, accepted: boolean, delivery = 1): LedgerSample => ({
  batch,
  delivery,
  lot: '55901',
  drawn: 80,
  wrong: accepted ? 0 : 3,
  accepted,
  betweenNumbers: false,
  draw: `${batch} ${String(delivery)}`,
});

const account = (of: Partial<LedgerAccount>): LedgerAccount => ({
  vendor: demoAgreement().vendor ?? '',
  currency: 'EUR',
  minorDigits: 2,
  batches: ['batch_a'],
  billed: '100.00',
  due: '90.00',
  released: '40.00',
  open: '50.00',
  ...of,
});
/** Every text of a workbook, a cell a line. */
const cellsOf = (bytes: Uint8Array): string =>
  readXlsx(Buffer.from(bytes), 'ledger.xlsx')
    .flatMap(({ headers, rows }) => [...headers, ...rows.flatMap(({ cells }) => cells)])
    .join('\n');

const corrected = DEMO_MISTAKES.filter((_, at) => at % 2 === 0);
const first = demoDelivered([], { received: '2031-03-01' });
const second = demoDelivered(corrected, { earlier: first, received: '2031-04-01' });
const named = (value: Findings, batch: string, more: Partial<Findings['run']> = {}): Findings => ({
  ...value,
  run: { ...value.run, batch, ...more },
});

describe('the deliveries of a batch', () => {
  it('stand in order, whatever the order of the files, with what became of the findings', () => {
    const [batch] = ledgerOf(input([result(second), result(first)]), null).vendors[0]!.batches;
    expect(batch!.deliveries.map(({ delivery, since, severities }) => [delivery, since, severities.critical])).toEqual([
      [1, null, first.findings.filter(({ severity }) => severity === 'critical').length],
      [
        2,
        { corrected: corrected.length, open: DEMO_MISTAKES.length - corrected.length, new: 0, pending: 0 },
        second.findings.filter(({ severity }) => severity === 'critical').length,
      ],
    ]);
    expect(batch!.items.map(({ id }) => id)).toEqual(second.findings.map(({ id }) => id));
    expect(new Set(batch!.items.map(({ since }) => since))).toEqual(new Set([1]));
  });

  it('are one batch under two names where the one was held against the other', () => {
    const other = named(second, 'batch_again', { inputs: [{ role: 'earlier', name: 'findings.json', sha256: 'first' }] });
    const [vendor] = ledgerOf(input([result(other), result(first, 'findings.json', 'first')]), null).vendors;
    expect(vendor!.batches.map(({ batch, deliveries }) => [batch, deliveries.map((one) => one.batch)])).toEqual([
      [first.run.batch, [first.run.batch, 'batch_again']],
    ]);
  });

  it('keep what could not be told open', () => {
    const pending = first.findings.slice(0, 1);
    const [batch] = ledgerOf(input([result(first), result({ ...second, findings: [], pending })]), null).vendors[0]!.batches;
    expect(batch!.items).toMatchObject([{ id: pending[0]!.id, since: 1, state: 'pending' }]);
  });

  it('are refused where two results are of the same one; the same file twice is none', () => {
    expect(ledgerMistakes(input([result(first), result(first)]))).toEqual([]);
    expect(ledgerMistakes(input([result(first, 'a.json'), result(first, 'b.json')]))).toEqual([
      `a.json (of 2031-03-04T10:00:00Z) and b.json (of 2031-03-04T10:00:00Z) are both results of delivery 1 of ${first.run.batch}. Give only the one that counts.`,
    ]);
  });
});

describe('the batches of a vendor over time', () => {
  const early = named(first, 'batch_b', { received: '2031-01-01' });
  const late = named(first, 'batch_a', { received: '2031-02-01' });

  it('come in the order of receipt, with faults for each 1,000 pages', () => {
    const [vendor] = ledgerOf(input([late, early].map((value) => result(value))), null).vendors;
    expect(vendor!.batches.map(({ batch }) => batch)).toEqual(['batch_b', 'batch_a']);
    const one = vendor!.batches[0]!.deliveries[0]!;
    // By hand: 2 findings on 109 pages are 2 / 109 * 1000 = 18.3486...
    expect(one.pages).toBe(109);
    expect(one.faults.find(({ code }) => code === 'date-differs')).toEqual({
      group: 'identity',
      code: 'date-differs',
      findings: 2,
      frames: 8,
      perThousand: 18.35,
    });
    expect(vendor!.faults.find(({ code }) => code === 'date-differs')).toMatchObject({ findings: 4, perThousand: 18.35 });
    expect(one.faults.reduce((sum, fault) => sum + fault.findings, 0)).toBe(first.findings.length);
  });

  it("count no finding that is the film's, the record's, a note or accepted as it is", () => {
    const ruling = { decision: 'accept-as-is', note: '', by: '', on: '' };
    const [a, b, c, d] = first.findings;
    const findings = [
      { ...a!, cause: 'film' },
      { ...b!, cause: 'collation' },
      { ...c!, severity: 'note' },
      { ...d!, ruling },
    ] as Findings['findings'];
    const [vendor] = ledgerOf(input([result({ ...first, findings })]), null).vendors;
    expect(vendor!.faults).toEqual([]);
    // The record's own slip still waits for somebody.
    expect(vendor!.batches[0]!.items.map(({ id }) => id)).toEqual([b!.id]);
  });

  it('are kept apart by vendor, and lots are given for one alone', () => {
    const other = { ...late, agreement: { ...late.agreement, vendor: 'Quillhaven Imaging' } };
    const both = input([result(early), result(other)], [sample('batch_b', true), sample('batch_a', false)]);
    expect(ledgerOf(both, null).vendors.map(({ vendor }) => vendor)).toEqual(['Quillhaven Imaging', demoAgreement().vendor]);
    expect(ledgerOf(both, null).lots).toBeUndefined();
    expect(ledgerOf(both, 'Quillhaven Imaging').lots).toEqual([{ batch: 'batch_a', lot: '55901', accepted: false, betweenNumbers: false }]);
  });

  it('give the switching rules their series: first deliveries alone, each draw once', () => {
    const days = ['01', '02', '03', '04', '05'].map((day) => named(first, `batch_${day}`, { received: `2031-01-${day}` }));
    const passed = [true, false, true, false, true];
    const samples = days.map(({ run }, at) => sample(run.batch, passed[at]!));
    const again = named(second, 'batch_02');
    const decision: LedgerDecision = {
      batch: 'batch_01',
      delivery: 1,
      decision: 'accept',
      by: 'Teo Anselm',
      on: '2031-01-20',
      review,
      samples: [samples[0]!],
    };
    const { lots } = ledgerOf(
      input(
        [...days, again].map((value) => result(value)),
        [...samples, sample('batch_02', true, 2)],
        [decision],
      ),
      null,
    );
    expect(lots!.map(({ accepted }) => accepted)).toEqual(passed);
    // MIL-STD-105E, 4.7.1: tightened when two of five or fewer consecutive lots were not accepted.
    expect(nextInspection(lots!, { wanted: false, steady: false, limitNumbersDropped: false }).severity).toBe('tightened');
  });

  it('say what was left out', () => {
    expect(ledgerOf(input([result(first)], [sample('batch_x', true)]), null).remarks).toEqual([
      'sample-0.json is left out: it is about delivery 1 of batch_x, and no result of that delivery was given.',
    ]);
  });
});

describe('several decisions about one delivery', () => {
  it('count as the latest says, in whatever order they are given', () => {
    const decided = (on: string, is: LedgerDecision['decision']): LedgerDecision => ({
      batch: first.run.batch,
      delivery: 1,
      decision: is,
      by: 'Ilse Marrow',
      on,
      review,
      samples: [],
    });
    const both = [decided('2031-04-18', 'accept'), decided('2031-03-10', 'put-off')];
    for (const order of [both, both.toReversed()]) {
      const [vendor] = ledgerOf(input([result(first)], [], order), null).vendors;
      expect(vendor!.batches[0]!.deliveries[0]!.decision).toMatchObject({ decision: 'accept', on: '2031-04-18' });
    }
  });
});

describe('the money of a vendor', () => {
  const moneyFor = (...accounts: readonly LedgerAccount[]) => ledgerOf(input([result(first)], [], [], accounts), null).vendors[0]!.money;

  it('is the sum of its accounts to the smallest coin, what is owed and what is claimed back apart', () => {
    const all = moneyFor(
      account({}),
      account({ batches: ['b'], billed: '0.10', due: '0.20', released: '0.30', open: '-0.10' }),
      account({ batches: ['c'], currency: 'JPY', minorDigits: 0, billed: '1000', due: '900', released: '900', open: '0' }),
    );
    expect(all).toEqual([
      { currency: 'EUR', accounts: 2, billed: '100.10', due: '90.20', released: '40.30', owed: '50.00', credit: '0.10' },
      { currency: 'JPY', accounts: 1, billed: '1000', due: '900', released: '900', owed: '0', credit: '0' },
    ]);
  });

  it('is not counted twice: two accounts of one batch are refused, an account of nobody is told', () => {
    expect(accountMistakes(input([], [], [], [account({}), account({ billed: '1.00' })]))).toEqual([
      'account-1.json: another account that was given speaks of the batch batch_a too. Give only the one that counts.',
    ]);
    expect(ledgerOf(input([result(first)], [], [], [account({ vendor: 'Gannet Films' })]), null).remarks).toEqual([
      'account-0.json is left out: no result of Gannet Films was given.',
    ]);
  });
});

describe('the page for whoever answers for the contract', () => {
  const put = (batch: string, received: string, due: string, overdue: number): LedgerInput['results'][number] => {
    const one = result(named(first, batch, { received }));
    return { ...one, sha256: batch, value: { ...one.value, review: { ...review, due, overdue } } };
  };
  const decided = (batch: string, is: LedgerDecision['decision'], on: string): LedgerDecision => ({
    batch,
    delivery: 1,
    decision: is,
    by: 'Ilse Marrow',
    on,
    review: { ...review, inTime: true },
    samples: [],
  });
  const made = ledgerOf(
    input(
      [
        put('done', '2031-01-05', '2031-01-26', 0),
        put('late', '2031-03-01', '2031-03-22', 40),
        put('soon', '2031-04-20', '2031-05-11', 0),
        put('back', '2031-01-20', '2031-02-10', 0),
      ],
      [],
      [decided('done', 'accept', '2031-01-20'), decided('back', 'return-for-rework', '2031-02-01')],
      [account({})],
    ),
    null,
  );

  it('puts the longest overdue first, then what is to be answered soonest, then what waits for the vendor', () => {
    expect(statesOf(made).map(({ batch, move }) => [batch, move])).toEqual([
      ['late', 'library'],
      ['soon', 'library'],
      ['back', 'vendor'],
      ['done', 'nobody'],
    ]);
  });

  it('has every month between the first and the last, those without a delivery too', () => {
    const months = monthsOf(made.vendors[0]!);
    expect(months.map(({ month, batches }) => [month, batches])).toEqual([
      ['2031-01', 2],
      ['2031-02', 0],
      ['2031-03', 1],
      ['2031-04', 1],
    ]);
    const { faults } = made.vendors[0]!.batches[0]!.deliveries[0]!;
    const findings = faults.reduce((sum, fault) => sum + fault.findings, 0);
    expect(months[0]).toMatchObject({ findings: 2 * findings, rate: (findings * 1000) / first.counts.pagesReturned });
    expect(months[1]).toMatchObject({ pages: 0, rate: null });
  });

  it('says at a glance what is open, overdue and owed, and needs no script', () => {
    const page = ledgerHtml(made);
    const glance = /<section aria-label="At a glance">([\s\S]*?)<\/section>/
      .exec(page)![1]!
      .replaceAll(/<[^>]+>/g, ' ')
      .replaceAll(/\s+/g, ' ');
    expect(glance).toContain('To be answered 2 batches');
    expect(glance).toContain('Overdue 1 batch, the longest by 40 days');
    expect(glance).toContain('Waiting for the vendor 1 batch');
    expect(glance).toContain('Due and not released 50.00 EUR');
    expect(page).not.toMatch(/<script|https?:|\son\w+=| style=/);
  });

  it('stays the same page around any text', () => {
    const tags = (html: string): readonly string[] => [...html.matchAll(/<\/?([a-z][a-z0-9]*)/gi)].map((match) => match[0]);
    const around = (text: string): string =>
      ledgerHtml(
        ledgerOf(
          input(
            [result({ ...named(first, text), agreement: { ...first.agreement, vendor: text } })],
            [],
            [],
            [account({ vendor: text, currency: text })],
          ),
          null,
        ),
      );
    for (const text of Object.values(HOSTILE)) expect(tags(around(text))).toEqual(tags(around('plain')));
  });
});

describe('the ledger as JSON', () => {
  // Held by a checker of JSON Schema against the published schema.
  it('is as its schema says', async () => {
    const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, allErrors: true });
    ajvFormats.default(ajv);
    for (const name of ['collation-record', 'agreement', 'record-check', 'findings', 'ledger'])
      ajv.addSchema(JSON.parse(readFileSync(`schemas/${name}.schema.json`, 'utf8')) as object);
    const check = ajv.getSchema('https://reeltally.example/schemas/ledger/2')!;
    const decision: LedgerDecision = {
      batch: first.run.batch,
      delivery: 1,
      decision: 'return-for-rework',
      by: 'Teo Anselm',
      on: '2031-03-20',
      review: { ...review, used: 19, inTime: true },
      samples: [sample(first.run.batch, false)],
    };
    const { render } = LEDGER_FORMATS.find(({ name }) => name === 'json')!.files[0]!;
    const full = input([result(first), result(second)], [], [decision], [account({})]);
    for (const made of [ledgerOf(full, null), ledgerOf(input([]), null)]) {
      expect([check(JSON.parse([...((await render(made, 80)) as Iterable<string>)].join(''))), check.errors ?? []]).toEqual([true, []]);
    }
  });
});

describe('the reports of a ledger', () => {
  const hostile = Object.values(HOSTILE).map((text) => ({
    ...named(first, text, { received: null }),
    agreement: { ...first.agreement, vendor: text },
    findings: first.findings.map((finding) => ({ ...finding, says: text, id: text })),
  }));
  const ledger = ledgerOf(input(hostile.map((value, at) => result(value, `${String(at)}.json`))), null);

  it.each(LEDGER_FORMATS.flatMap(({ name, files }) => files.map((each) => [`${name} ${each.name}`, each.render] as const)))(
    'do nothing to a terminal or a spreadsheet, whatever names say: %s',
    async (_, render) => {
      const written = await render(ledger, 80);
      const text = typeof written === 'string' ? written : written instanceof Uint8Array ? cellsOf(written) : [...written].join('');
      expect(STEERING.exec(text.replace(/^\ufeff/, '').replaceAll(/\r?\n/g, ''))).toBeNull();
      if (text.startsWith('\ufeff')) expect(text).not.toMatch(/"[=+\-@\t]/);
    },
  );

  it('keep to the width', () => {
    const text = ledgerText(ledgerOf(input([result(first), result(second)]), null), 80);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(80);
  });
});
