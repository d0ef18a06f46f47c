import { describe, expect, it } from 'vitest';
import { nextMove } from '../../src/dossier/next-move.js';
import type { DecidedState, DeliveryState, DossierState, MoneyState, SpotState } from '../../src/model/dossier.js';

const noSpot: SpotState = { lots: 0, fixed: false, drawn: 0, judged: 0, rejected: 0 };
const delivered: DeliveryState = {
  delivery: 2,
  batch: 'batch_vzx_tolmouth',
  received: '2031-03-03',
  due: '2031-03-24',
  days: 21,
  dayKind: 'calendar',
  advice: 'accept',
  folder: 'delivery-2/run-3',
  open: 0,
  toRule: 0,
  unmade: 0,
  spot: noSpot,
  unread: [],
  decision: null,
};
const order: DossierState = {
  order: 'tolmouth',
  library: '',
  vendor: '',
  today: '2031-03-10',
  record: 'understood',
  sent: true,
  deliveries: [],
  money: null,
};
const decided = (decision: DecidedState['decision']): DecidedState => ({ decision, by: 'Ilse Marrow', on: '2031-03-09' });
const paid: MoneyState = { currency: 'EUR', billed: '35.13', released: '34.49', owed: '', credit: '' };
const after = (delivery: Partial<DeliveryState>, more: Partial<DossierState> = {}) =>
  nextMove({ ...order, deliveries: [{ ...delivered, ...delivery }], ...more });

describe('before the drive comes', () => {
  const base = { by: null, overdue: 0 };

  it('the record is to be laid there, then to be understood', () => {
    expect(nextMove({ ...order, record: 'none' })).toEqual({
      ...base,
      move: 'library',
      first: 'Put the collation record into the folder record.',
      command: 'reeltally collation check',
    });
    expect(nextMove({ ...order, record: 'not understood' })).toMatchObject({
      ...base,
      move: 'library',
      command: 'reeltally collation read',
    });
  });

  it('the vendor has the film; what should have gone with it is named as long as it has not', () => {
    const waiting = 'When the drive has come, connect it and name its folder.';
    expect(nextMove(order)).toEqual({ ...base, move: 'vendor', first: waiting, command: 'reeltally verify --batch DIR' });
    const { first } = nextMove({ ...order, sent: false });
    expect(first).toMatch(/^As long as the film is here: .*collation instructions.* When the drive has come/);
  });
});

describe('a delivery that nobody has decided about', () => {
  it('is answered by the last review day, which is not overdue on that day', () => {
    expect(after({})).toEqual({
      move: 'library',
      by: '2031-03-24',
      overdue: 0,
      first: '',
      command: 'reeltally decide --delivery-decision accept --by NAME --on 2031-03-10',
    });
    expect(after({}, { today: '2031-03-24' }).overdue).toBe(0);
    expect(after({}, { today: '2031-03-25' }).overdue).toBe(1);
    expect(after({}, { today: '2031-04-24' }).overdue).toBe(31);
  });

  it.each(['put-off', 'cannot-decide'] as const)('is still to be answered where the decision is %s', (decision) => {
    expect(after({ decision: decided(decision) })).toMatchObject({ move: 'library', by: '2031-03-24' });
  });

  it('is verified anew before anything else where people have brought something', () => {
    expect(after({ unread: ['delivery-2/rulings.json', 'delivery-2/answers.csv'], advice: 'cannot-decide' })).toMatchObject({
      first: 'Take in what is new or changed: delivery-2/rulings.json, delivery-2/answers.csv.',
      command: 'reeltally verify',
    });
  });

  it('that cannot be decided is ruled about, or its checks are made', () => {
    expect(after({ advice: 'cannot-decide', toRule: 1 })).toMatchObject({
      first: 'Look at the film, decide in delivery-2/run-3/report.html, and save rulings.json into delivery-2.',
      command: 'reeltally verify',
    });
    expect(after({ advice: 'cannot-decide', unmade: 1 })).toMatchObject({
      first: 'Supply what the required checks need: delivery-2/run-3/summary.txt names them under "Not checked".',
      command: 'reeltally verify',
    });
  });

  it('that is to be returned is returned without a spot check', () => {
    const returned = {
      first: 'Read delivery-2/run-3/report.html.',
      command: 'reeltally decide --delivery-decision return-for-rework --by NAME --on 2031-03-10',
    };
    expect(after({ advice: 'return-for-rework', spot: { ...noSpot, lots: 1 } })).toMatchObject(returned);
    expect(after({ advice: 'return-for-rework', toRule: 2 })).toMatchObject({
      first:
        'Read delivery-2/run-3/report.html, and rule first on 2 findings where the record is likelier wrong or in doubt: save rulings.json into delivery-2 and verify again.',
      command: returned.command,
    });
    // a lot that failed the spot check overrules what the comparison advises
    expect(after({ advice: 'accept', spot: { lots: 2, fixed: true, drawn: 1, judged: 1, rejected: 1 } })).toMatchObject({
      first: "Read sample.txt in the rejected lot's folder in delivery-2/spot.",
      command: returned.command,
    });
  });

  it('that is to be accepted is looked at first: fixed, thrown, drawn, judged, decided', () => {
    const { command: fix } = after({ spot: { ...noSpot, lots: 2 } });
    expect(fix).toBe('reeltally sample draw --fix');
    expect(after({ spot: { ...noSpot, lots: 2, fixed: true } })).toMatchObject({
      first: 'Throw dice for at least 24 digits.',
      command: 'reeltally sample draw --seed DIGITS',
    });
    expect(after({ spot: { ...noSpot, lots: 2, drawn: 1, judged: 1 } }).command).toBe(fix);
    expect(after({ spot: { ...noSpot, lots: 2, drawn: 2, judged: 1 } })).toMatchObject({
      first: 'Look at the pages and fill in a worksheet in delivery-2/spot.',
      command: 'reeltally sample judge --by NAME',
    });
    expect(after({ spot: { ...noSpot, lots: 2, drawn: 2, judged: 2 } })).toMatchObject({
      first: '',
      command: 'reeltally decide --delivery-decision accept --by NAME --on 2031-03-10',
    });
  });

  it('counts by the newest, whatever came of those before', () => {
    const deliveries = [{ ...delivered, delivery: 1, decision: decided('return-for-rework') }, delivered];
    expect(nextMove({ ...order, deliveries })).toMatchObject({ move: 'library', by: '2031-03-24' });
  });
});

