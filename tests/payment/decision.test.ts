import { describe, expect, it } from 'vitest';
import type { Account } from '../../src/model/account.js';
import type { DecidedSample, DecisionInput, DecisionRecord } from '../../src/model/decision.js';
import type { Findings } from '../../src/model/findings.js';
import { decide } from '../../src/payment/decide.js';
import { decisionText } from '../../src/report/decision/json.js';
import { EXAMPLE } from '../report/example.js';
import { held, verified } from './example.js';

const sample: DecidedSample = {
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
  lots: ['00417'],
  agreed: true,
  judgedAgain: true,
};
const sampled = (value: DecidedSample): DecisionInput['samples'] => [{ value, name: 'sample.json', sha256: 'c'.repeat(64) }];

function inputFor(findings: Findings, changes: Partial<DecisionInput> = {}): DecisionInput {
  const account: Account = held(findings, ['page|210|0.325|68.25', 'freight|1|24.00|24.00']).account;
  return {
    findings: { value: findings, name: 'findings.json', sha256: 'b'.repeat(64) },
    samples: sampled(sample),
    openDraws: [],
    lots: ['00417'],
    account: { value: account, name: 'account.json', sha256: 'd'.repeat(64) },
    delivery: 'accept',
    release: null,
    also: [],
    reason: '',
    by: 'Ada Pell',
    second: null,
    on: '1926-01-20',
    ...changes,
  };
}

/** A verified return whose comparison advises what is said here. */
function advised(decision: Findings['verdict']['decision'] = 'accept'): Findings {
  return { ...verified(), verdict: { decision, reasons: ['As advised.'] } };
}

const record = (input: DecisionInput): DecisionRecord => {
  const made = decide(input);
  if (made.record === null) throw new RangeError(made.mistakes.join(' '));
  return made.record;
};
const mistakes = (changes: Partial<DecisionInput>, findings = advised()): string => decide(inputFor(findings, changes)).mistakes.join(' ');

describe('a decision', () => {
  it("is a person's, in two parts, and says what it rests on and what was not checked", () => {
    const ruling = { decision: 'accept-as-is', note: 'Legible all the same.', by: 'Ada Pell', on: '1926-01-10' };
    const base = advised();
    const findings: Findings = {
      ...base,
      findings: base.findings.map((entry) => (entry.code === 'exposure-not-split' ? { ...entry, ruling } : entry)),
      unchecked: [{ what: 'page files', why: 'none came', frames: null, places: [], count: 1, required: false }],
    };
    // 210 came, five of them disputed: 68.25 billed, 205 x 0.325 = 66.625 due.
    const made = record(inputFor(findings, { release: '66.63' }));
    expect([made.delivery, made.release]).toEqual([
      'accept',
      { currency: 'EUR', amount: '66.63', due: '66.63', left: '0.00', parts: [{ invoice: 'Q-17', amount: '66.63' }], named: [] },
    ]);
    // the ruling moves five units of 0.325
    expect(made.rulings).toMatchObject([{ id: 'exposure-not-split', ruling, money: '1.63' }]);
    expect(made.unruled).toBe(findings.findings.length - 1);
    expect(made.notChecked).toEqual([{ what: 'page files', why: 'none came', required: false }]);
    expect([made.against, made.notLookedAt]).toEqual([[], []]);
    expect(made.inputs.map((entry) => [entry.role, entry.sha256[0]])).toEqual([
      ['collation', '5'],
      ['findings', 'b'],
      ['sample', 'c'],
      ['account', 'd'],
    ]);
    expect([made.by, made.on]).toEqual(['Ada Pell', '1926-01-20']);
  });

  it('releases nothing unasked, and nothing where it sends the delivery back', () => {
    expect(record(inputFor(advised())).release).toMatchObject({ amount: '0.00', due: '65.00', left: '65.00' });
    const back = decide(inputFor(advised('return-for-rework'), { delivery: 'return-for-rework' }));
    expect(back.record?.release).toMatchObject({ amount: '0.00', due: '0.00', left: '0.00' });
    expect(mistakes({ delivery: 'return-for-rework', release: '65.00' }, advised('return-for-rework'))).toContain(
      '65.00 EUR are released and 0.00 are due',
    );
  });

  it('that puts off leaves everything as it was', () => {
    const made = decide(inputFor(advised('return-for-rework'), { delivery: 'put-off', samples: [] }));
    expect(made.account?.deliveries[0]?.decision).toBeNull();
  });

  it('pays the accepted pages of a delivery that goes back where that is agreed', () => {
    const base = advised('return-for-rework');
    const findings: Findings = { ...base, agreement: { ...base.agreement, terms: { ...base.agreement.terms, payOn: 'accepted-pages' } } };
    expect(record(inputFor(findings, { delivery: 'return-for-rework', release: '65.00' })).release).toMatchObject({
      due: '65.00',
      left: '0.00',
    });
  });

  it('keeps nothing released twice', () => {
    const first = decide(inputFor(advised(), { release: '65.00' }));
    const again = { value: first.account!, name: 'account.json', sha256: '' };
    expect(mistakes({ release: '65.00', account: again })).toContain('65.00 EUR are released and 0.00 are due');
    expect(record(inputFor(advised(), { account: again })).release).toMatchObject({ due: '0.00' });
  });
});

