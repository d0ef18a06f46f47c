import { describe, expect, it } from 'vitest';
import type { PriceClass, Terms } from '../../src/model/agreement.js';
import type { DecisionInput } from '../../src/model/decision.js';
import type { Side } from '../../src/model/film.js';
import type { Finding, Findings, ResultFrame } from '../../src/model/findings.js';
import { againstOf, lackingIn } from '../../src/payment/against.js';
import type { Money } from '../../src/payment/decided-money.js';
import { accountDelivery } from '../../src/payment/delivery.js';
import { expectedAmounts } from '../../src/payment/expected.js';
import { priceCounts, unitsOf } from '../../src/payment/units.js';
import { EXAMPLE, finding, frame } from '../report/example.js';

const PAGE: PriceClass = { class: 'page', kind: ['page'], deliver: true, unitPrice: '0.50' };
const HELD: PriceClass = { class: 'held back', kind: ['page', 'blank', 'target'], deliver: false, unitPrice: '0.05' };
const open = (id: string, facts: Partial<Finding> = {}): Finding =>
  finding({
    id,
    code: id,
    says: '',
    severity: 'major',
    cause: 'vendor-metadata',
    ruling: null,
    billable: [],
    rescan: 'no',
    repair: [],
    ...facts,
  });
const reelOf = (frames: readonly ResultFrame[], number = '00417') => ({ number, absent: [], frames });
const ruled = (decision: NonNullable<Finding['ruling']>['decision']): NonNullable<Finding['ruling']> => ({
  decision,
  note: '',
  by: 'Ilse Marrow',
  on: '2031-03-05',
});

/** How the frames of one reel stand in a class. */
function states(entry: PriceClass, frames: readonly ResultFrame[], findings: readonly Finding[] = []): readonly string[] {
  return unitsOf(entry, { reels: [reelOf(frames)], findings }).map(
    (unit) =>
      `${unit.frame} ${unit.state}${unit.ordered ? '' : ' surplus'}${unit.findings.length > 0 ? ` ${unit.findings.join(',')}` : ''}`,
  );
}

