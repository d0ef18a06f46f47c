import { describe, expect, it } from 'vitest';
import type { DecisionInput, SampleSummary } from '../../src/model/decision.js';
import type { Findings } from '../../src/model/findings.js';
import { decide, decisionMistakes } from '../../src/payment/decide.js';
import { reconcileInvoice } from '../../src/payment/reconcile.js';
import { decisionText } from '../../src/report/decision/json.js';
import { EXAMPLE } from '../report/example.js';
import { linesOf, verified } from './example.js';

const sample: SampleSummary = {
  batch: EXAMPLE.run.batch,
  delivery: EXAMPLE.run.delivery,
  plan: 'limiting quality 2 %, risk 0.05',
  seed: '4471',
  listSha256: 'a'.repeat(64),
  unit: 'page',
  lotSize: 640,
  drawn: 140,
  nonconforming: 1,
  accepted: true,
  says: ['At most 3.3 % of the lot is wrong.'],
};

function inputFor(findings: Findings, changes: Partial<DecisionInput> = {}): DecisionInput {
  return {
    findings: { value: findings, name: 'findings.json', sha256: 'b'.repeat(64) },
    samples: [{ value: sample, name: 'sample.json', sha256: 'c'.repeat(64) }],
    invoice: {
      value: reconcileInvoice(linesOf('page|210|0.325|68.25'), findings, { number: 'Q-17', currency: 'EUR', total: null }),
      name: 'invoice.json',
      sha256: 'd'.repeat(64),
    },
    by: 'Ada Pell',
    on: '1926-01-20',
    ...changes,
  };
}

/** A verified return whose comparison advises what is said here. */
function advised(decision: Findings['verdict']['decision']): Findings {
  return { ...verified(), verdict: { decision, reasons: ['As advised.'] } };
}

/** The same value with the keys of every object turned round. */
function turned<T>(value: T): T {
  if (Array.isArray(value)) return value.map((entry: unknown) => turned(entry)) as T;
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]: [string, unknown]) => [key, turned(inner)]),
  ) as T;
}

describe('a decision', () => {
  it('holds the grounds it rests on: verdict, rulings, sample, invoice, inputs', () => {
    const ruling = { decision: 'accept-as-is', note: 'Legible all the same.', by: 'Ada Pell', on: '1926-01-10' };
    const findings = verified(undefined, (entry) => (entry.code === 'exposure-not-split' ? { ...entry, ruling } : entry));
    const record = decide(inputFor(findings));
    expect(record.verdict).toEqual(findings.verdict);
    expect(record.rulings).toEqual([
      {
        id: 'exposure-not-split',
        code: 'exposure-not-split',
        severity: 'major',
        cause: 'vendor-metadata',
        says: 'Five exposures were not split.',
        ruling,
      },
    ]);
    expect(record.unruled).toBe(findings.findings.length - 1);
    expect(record.samples).toEqual([sample]);
    // 210 came, five of them disputed: 68.25 billed, 205 x 0.325 = 66.625 due.
    expect(record.invoice).toMatchObject({ number: 'Q-17', currency: 'EUR', billed: '68.25', due: '66.63', difference: '1.62' });
    expect(record.inputs.map((entry) => [entry.role, entry.sha256[0]])).toEqual([
      ['collation', '5'],
      ['findings', 'b'],
      ['sample', 'c'],
      ['invoice', 'd'],
    ]);
    expect([record.by, record.on]).toEqual(['Ada Pell', '1926-01-20']);
  });

  it('is the advice of the comparison while the spot check is passed, and rework when it is not', () => {
    const failed = { value: { ...sample, nonconforming: 4, accepted: false }, name: 'sample-2.json', sha256: 'e'.repeat(64) };
    for (const advice of ['accept', 'accept-with-corrections', 'cannot-decide', 'return-for-rework'] as const) {
      const input = inputFor(advised(advice));
      expect(decide(input).decision).toBe(advice);
      expect(decide({ ...input, samples: [...input.samples, failed] }).decision).toBe('return-for-rework');
    }
    expect(decide(inputFor(advised('accept'), { samples: [failed] })).reasons).toEqual([
      'As advised.',
      'Spot check (limiting quality 2 %, risk 0.05): 4 of 140 looked at are not as ordered; the lot of 640 is not accepted.',
    ]);
  });

  it('says so where nobody looked at the images', () => {
    const record = decide(inputFor(advised('accept'), { samples: [], invoice: null }));
    expect(record.reasons).toContain('No spot check was made: nobody looked at the images before this decision.');
    expect(record.invoice).toBeNull();
  });

  // Received 1926-01-05; 21 days later is 1926-01-26, as `date -d '1926-01-05 + 21 days'` (GNU coreutils) says.
  it.each([
    ['1926-01-26', true],
    ['1926-01-27', false],
  ])('of %s is in time: %s', (on, inTime) => {
    expect(decide(inputFor(verified(), { on })).review).toMatchObject({ received: '1926-01-05', due: '1926-01-26', inTime });
  });

  it('counts working days without the holidays of the agreement', () => {
    // 1926-01-05 was a Tuesday (`date -d 1926-01-05 +%A`): five working days without the 6th end on Wednesday the 13th.
    const findings = verified();
    const terms = { ...findings.agreement.terms, reviewDays: 5, reviewDayKind: 'working' as const, holidays: ['1926-01-06'] };
    const record = decide(inputFor({ ...findings, agreement: { ...findings.agreement, terms } }));
    expect(record.review).toMatchObject({ due: '1926-01-13', inTime: false });
  });

  it('leaves the last day open where the day of receipt is not known', () => {
    const findings = verified();
    const record = decide(inputFor({ ...findings, run: { ...findings.run, received: null } }));
    expect(record.review).toMatchObject({ received: null, due: null, inTime: null });
  });
});