describe('a reason and a second name', () => {
  const both = { reason: 'The film leaves tomorrow.', second: 'Bo Ferrin' };

  it.each<[string, Partial<DecisionInput>, Findings, string]>([
    ['against the advice', {}, advised('return-for-rework'), 'The advice is to return for rework, and the decision is to accept.'],
    ['where nothing can be advised', {}, advised('cannot-decide'), 'The program could not advise anything.'],
    [
      'after a failed spot check',
      { samples: sampled({ ...sample, nonconforming: 9, accepted: false }) },
      advised(),
      'The advice is to return for rework',
    ],
    ['without a spot check', { samples: [] }, advised(), 'Nobody looked at the agreed sample of the lot 00417.'],
    ['with a sample by another plan', { samples: sampled({ ...sample, agreed: false }) }, advised(), 'Nobody looked at the agreed sample'],
    [
      'with a sample that nobody can judge again',
      { samples: sampled({ ...sample, judgedAgain: false }) },
      advised(),
      'Nobody looked at the agreed sample',
    ],
    ['with a lot left out', { lots: ['00417', '00418'] }, advised(), 'the lot 00418'],
    ['for more than is due', { release: '65.01' }, advised(), '65.01 EUR are released and 65.00 are due.'],
    [
      'for a line that the agreement does not know',
      { release: '89.00', also: ['freight'] },
      advised(),
      'the rest is for lines that the agreement does not know',
    ],
  ])('are needed %s', (_, changes, findings, sentence) => {
    expect(mistakes(changes, findings)).toContain(sentence);
    expect(mistakes(changes, findings)).toContain('This needs a reason (--reason TEXT) and a second name (--second NAME).');
    expect(mistakes({ ...changes, reason: both.reason }, findings)).toContain('This needs a second name');
    expect(mistakes({ ...changes, second: both.second }, findings)).toContain('This needs a reason');
    const made = record(inputFor(findings, { ...changes, ...both }));
    expect(made.against.join(' ')).toContain(sentence);
    expect([made.reason, made.second]).toEqual([both.reason, both.second]);
  });

  it('are two people', () => {
    expect(mistakes({ samples: [], reason: 'x', second: ' ada pell ' })).toContain('a second person is meant');
  });

  it('are not needed for less than is due, which needs a reason alone', () => {
    expect(mistakes({ release: '60.00' })).toBe('60.00 is less than the 65.00 that are due; say why with --reason.');
    expect(record(inputFor(advised(), { release: '60.00', reason: 'Kept back.' })).release).toMatchObject({ left: '5.00' });
  });
});

