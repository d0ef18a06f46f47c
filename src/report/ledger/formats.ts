import type { Ledger } from '../../model/ledger.js';
import type { Report } from '../formats.js';
import { jsonPieces } from '../json.js';
import { deliveriesCsv, faultsCsv } from './csv.js';
import { ledgerText } from './text.js';

/** A way to write a ledger: the first file is the one that is printed. What a format needs of libraries is loaded when it is written, after the results were read. */
export interface LedgerFormat {
  readonly name: string;
  readonly files: readonly {
    readonly name: string;
    /** Text, bytes, or text in pieces where it is long. */
    readonly render: (ledger: Ledger, width: number) => Report | Iterable<string> | Promise<Report>;
  }[];
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
  { name: 'html', files: [{ name: 'ledger.html', render: async (ledger) => (await import('./html.js')).ledgerHtml(ledger) }] },
  { name: 'xlsx', files: [{ name: 'ledger.xlsx', render: async (ledger) => (await import('./xlsx.js')).ledgerXlsx(ledger) }] },
  { name: 'json', files: [{ name: 'ledger.json', render: jsonPieces }] },
];