describe('the units of a class', () => {
  it('are the pages that came, with those that were to come', () => {
    const frames = [
      frame('1', { findings: [] }),
      frame('2', { returnedKind: null, state: 'record-only', findings: [] }),
      frame('3', { frame: null, returned: '9', state: 'return-only', findings: [] }),
      frame('4', { kind: 'blank', deliver: false, returnedKind: 'page', findings: [] }),
      frame('5', { state: 'not-compared', returnedKind: null, findings: [] }),
    ];
    expect(states(PAGE, frames)).toEqual(['1 accepted', '2 wanting', '+9 accepted surplus', '4 accepted surplus', '5 wanting']);
    // a blank that came as a page is no blank that was held back
    expect(states(HELD, frames)).toEqual(['4 wanting']);
  });

  it('that have one number are told apart', () => {
    const twice = [frame('1', { findings: [] }), frame('1', { findings: [] }), frame('1', { findings: [] })];
    expect(states(PAGE, twice)).toEqual(['1 accepted', '1#2 accepted', '1#3 accepted']);
  });

  it('that are held back show nowhere, and came unless their reel did not or a finding says they were not scanned', () => {
    const blank = (facts: Partial<ResultFrame> = {}): ResultFrame =>
      frame('4', { kind: 'blank', deliver: false, returnedKind: null, findings: [], ...facts });
    expect(states(HELD, [blank()])).toEqual(['4 accepted']);
    expect(states(HELD, [blank({ state: 'not-compared' })])).toEqual(['4 wanting']);
    const gap = (code: string) => states(HELD, [blank({ findings: ['g-1'] })], [open('g-1', { code, severity: 'minor' })]);
    expect([gap('frame-not-scanned'), gap('frame-number-gap'), gap('date-differs')]).toEqual([
      ['4 disputed g-1'],
      ['4 disputed g-1'],
      ['4 accepted'],
    ]);
    // a duplicate is paid only where the class says so
    expect(states(HELD, [blank({ kind: 'page', duplicateOf: '3' })])).toEqual([]);
    expect(states({ ...HELD, includes: 'duplicates' }, [blank({ kind: 'page', duplicateOf: '3' })])).toEqual(['4 accepted']);
  });

  it.each([
    ['a critical or major finding', { severity: 'critical' }, true],
    ['a minor one', { severity: 'minor' }, false],
    ['a minor one that changes what is billed', { severity: 'minor', billable: [{ class: 'page', change: -1 }] }, true],
    ['a minor one that needs a new scan', { severity: 'minor', rescan: 'yes' }, true],
    ['a note', { severity: 'note', rescan: 'yes' }, false],
    ['the film', { cause: 'film' }, false],
    ['a record in doubt', { doubts: [] }, false],
    ['what was ruled accepted', { ruling: ruled('accept-as-is') }, false],
    ['what was ruled the record’s slip', { ruling: ruled('collation-wrong') }, false],
    ['what the vendor is to correct, even on the film', { cause: 'film', ruling: ruled('vendor-corrects') }, true],
  ] as const)('are disputed by %s: %s', (_, facts, isDisputed) => {
    const said = open('x-1', facts);
    expect(states(PAGE, [frame('1', { findings: ['x-1'] })], [said])).toEqual([isDisputed ? '1 disputed x-1' : '1 accepted']);
  });

  it('that a shift makes wrong are in dispute only where it begins', () => {
    const shift = open('s-1', { at: '2', repair: [{ do: 'renumber' } as Finding['repair'][number]] });
    const frames = ['2', '3'].map((number) => frame(number, { findings: ['s-1'] }));
    expect(states(PAGE, frames, [shift])).toEqual(['2 disputed s-1', '3 accepted']);
    expect(states(PAGE, frames, [{ ...shift, rescan: 'yes' }])).toEqual(['2 disputed s-1', '3 disputed s-1']);
    expect(states(PAGE, frames, [{ ...shift, billable: [{ class: 'page', change: 1 }] }])).toEqual(['2 disputed s-1', '3 disputed s-1']);
    // what did not come is told by what disputes it there, else by whatever is said of it
    const lost = frame('3', { returnedKind: null, state: 'record-only', findings: ['s-1', 'm-1', 'f-1'] });
    expect(states(PAGE, [lost], [shift, open('m-1'), open('f-1', { cause: 'film' })])).toEqual(['3 wanting m-1']);
    expect(states(PAGE, [lost], [shift, open('f-1', { cause: 'film' })])).toEqual(['3 wanting s-1']);
  });

  it('are a reel or the batch, accepted as soon as one frame is', () => {
    const result = {
      reels: [
        reelOf([frame('1', { findings: ['x-1'] }), frame('2', { findings: [] })], 'A'),
        reelOf([frame('1', { findings: ['x-1'] })], 'B'),
        reelOf([frame('1', { returnedKind: null, state: 'record-only', findings: ['x-1'] })], 'C'),
        reelOf([frame('1', { kind: 'blank', deliver: false, returnedKind: null, findings: [] })], 'D'),
      ],
      findings: [open('x-1')],
    };
    const reels = unitsOf({ ...PAGE, per: 'reel' }, result);
    expect(reels.map(({ reel, frame: unit, state, findings }) => [reel, unit, state, findings])).toEqual([
      ['A', 'reel', 'accepted', []],
      ['B', 'reel', 'disputed', ['x-1']],
      ['C', 'reel', 'wanting', ['x-1']],
    ]);
    expect(unitsOf({ ...PAGE, per: 'batch' }, result)).toEqual([
      { reel: '', frame: 'batch', state: 'accepted', ordered: true, findings: [] },
    ]);
  });
});