describe('a line that the agreement does not know', () => {
  it('is released by its words or its place, and no other', () => {
    const also = { release: '89.00', reason: 'Agreed by letter.', second: 'Bo Ferrin' };
    for (const name of ['freight', ' Freight', 'Q-17:2'])
      expect(record(inputFor(advised(), { ...also, also: [name] })).release).toMatchObject({
        left: '0.00',
        named: [{ invoice: 'Q-17', line: '2', text: 'freight', amount: '24.00' }],
      });
    expect(mistakes({ ...also, also: ['postage'] })).toContain('is called "postage"; there are Q-17:2 (freight).');
  });
});

describe('the time for the answer', () => {
  // Received 1926-01-05; 21 days later is 1926-01-26, as `date -d '1926-01-05 + 21 days'` (GNU coreutils) says.
  it.each([
    ['1926-01-26', true],
    ['1926-01-27', false],
  ])('of %s is in time: %s', (on, inTime) => {
    expect(record(inputFor(advised(), { on })).review).toMatchObject({ received: '1926-01-05', due: '1926-01-26', inTime });
  });

  it('counts working days without the holidays of the agreement', () => {
    // 1926-01-05 was a Tuesday (`date -d 1926-01-05 +%A`): five working days without the 6th end on Wednesday the 13th.
    const findings = advised();
    const terms = { ...findings.agreement.terms, reviewDays: 5, reviewDayKind: 'working' as const, holidays: ['1926-01-06'] };
    const made = record(inputFor({ ...findings, agreement: { ...findings.agreement, terms } }));
    expect(made.review).toMatchObject({ due: '1926-01-13', inTime: false });
  });

  it('is open where the day of receipt is not known', () => {
    const findings = advised();
    const made = record(inputFor({ ...findings, run: { ...findings.run, received: null } }));
    expect(made.review).toMatchObject({ received: null, due: null, inTime: null });
  });
});

describe('a decision as text', () => {
  const made = record(inputFor(advised()));

  it('loses nothing, is the same bytes each time, and says first what it is', () => {
    expect(decisionText(record(inputFor(advised())))).toBe(decisionText(made));
    expect(JSON.parse(decisionText(made))).toEqual(made);
    expect(decisionText(made).startsWith('{\n  "format": "reeltally/decision/2",\n')).toBe(true);
    expect(decisionText(made).endsWith('}\n')).toBe(true);
  });

  it('holds no character that steers a terminal, and still means the same', () => {
    const hostile = { ...made, by: 'A\u009bda\u202e \u{e0041}Pell\u001b[2J' };
    expect(decisionText(hostile)).not.toMatch(/[\u007f-\u009f\u202e\u001b]|\u{e0041}/u);
    expect(JSON.parse(decisionText(hostile))).toEqual(hostile);
  });
});

describe('a decision that cannot be written', () => {
  it.each<[string, Partial<DecisionInput>, string]>([
    ['no name', { by: '  ' }, 'Say who decides: --by NAME.'],
    ['no such day', { on: '1926-02-29' }, 'The day of the decision is "1926-02-29"; write a day of the calendar as YYYY-MM-DD.'],
    [
      'before receipt',
      { on: '1926-01-04' },
      'The decision is of 1926-01-04, but the delivery was received on 1926-01-05; one of the two days is wrong.',
    ],
    [
      'a sample of another delivery',
      { samples: sampled({ ...sample, delivery: 1 }) },
      'sample.json is a sample of delivery 1 of batch_vzx_pilot; the findings are of delivery 2 of batch_vzx_pilot.',
    ],
    ['money without an account', { account: null, release: '1.00' }, 'Money is released against an account: name it with --account.'],
    ['an amount that is none', { release: '1.234,56' }, '--release: "1.234,56" is not an amount of EUR'],
  ])('%s is told in a sentence', (_, changes, sentence) => {
    expect(mistakes(changes)).toContain(sentence);
  });
});