describe('a decision as text', () => {
  const record = decide(inputFor(verified()));

  it('is the same bytes each time, in whatever order its objects hold their keys', () => {
    expect(decisionText(decide(inputFor(verified())))).toBe(decisionText(record));
    expect(decisionText(decide(turned(inputFor(verified()))))).toBe(decisionText(record));
    expect(decisionText(turned(record))).toBe(decisionText(record));
  });

  it('loses nothing, and says first what it is', () => {
    expect(JSON.parse(decisionText(record))).toEqual(record);
    expect(decisionText(record).startsWith('{\n  "format": "reeltally/decision/1",\n')).toBe(true);
    expect(decisionText(record).endsWith('}\n')).toBe(true);
  });

  it('holds no character that steers a terminal, and still means the same', () => {
    const hostile = { ...record, by: 'A\u009bda\u202e \u{e0041}Pell\u001b[2J' };
    expect(decisionText(hostile)).not.toMatch(/[\u007f-\u009f\u202e\u001b]|\u{e0041}/u);
    expect(JSON.parse(decisionText(hostile))).toEqual(hostile);
  });
});

describe('a decision that cannot be written', () => {
  const other = (value: SampleSummary): DecisionInput['samples'] => [{ value, name: 'sample.json', sha256: '' }];

  it.each<[string, Partial<DecisionInput>, string]>([
    ['no name', { by: '  ' }, 'Say who decides.'],
    ['no such day', { on: '1926-02-29' }, 'The day of the decision is "1926-02-29"; write a day of the calendar as YYYY-MM-DD.'],
    [
      'before receipt',
      { on: '1926-01-04' },
      'The decision is of 1926-01-04, but the delivery was received on 1926-01-05; one of the two days is wrong.',
    ],
    [
      'a sample of another delivery',
      { samples: other({ ...sample, delivery: 1 }) },
      'sample.json is a sample of delivery 1 of batch_vzx_pilot; the findings are of delivery 2 of batch_vzx_pilot.',
    ],
  ])('%s is told in a sentence', (_, changes, sentence) => {
    const input = inputFor(verified(), changes);
    expect(decisionMistakes(input)).toEqual([sentence]);
    expect(() => decide(input)).toThrow(sentence);
  });

  it('an invoice held against another batch or an older comparison is told', () => {
    const input = inputFor(verified());
    const invoice = input.invoice!;
    const changed = (facts: object): readonly string[] =>
      decisionMistakes({ ...input, invoice: { ...invoice, value: { ...invoice.value, ...facts } } });
    expect(changed({ batch: 'batch_other' })[0]).toMatch(/^invoice\.json is about delivery 2 of batch_other;/);
    expect(changed({ verifiedAt: '1926-01-06T08:00:00Z' })[0]).toMatch(/hold the invoice against them again\.$/);
    expect(changed({})).toEqual([]);
  });
});