describe('the counts of the classes', () => {
  const frames = [
    frame('1', { findings: [] }),
    frame('2', { kind: 'blank', deliver: false, returnedKind: 'page', findings: [] }),
    frame('3', { kind: 'page', deliver: false, duplicateOf: '1', returnedKind: null, findings: [] }),
    frame('4', { kind: 'void', deliver: false, returnedKind: null, findings: [] }),
    frame('5', { frame: null, returned: '5', state: 'return-only', findings: [] }),
  ];
  const counts = (classes: readonly PriceClass[]) => priceCounts(classes, { reels: [reelOf(frames)], findings: [] });

  it('say what came as pages of a class of frames held back, and what no class pays for', () => {
    expect(counts([PAGE, HELD])).toEqual({
      classes: [
        { class: 'page', charge: 'scan', record: 1, returned: 3, accepted: 3, disputed: 0 },
        { class: 'held back', charge: 'scan', record: 1, returned: 0, accepted: 0, disputed: 0, asPages: 1 },
      ],
      unpriced: { duplicates: 1, others: 1 },
    });
    expect(counts([PAGE]).unpriced).toEqual({ duplicates: 1, others: 2 });
    expect(counts([PAGE, { ...HELD, kind: ['page', 'blank', 'void'], includes: 'duplicates' }]).unpriced).toBeUndefined();
  });

  it('are of classes of a scan, frame by frame, where frames are unpriced', () => {
    const index: PriceClass = { ...PAGE, class: 'index', charge: 'index' };
    expect(counts([index]).unpriced).toBeUndefined();
    expect(counts([{ ...PAGE, per: 'reel' }]).unpriced).toBeUndefined();
    expect(counts([{ ...HELD, charge: 'index' }]).classes[0]).not.toHaveProperty('asPages');
    expect(counts([{ ...HELD, per: 'batch' }]).classes[0]).not.toHaveProperty('asPages');
    expect(counts([index]).classes[0]?.charge).toBe('index');
  });
});

describe('what everything comes to if all is accepted', () => {
  const side = {
    reels: [['page', 'page', 'blank'], ['page'], ['blank']].map((kinds) => ({
      frames: kinds.map((kind) => ({ kind, deliver: kind === 'page', duplicateOf: null })),
    })),
  } as unknown as Side;
  const amounts = (...classes: readonly PriceClass[]) => expectedAmounts({ currency: 'EUR', classes } as unknown as Terms, side);

  it('is counted in frames, reels or once', () => {
    const { amounts: list, sum } = amounts(
      PAGE,
      HELD,
      { ...PAGE, class: 'reel', per: 'reel', unitPrice: '18.50' },
      { ...PAGE, class: 'setup', per: 'batch', unitPrice: '7' },
      { ...PAGE, class: 'void', kind: ['void'], per: 'batch' },
    );
    expect(list).toEqual([
      { class: 'page', units: 3, unitPrice: '0.50', amount: '1.50' },
      { class: 'held back', units: 2, unitPrice: '0.05', amount: '0.10' },
      { class: 'reel', units: 2, unitPrice: '18.50', amount: '37.00' },
      { class: 'setup', units: 1, unitPrice: '7', amount: '7.00' },
      { class: 'void', units: 0, unitPrice: '0.50', amount: '0.00' },
    ]);
    expect(sum).toBe('45.60');
  });

  it('has no amount without a price, and no sum where nothing has one', () => {
    const free: PriceClass = { class: 'page', kind: ['page'], deliver: true };
    expect(amounts(free)).toEqual({ amounts: [{ class: 'page', units: 3, unitPrice: null, amount: null }], sum: null });
    expect(amounts(free, HELD).sum).toBe('0.10');
    // each class is rounded by itself, halves away from zero
    expect(amounts({ ...PAGE, unitPrice: '0.335' }, { ...PAGE, unitPrice: '0.335' }).sum).toBe('2.02');
  });
});