describe('a delivery that was returned', () => {
  const returned = { decision: decided('return-for-rework') };

  it("is the vendor's, with the list of what to correct", () => {
    expect(after(returned)).toEqual({
      move: 'vendor',
      by: null,
      overdue: 0,
      first: 'Send the vendor discrepancies.xlsx from delivery-2/run-3; delivery 3 must come.',
      command: 'reeltally verify --batch DIR',
    });
  });

  it('goes with the list of images where a lot failed, and takes late answers with the next', () => {
    const failed = { ...returned, spot: { ...noSpot, lots: 1, drawn: 1, judged: 1, rejected: 1 } };
    expect(after({ ...failed, open: 3, unread: ['delivery-2/answers.csv', 'delivery-2/rulings.csv'] }).first).toBe(
      "Send the vendor discrepancies.xlsx from delivery-2/run-3, and images-to-correct.xlsx from the rejected lot's folder in delivery-2/spot; delivery 3 must come. delivery-2/answers.csv, delivery-2/rulings.csv will be read with it.",
    );
    // a list without a row is not sent
    expect(after({ ...failed, open: 0 }).first).toBe(
      "Send the vendor images-to-correct.xlsx from the rejected lot's folder in delivery-2/spot; delivery 3 must come.",
    );
  });

  it('may leave something to be paid, which is for the library to do', () => {
    expect(after(returned, { money: { ...paid, owed: '4.00' } })).toEqual({
      move: 'library',
      by: null,
      overdue: 0,
      first: 'Send the vendor discrepancies.xlsx from delivery-2/run-3; delivery 3 must come. Pay what is due and not released: 4.00 EUR.',
      command: 'reeltally decide --delivery-decision return-for-rework --release 4.00 --by NAME --on 2031-03-10',
    });
  });
});

describe('a delivery that was accepted', () => {
  const accepted = { decision: decided('accept') };
  const base = { by: null, overdue: 0 };

  it('waits for the invoice', () => {
    expect(after(accepted)).toEqual({
      ...base,
      move: 'vendor',
      first: 'When the invoice has come, name its file.',
      command: 'reeltally invoice FILE',
    });
  });

  it('waits for the note of a credit before anything is paid', () => {
    expect(after(accepted, { money: { ...paid, owed: '1.00', credit: '2.50' } })).toEqual({
      ...base,
      move: 'vendor',
      first: 'A credit of 2.50 is claimed; when its note has come, name its file.',
      command: 'reeltally invoice FILE',
    });
  });

  it('is paid as far as something is due', () => {
    expect(after(accepted, { money: { ...paid, owed: '14.49', currency: '' } })).toEqual({
      ...base,
      move: 'library',
      first: 'Pay what is due and not released: 14.49.',
      command: 'reeltally decide --delivery-decision accept --release 14.49 --by NAME --on 2031-03-10',
    });
  });

  it('is done where nothing is due', () => {
    expect(after(accepted, { money: paid })).toEqual({
      ...base,
      move: 'nobody',
      first: 'Everything that is due is paid. Keep the dossier with the film.',
      command: 'reeltally audit',
    });
  });
});
