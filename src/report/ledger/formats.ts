import type { Ledger } from '../../model/ledger.js';
import { jsonText } from '../json.js';
import { deliveriesCsv, faultsCsv } from './csv.js';
import { ledgerText } from './text.js';

/** A way to write a ledger: the first file is the one that is printed. */
export interface LedgerFormat {
  readonly name: string;
  readonly files: readonly { readonly name: string; readonly render: (ledger: Ledger, width: number) => string }[];
}

/** Every format of a ledger; its name is the choice on the command line. */
export const LEDGER_FORMATS: readonly LedgerFormat[] = [
  { name: 'text', files: [{ name: 'ledger.txt', render: ledgerText }] },
  {
    name: 'csv',
    files: [
      { name: 'ledger.csv', render: deliveriesCsv },
      { name: 'ledger-faults.csv', render: faultsCsv },
    ],
  },
  { name: 'json', files: [{ name: 'ledger.json', render: (ledger) => jsonText(ledger) }] },
];
