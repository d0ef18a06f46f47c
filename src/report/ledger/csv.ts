import type { Ledger, LedgerBatch, LedgerDelivery } from '../../model/ledger.js';
import { cell, sheet } from '../sheet.js';

type Column = readonly [head: string, value: (delivery: LedgerDelivery, batch: LedgerBatch) => string | number | null | undefined];

const yesNo = (value: boolean | null): string | null => (value === null ? null : value ? 'yes' : 'no');

const COLUMNS: readonly Column[] = [
  ['batch', (_, { batch }) => batch],
  ['named', ({ batch }) => batch],
  ['delivery', ({ delivery }) => delivery],
  ['received', ({ received }) => received],
  ['pages', ({ pages }) => pages],
  ['critical', ({ severities }) => severities.critical],
  ['major', ({ severities }) => severities.major],
  ['minor', ({ severities }) => severities.minor],
  ['note', ({ severities }) => severities.note],
  ['corrected', ({ since }) => since?.corrected],
  ['still open', ({ since }) => since?.open],
  ['new', ({ since }) => since?.new],
  ['not told', ({ since }) => since?.pending],
  ['verdict', ({ verdict }) => verdict],
  ['decision', ({ decision }) => decision?.decision],
  ['by', ({ decision }) => decision?.by],
  ['on', ({ decision }) => decision?.on],
  ['review due', ({ review }) => review.due],
  ['days used', ({ review }) => review.used],
  ['days agreed', ({ review }) => review.days],
  ['kind of days', ({ review }) => review.dayKind],
  ['in time', ({ review }) => yesNo(review.inTime)],
  ['spot checks', ({ samples }) => samples.length],
  ['spot checks accepted', ({ samples }) => samples.filter(({ accepted }) => accepted).length],
  ['result', ({ file }) => file],
];

/** A row for each delivery, the batches of a vendor in the order in which they came, below the heads. */
function deliveryTable(ledger: Ledger): readonly (readonly string[])[] {
  const rows = ledger.vendors.flatMap(({ vendor, batches }) =>
    batches.flatMap((batch) =>
      batch.deliveries.map((delivery) => [vendor, ...COLUMNS.map(([, value]) => String(value(delivery, batch) ?? ''))]),
    ),
  );
  return [['vendor', ...COLUMNS.map(([head]) => head)], ...rows];
}

/** A row for each code of each delivery, with its findings for each 1,000 pages, below the heads. */
function faultTable(ledger: Ledger): readonly (readonly string[])[] {
  const rows = ledger.vendors.flatMap(({ vendor, batches }) =>
    batches.flatMap(({ batch, deliveries }) =>
      deliveries.flatMap(({ delivery, pages, faults }) =>
        faults.map(({ group, code, findings, frames, perThousand }) =>
          [vendor, batch, delivery, pages, group, code, findings, frames, perThousand?.toFixed(2)].map((value) => String(value ?? '')),
        ),
      ),
    ),
  );
  return [['vendor', 'batch', 'delivery', 'pages', 'group', 'code', 'findings', 'frames affected', 'per 1,000 pages'], ...rows];
}

/** The table of the deliveries as CSV. UTF-8 text. */
export const deliveriesCsv = (ledger: Ledger): string => csvOf(deliveryTable(ledger));

/** The table of the faults as CSV. A rate is told with a point, and so guarded: some spreadsheets would take it for a date. UTF-8 text. */
export const faultsCsv = (ledger: Ledger): string => csvOf(faultTable(ledger));

const csvOf = ([heads = [], ...rows]: readonly (readonly string[])[]): string => sheet([heads, ...rows.map((row) => row.map(cell))]);
