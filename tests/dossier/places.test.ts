import { describe, expect, it } from 'vitest';
import {
  decisionFolder,
  deliveryFolder,
  drawFolder,
  FOLDERS,
  isPassing,
  layoutOf,
  runFolder,
  sentFolder,
} from '../../src/dossier/places.js';

/** The delivery of these names, where there is one. */
const delivery = (...names: readonly string[]) => layoutOf(names.map((name) => `delivery-2/${name}`)).deliveries[0];

describe('the names of folders', () => {
  it('have no number where there is one of a kind, as the help shows them', () => {
    expect(FOLDERS).toEqual(['record', 'sent', 'invoices', 'decisions']);
    expect([deliveryFolder(1), deliveryFolder(12)]).toEqual(['delivery-1', 'delivery-12']);
    expect([runFolder(1, 1), runFolder(1, 2)]).toEqual(['delivery-1', 'delivery-1/run-2']);
    expect([decisionFolder(2, 1), decisionFolder(2, 2)]).toEqual(['decisions/delivery-2', 'decisions/delivery-2-2']);
    expect([sentFolder(1), sentFolder(2)]).toEqual(['sent', 'sent/sent-2']);
    expect(drawFolder(2, 1)).toBe('delivery-2/spot/draw-1');
  });
});

describe('what lies where', () => {
  it('went with the film only if it lies in the folder of that', () => {
    expect(layoutOf(['agreement.json', 'record/sent.csv', 'sent/instructions.html', 'unsent/x.html', 'sent.html']).sent).toEqual([
      'sent/instructions.html',
    ]);
  });

  it('is nothing in an empty folder', () => {
    expect(layoutOf([])).toEqual({
      record: [],
      agreement: false,
      profile: false,
      account: false,
      sent: [],
      deliveries: [],
      invoices: [],
    });
  });

  it('is told of the folder of the dossier itself, not of one inside', () => {
    const layout = layoutOf([
      'agreement.json',
      'profile.json',
      'account.json',
      'record/frames.csv',
      'record/reels.csv',
      'notes/record/x.csv',
    ]);
    expect(layout).toMatchObject({ agreement: true, profile: true, account: true, record: ['record/frames.csv', 'record/reels.csv'] });
    expect(layoutOf(['sent/agreement.json', 'delivery-1/account.json', 'records.csv'])).toMatchObject({
      agreement: false,
      account: false,
      record: [],
    });
  });

  it('is in the order of the numbers, 10 behind 9', () => {
    const names = (prefix: string, suffix: string): readonly string[] =>
      [10, 9, 2, 1].map((number) => `${prefix}${String(number)}/${suffix}`);
    expect(layoutOf(names('delivery-', 'findings.json')).deliveries.map((place) => place.delivery)).toEqual([1, 2, 9, 10]);
    expect(layoutOf(names('invoices/invoice-', 'invoice.json')).invoices).toEqual(
      [1, 2, 9, 10].map((number) => `invoices/invoice-${String(number)}`),
    );
    expect(layoutOf([...names('sent/sent-', 'instructions.html'), 'sent/instructions.html']).sent).toEqual([
      'sent/sent-1/instructions.html',
      'sent/instructions.html',
      'sent/sent-2/instructions.html',
      'sent/sent-9/instructions.html',
      'sent/sent-10/instructions.html',
    ]);
    expect(delivery(...names('run-', 'findings.json'))?.runs.map(({ run }) => run)).toEqual([1, 2, 9, 10]);
    expect(delivery(...names('spot/draw-', 'draw.json'))?.draws.map(({ folder }) => folder)).toEqual(
      [1, 2, 9, 10].map((number) => `delivery-2/spot/draw-${String(number)}`),
    );
  });

  it('heeds no number that the program does not write', () => {
    expect(
      layoutOf(['delivery-0/findings.json', 'delivery-01/findings.json', 'delivery-12345/findings.json', 'delivery-/x', 'delivery-1'])
        .deliveries,
    ).toEqual([]);
    expect(layoutOf(['my-delivery-1/findings.json', 'old/delivery-1/findings.json']).deliveries).toEqual([]);
    expect(delivery('run-0/findings.json', 'old/run-2/findings.json', 'findings.json.bak')?.runs).toEqual([]);
  });

  it('is of the delivery alone that is asked for', () => {
    const [first, second] = layoutOf([
      'delivery-1/findings.json',
      'delivery-1/rulings.json',
      'delivery-2/answers.csv',
      'decisions/delivery-1/decision.json',
      'decisions/delivery-1-2/decision.json',
      'decisions/delivery-1/decision.txt',
    ]).deliveries;
    expect(first).toMatchObject({
      rulings: ['delivery-1/rulings.json'],
      answers: [],
      decisions: ['decisions/delivery-1', 'decisions/delivery-1-2'],
    });
    expect(first?.runs).toEqual([{ run: 1, folder: 'delivery-1' }]);
    expect(second).toMatchObject({ runs: [], rulings: [], answers: ['delivery-2/answers.csv'], decisions: [] });
    expect(
      layoutOf(['delivery-1/findings.json', 'x/decisions/delivery-1/decision.json', 'decisions/delivery-1/x/decision.json']).deliveries[0]
        ?.decisions,
    ).toEqual([]);
  });

  it('is no invoice without its result', () => {
    expect(
      layoutOf(['invoices/invoice-1/invoice-1.csv', 'invoices/invoice.json', 'old/invoices/a/invoice.json', 'invoices/a/b/invoice.json'])
        .invoices,
    ).toEqual([]);
  });
});