describe('what was scanned again', () => {
  const numbers = ['1', '2', '2', '3', '4'];
  const result = (facts: Partial<Finding>): Findings => ({
    ...EXAMPLE,
    reels: [reelOf(numbers.map((number) => frame(number, { findings: [] })))],
    corrected: [open('c-1', { rescan: 'yes', reel: '00417', at: null, frames: null, says: 'Blurred.', ...facts })],
  });
  const rescans = (facts: Partial<Finding>) => accountDelivery(result(facts), { name: 'f.json', sha256: '' }).rescans;
  const places = (facts: Partial<Finding>) => rescans(facts).map(({ reel, frames }) => `${reel}: ${frames.join(' ')}`);

  it('is told by frame: a list, a run, the place, and on which reel', () => {
    expect(places({ frames: { from: '1', to: '2' } })).toEqual(['00417: 1 2 2']);
    expect(places({ frames: { from: '2', to: '4' } })).toEqual(['00417: 2 2 3 4']);
    expect(places({ frames: { from: '3', to: '9' } })).toEqual(['00417: 3']);
    expect(places({ frames: { from: '4', to: '3' } })).toEqual(['00417: 4']);
    expect(places({ frames: { from: '9', to: '4' } })).toEqual(['00417: 9']);
    expect(places({ frames: { from: '1', to: '4', list: ['1', '4'] } })).toEqual(['00417: 1 4']);
    expect(places({ reel: null, frames: { from: 'A:1', to: 'B:2', list: ['A:1', 'B:2', 'A:3'] } })).toEqual(['A: 1 3', 'B: 2']);
    expect(places({ at: '3' })).toEqual(['00417: 3']);
    expect(places({})).toEqual([]);
  });

  it('is at the cost of whoever caused it, which a ruling decides', () => {
    const cost = (facts: Partial<Finding>) => rescans({ at: '3', ...facts }).map((one) => one.cost);
    expect([cost({ cause: 'film' }), cost({ cause: 'collation' }), cost({ cause: 'vendor-metadata' }), cost({ cause: 'unclear' })]).toEqual(
      [['library'], ['library'], ['vendor'], ['vendor']],
    );
    expect([
      cost({ cause: 'film', ruling: ruled('vendor-corrects') }),
      cost({ cause: 'vendor-metadata', ruling: ruled('collation-wrong') }),
    ]).toEqual([['vendor'], ['library']]);
    expect([cost({ rescan: 'no' }), cost({ repair: [{ do: 'renumber' } as Finding['repair'][number]] })]).toEqual([[], []]);
  });

  it('is not what is held back, whose groups are counted from the narrow to the wide', () => {
    const held = (kind: ResultFrame['kind'], facts: Partial<ResultFrame> = {}): ResultFrame =>
      frame('9', { kind, deliver: false, returnedKind: null, findings: [], ...facts });
    const frames = [
      held('blank'),
      held('blank'),
      held('target'),
      held('page'),
      held('page', { duplicateOf: '1' }),
      held('void'),
      held('page', { returnedKind: 'page' }),
      held('blank', { state: 'return-only' }),
      frame('1', { findings: [] }),
    ];
    expect(
      accountDelivery({ ...EXAMPLE, reels: [reelOf(frames)] }, { name: '', sha256: '' }).heldBack.map(
        ({ words, count }) => `${String(count)} ${words}`,
      ),
    ).toEqual([
      '1 duplicate pages that were rightly held back',
      '2 pages that were rightly held back',
      '2 blanks',
      '1 targets',
      '1 voids',
      '4 frames that are not pages',
      '6 frames that were rightly held back',
    ]);
  });
});

