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

describe('what a decision says', () => {
  it('of the spot checks: what was looked at, how many are wrong, and what became of the lot', () => {
    const reasons = (...samples: readonly DecidedSample[]): readonly string[] =>
      record(inputFor(advised('return-for-rework'), { samples: samples.flatMap(sampled), delivery: 'return-for-rework' })).advice.reasons;
    expect(reasons(sample)).toEqual([
      'As advised.',
      'Spot check (limiting quality 2 %, risk 0.05): 1 of 140 looked at is not as ordered; the lot of 640 is accepted.',
    ]);
    expect(reasons({ ...sample, plan: 'All of 3.', nonconforming: 2, accepted: false })[1]).toBe(
      'Spot check (All of 3): 2 of 140 looked at are not as ordered; the lot of 640 is not accepted.',
    );
    expect(reasons()[1]).toBe('No spot check was made: nobody looked at the images before this decision.');
    expect(
      record(inputFor(advised(), { samples: sampled({ ...sample, accepted: false }), delivery: 'return-for-rework' })).advice.decision,
    ).toBe('return-for-rework');
  });

  it('refuses a sample of another batch or another delivery', () => {
    for (const other of [{ batch: 'batch_other' }, { delivery: 9 }])
      expect(mistakes({ samples: sampled({ ...sample, ...other }) })).toMatch(
        /^sample\.json is a sample of delivery .* the findings are of delivery/,
      );
  });

  it('of each ruling what it alone is worth', () => {
    const ruling = { decision: 'accept-as-is', note: '', by: 'Ada Pell', on: '1926-01-10' } as const;
    const base = advised();
    const ids = ['exposure-not-split', 'frame-scanned-twice', 'title-differs'];
    const findings = { ...base, findings: base.findings.map((entry) => (ids.includes(entry.id) ? { ...entry, ruling } : entry)) };
    // five pages and two pages at 0.325
    expect(record(inputFor(findings)).rulings.map(({ id, money }) => [id, money])).toEqual([
      ['frame-scanned-twice', '0.65'],
      ['exposure-not-split', '1.63'],
    ]);
  });

  it('of the review whether it came in time, the last day too', () => {
    const base = advised();
    const terms = { ...base.agreement.terms, reviewDays: 5, reviewDayKind: 'calendar' as const };
    const findings = { ...base, run: { ...base.run, received: '1926-01-10' }, agreement: { ...base.agreement, terms } };
    const review = (on: string) => record(inputFor(findings, { on })).review;
    expect(review('1926-01-15')).toMatchObject({ received: '1926-01-10', days: 5, due: '1926-01-15', inTime: true });
    expect(review('1926-01-16').inTime).toBe(false);
    expect(review('1926-01-10').inTime).toBe(true);
    expect(mistakes({ on: '1926-01-09' }, findings)).toContain(
      'The decision is of 1926-01-09, but the delivery was received on 1926-01-10',
    );
    expect(record(inputFor({ ...findings, run: { ...base.run, received: null } })).review).toMatchObject({ due: null, inTime: null });
  });

  it('rests on draws that were never judged too, and on no account that has no file yet', () => {
    const openDraws = [
      { name: 'draw.json', sha256: 'e'.repeat(64), place: 'spot/draw-1', lots: ['00417'] },
    ] as unknown as DecisionInput['openDraws'];
    const both = inputFor(advised('return-for-rework'), { openDraws, delivery: 'return-for-rework' });
    expect(record(both).inputs.map(({ role }) => role)).toEqual(['collation', 'findings', 'sample', 'draw', 'account']);
    const unnamed = { ...both, account: { ...both.account!, name: '' } };
    expect(record(unnamed).inputs.map(({ role }) => role)).toEqual(['collation', 'findings', 'sample', 'draw']);
    expect(record(both).notLookedAt).toEqual(['00417']);
    expect(record(inputFor(advised('return-for-rework'), { delivery: 'return-for-rework' })).notLookedAt).toEqual([]);
    for (const weak of [{ agreed: false }, { judgedAgain: false }, { lots: ['00418'] }])
      expect(
        record(inputFor(advised('return-for-rework'), { samples: sampled({ ...sample, ...weak }), delivery: 'return-for-rework' }))
          .notLookedAt,
      ).toEqual(['00417']);
  });
});

describe('a line that the agreement does not know', () => {
  const money = { release: '89.00', reason: 'Agreed by letter.', second: 'Bo Ferrin' };
  const withLines = (...texts: readonly string[]): Account => held(advised(), ['page|210|0.325|68.25', ...texts]).account;
  const name = (account: Account, ...also: readonly string[]) =>
    decide(inputFor(advised(), { ...money, also, account: { value: account, name: 'account.json', sha256: 'd'.repeat(64) } }));

  it('is called by its words, however spaced and written, or by invoice and line', () => {
    const account = withLines('air  freight|1|24.00|24.00');
    for (const wish of ['air freight', ' Air   FREIGHT ', 'Q-17:2', ' Q-17:2 ']) expect(name(account, wish).mistakes).toEqual([]);
    for (const wish of ['freight', 'airfreight', 'Q-17:1', 'Q-18:2'])
      expect(name(account, wish).mistakes[0]).toContain(`is called "${wish}"; there are Q-17:2 (air  freight).`);
  });

  it('is named by its number where several are called the same', () => {
    const account = withLines('freight|1|24.00|24.00', 'freight|1|3.00|3.00');
    expect(name(account, 'freight').mistakes).toEqual([
      '--also: "freight" stands on several lines; name one of them: Q-17:2 (freight), Q-17:3 (freight).',
    ]);
    expect(name(account, 'Q-17:3').mistakes).toEqual([]);
  });

  it('is released once', () => {
    const first = name(withLines('freight|1|24.00|24.00'), 'freight');
    expect(first.account?.releases).toHaveLength(1);
    expect(name(first.account!, 'freight').mistakes).toEqual([
      '--also: no line that the agreement does not know and that is not released yet is called "freight".',
    ]);
    const two = name(withLines('freight|1|24.00|24.00', 'postage|1|3.00|3.00'), 'freight');
    expect(name(two.account!, 'freight').mistakes[0]).toContain('there are Q-17:3 (postage).');
  });
});