describe('files that people put into the folder of a delivery', () => {
  it.each([
    'rulings.json',
    'rulings.csv',
    'rulings.tsv',
    'rulings.xlsx',
    'rulings.ods',
    'Rulings.XLSX',
    'rulings from Teo.csv',
    'run-2/rulings.xlsx',
  ])('are rulings: %s', (name) => {
    expect(delivery(name)).toMatchObject({ rulings: [`delivery-2/${name}`], answers: [] });
  });

  it.each([
    'answers.xlsx',
    'answers.csv',
    'answers.tsv',
    'answers.ods',
    'Answers of Skerry.xlsx',
    'discrepancies answered.csv',
    'run-3/answers.csv',
  ])('are answers: %s', (name) => {
    expect(delivery(name)).toMatchObject({ rulings: [], answers: [`delivery-2/${name}`] });
  });

  it.each([
    'discrepancies.csv',
    'discrepancies.xlsx',
    'answers.docx',
    'rulings.txt',
    'rulings.json.bak',
    'answers.csv~',
    'old rulings.csv',
    'our answers.csv',
    'spot/rulings.csv',
    'run-2/more/answers.csv',
    'run-0/rulings.json',
  ])('are neither: %s', (name) => {
    expect(delivery(name)).toMatchObject({ rulings: [], answers: [] });
  });

  it.each(['~$rulings.xlsx', '.~lock.rulings.xlsx#', 'x/.cache/rulings.json', 'Thumbs.db', 'run-2/desktop.ini', 'THUMBS.DB'])(
    'are none that a program leaves for itself: %s',
    (name) => {
      expect(isPassing(name)).toBe(true);
      expect(layoutOf([`record/${name}`]).record).toEqual([]);
    },
  );

  it.each(['rulings.xlsx', 'a~$b.xlsx', 'frames.csv', 'Thumbs.db.csv', 'my desktop.ini'])('are kept: %s', (name) => {
    expect(isPassing(name)).toBe(false);
  });
});

describe('a spot check', () => {
  it('is fixed while it has a plan and no draw', () => {
    const place = delivery('spot/draw-1/plan.json', 'spot/draw-1/list.txt');
    expect(place?.fixed).toEqual([{ folder: 'delivery-2/spot/draw-1', throwFolder: 'delivery-2/spot/draw-1' }]);
    expect(place?.draws).toEqual([]);
  });

  it('is drawn, then judged, with its worksheets', () => {
    const drawn = [
      'spot/draw-1/plan.json',
      'spot/draw-1/draw.json',
      'spot/draw-1/worksheet.csv',
      'spot/draw-1/worksheet of Teo.xlsx',
      'spot/draw-1/my worksheet.csv',
    ];
    const folder = 'delivery-2/spot/draw-1';
    const worksheets = [`${folder}/worksheet.csv`, `${folder}/worksheet of Teo.xlsx`];
    expect(delivery(...drawn)).toMatchObject({ fixed: [], draws: [{ folder, throwFolder: folder, worksheets, judged: false }] });
    expect(delivery(...drawn, 'spot/draw-1/sample.json')?.draws).toEqual([{ folder, throwFolder: folder, worksheets, judged: true }]);
  });

  it('of several lots has a folder for each, and the worksheets in that of the throw', () => {
    const place = delivery(
      'spot/draw-2/worksheet.csv',
      'spot/draw-2/reel-00418/draw.json',
      'spot/draw-2/reel-00417/draw.json',
      'spot/draw-2/reel-00417/sample.json',
      'spot/draw-2/reel-00419/plan.json',
    );
    const throwFolder = 'delivery-2/spot/draw-2';
    const worksheets = [`${throwFolder}/worksheet.csv`];
    expect(place?.draws).toEqual([
      { folder: `${throwFolder}/reel-00417`, throwFolder, worksheets, judged: true },
      { folder: `${throwFolder}/reel-00418`, throwFolder, worksheets, judged: false },
    ]);
    expect(place?.fixed).toEqual([{ folder: `${throwFolder}/reel-00419`, throwFolder }]);
  });

  it('is nothing deeper than that, and nothing elsewhere', () => {
    expect(delivery('spot/draw-1/a/b/draw.json', 'draw-1/draw.json', 'x/spot/draw-1/draw.json', 'spot/draw-0/draw.json')).toMatchObject({
      draws: [],
      fixed: [],
    });
  });
});