describe('a decision that goes against something', () => {
  const money: Money = { account: null, decided: null, amount: 0n, due: 0n, named: 0n, mistakes: [] };
  const paid = (amount: bigint, due: bigint, named = 0n, currency = 'EUR'): Money => ({
    ...money,
    amount,
    due,
    named,
    decided: { currency, amount: String(amount), due: String(due), left: '', parts: [], named: [] },
  });
  const input = (facts: Partial<DecisionInput>): DecisionInput =>
    ({ delivery: 'accept', openDraws: [], reason: '', second: null, release: null, ...facts }) as DecisionInput;

  it('is not one that follows the advice, nor one that is put off', () => {
    expect(againstOf(input({}), 'accept', [], money)).toEqual([]);
    expect(againstOf(input({ delivery: 'put-off' }), 'return-for-rework', ['A'], money)).toEqual([]);
    expect(againstOf(input({}), 'return-for-rework', [], money)).toEqual([
      'The advice is to return for rework, and the decision is to accept.',
    ]);
    expect(againstOf(input({}), 'cannot-decide', [], money)).toEqual(['The program could not advise anything.']);
  });

  it('is one that pays for what nobody looked at', () => {
    expect(againstOf(input({}), 'accept', ['A'], money)).toEqual([expect.stringContaining('of the lot A')]);
    const lots = ['A', 'B', 'C', 'D', 'E', 'F'];
    expect(againstOf(input({}), 'accept', lots.slice(0, 5), money)[0]).toContain('5 lots (A, B, C, D, E)');
    expect(againstOf(input({}), 'accept', lots, money)[0]).toMatch(/6 lots \(A, B, C, D, E\b(?!.*F)/);
    expect(againstOf(input({ delivery: 'accept-with-corrections' }), 'accept-with-corrections', ['A'], money)).toHaveLength(1);
    expect(againstOf(input({ delivery: 'return-for-rework' }), 'return-for-rework', ['A'], money)).toEqual([]);
    expect(againstOf(input({ delivery: 'return-for-rework' }), 'return-for-rework', ['A'], paid(1n, 1n))).toHaveLength(1);
    const openDraws = [{ place: 'delivery-1/spot/draw-1', lots: ['A', 'B'] }] as unknown as DecisionInput['openDraws'];
    expect(againstOf(input({ openDraws }), 'accept', [], money)).toEqual([
      'A sample of A, B was drawn and never judged: delivery-1/spot/draw-1. No other draw from the list stands for it.',
    ]);
    expect(againstOf(input({ openDraws, delivery: 'return-for-rework' }), 'return-for-rework', [], money)).toEqual([]);
  });

  it('is one that releases more than is due', () => {
    expect(againstOf(input({}), 'accept', [], paid(10n, 10n))).toEqual([]);
    expect(againstOf(input({}), 'accept', [], paid(11n, 10n))).toEqual(['11 EUR are released and 10 are due.']);
    expect(againstOf(input({}), 'accept', [], paid(11n, 10n, 0n, ''))).toEqual(['11 are released and 10 are due.']);
    expect(againstOf(input({}), 'accept', [], paid(12n, 10n, 2n))).toEqual([
      '12 EUR are released and 10 are due; the rest is for lines that the agreement does not know.',
    ]);
    expect(againstOf(input({}), 'accept', [], paid(13n, 10n, 2n))).toEqual(['13 EUR are released and 10 are due.']);
  });

  it('needs a reason and a second name, and less than is due a reason alone', () => {
    const lacking = (facts: Partial<DecisionInput>, against: readonly string[], of: Money = money) => lackingIn(input(facts), against, of);
    expect(lacking({}, ['So.'])).toEqual(['So.', 'This needs a reason (--reason TEXT) and a second name (--second NAME).']);
    expect(lacking({ reason: 'Urgent.', second: ' ' }, ['So.'])).toEqual(['So.', 'This needs a second name (--second NAME).']);
    expect(lacking({ reason: ' ', second: 'Teo' }, ['So.'])).toEqual(['So.', 'This needs a reason (--reason TEXT).']);
    expect(lacking({ reason: 'Urgent.', second: 'Teo' }, ['So.'])).toEqual([]);
    expect(lacking({ release: '9' }, [], paid(9n, 10n))).toEqual(['9 is less than the 10 that are due; say why with --reason.']);
    expect([
      lacking({ release: '10' }, [], paid(10n, 10n)),
      lacking({ release: '9', reason: 'Part.' }, [], paid(9n, 10n)),
      lacking({}, [], paid(0n, 10n)),
    ]).toEqual([[], [], []]);
  });
});
