import type { Ledger } from '../../model/ledger.js';
import { short } from '../visible.js';
import { DECISION_WORDS } from '../words.js';
import { writeTables } from '../xlsx/tables.js';
import { monthsOf, statesOf } from './overview.js';
import { groupsOf, VENDOR_HEADS, vendorFigures, vendorName } from './vendors.js';

const MOVES = { library: 'the library', vendor: 'the vendor', nobody: '' } as const;

/** The ledger as a workbook: every batch that is open with whose move it is, the vendors, months, money and faults, a sheet for each. */
export async function ledgerXlsx(ledger: Ledger): Promise<Uint8Array> {
  const { vendors } = ledger;
  const open = statesOf(ledger).filter(({ move }) => move !== 'nobody');
  const states = open.map(({ vendor, batch, move, last, items, advice }) => [
    vendorName(vendor),
    batch,
    MOVES[move],
    String(last.delivery),
    last.received ?? '',
    last.review.due ?? '',
    last.review.overdue === 0 ? '' : String(last.review.overdue),
    DECISION_WORDS[advice],
    last.decision?.decision ?? '',
    last.decision?.on ?? '',
    String(items),
  ]);
  const groups = groupsOf(ledger);
  const figures = vendors.map((vendor) => {
    const rate = (group: string | null): string =>
      vendor.pages === 0
        ? ''
        : (
            (vendor.faults.filter((fault) => group === null || fault.group === group).reduce((sum, { findings }) => sum + findings, 0) *
              1000) /
            vendor.pages
          ).toFixed(2);
    return [vendorName(vendor.vendor), ...vendorFigures(vendor), rate(null), ...groups.map(rate)];
  });
  const months = vendors.flatMap((vendor) =>
    monthsOf(vendor).map(({ month, batches, pages, findings, rate }) => [
      vendorName(vendor.vendor),
      month,
      String(batches),
      String(pages),
      String(findings),
      rate?.toFixed(2) ?? '',
    ]),
  );
  const money = vendors.flatMap(({ vendor, money: all }) =>
    all.map(({ currency, accounts, billed, due, released, owed, credit }) => [
      vendorName(vendor),
      currency,
      String(accounts),
      ...[billed, due, released, owed, credit],
    ]),
  );
  // of first deliveries; every delivery by itself is in ledger.csv and ledger-faults.csv, which are too long for a workbook of years
  const faults = vendors.flatMap(({ vendor, faults: all }) =>
    all.map(({ group, code, findings, frames, perThousand }) => [
      vendorName(vendor),
      group,
      code,
      String(findings),
      String(frames),
      perThousand?.toFixed(2) ?? '',
    ]),
  );
  const batchHeads = [
    'vendor',
    'batch',
    'move',
    'delivery',
    'received',
    'answer due',
    'days overdue',
    'the comparison says',
    'decided',
    'on',
    'open findings',
  ];
  const moneyHeads = ['vendor', 'currency', 'orders', 'billed', 'due by decisions', 'released', 'due and not released', 'claimed back'];
  const tables = [
    { name: 'open', heads: batchHeads, rows: states },
    { name: 'vendors', heads: ['vendor', ...VENDOR_HEADS, 'faults per 1,000 pages', ...groups], rows: figures },
    { name: 'months', heads: ['vendor', 'month', 'batches', 'pages', 'findings', 'per 1,000 pages'], rows: months },
    { name: 'money', heads: moneyHeads, rows: money },
    { name: 'faults', heads: ['vendor', 'group', 'code', 'findings', 'frames affected', 'per 1,000 pages'], rows: faults },
  ];
  // what a name from a file would do to a cell is made visible, as everywhere
  const told = (text: string): string => short(text, 32_000);
  return writeTables(tables.map(({ name, heads, rows }) => ({ name, heads: heads.map(told), rows: rows.map((row) => row.map(told)) })));
}
