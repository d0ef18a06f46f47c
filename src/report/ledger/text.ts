import type { Ledger, LedgerBatch, LedgerDelivery, LedgerFault, LedgerVendor } from '../../model/ledger.js';
import { table, wrap } from '../text/wrap.js';
import { short } from '../visible.js';
import { counted, DECISION_WORDS } from '../words.js';

const NAME = 40;
const SENTENCE = 300;
/** So many open items are listed of a batch; the JSON has them all. */
const ITEMS = 12;

/** The ledger for people: for each vendor the deliveries of each batch, what is still open, and the faults over time. */
export function ledgerText(ledger: Ledger, width: number): string {
  const blocks = ledger.vendors.map((vendor) => vendorLines(vendor, width).join('\n'));
  const left = ledger.remarks.flatMap((remark) => wrap(short(remark, SENTENCE), width, '  - ', '    '));
  return `${[...blocks, ...(left.length === 0 ? [] : [['Left out', '', ...left].join('\n')])].join('\n\n\n')}\n`;
}

function vendorLines(vendor: LedgerVendor, width: number): readonly string[] {
  const { batches, lots } = vendor;
  const deliveries = batches.reduce((sum, batch) => sum + batch.deliveries.length, 0);
  const counts = `${counted(batches.length, 'batch').replace(/batchs$/, 'batches')}, ${String(deliveries)} ${deliveries === 1 ? 'delivery' : 'deliveries'}`;
  const passed = lots.filter(({ accepted }) => accepted).length;
  const series = lots.map(({ lot, batch, accepted }) => `${lot === '' ? batch : lot} ${accepted ? 'accepted' : 'not accepted'}`);
  return [
    ...wrap(`${vendor.vendor === '' ? 'A vendor that the agreements do not name' : short(vendor.vendor, 80)}: ${counts}`, width),
    ...batches.flatMap((batch) => ['', ...batchLines(batch, width)]),
    '',
    ...wrap('Faults for each 1,000 pages in first deliveries: findings that count and whose cause is not the film or the record', width),
    '',
    ...overTime(vendor),
    ...(vendor.faults.length === 0 ? [] : ['', ...byCode(vendor.faults)]),
    ...(lots.length === 0
      ? []
      : [
          '',
          ...wrap(
            short(
              `Lots by spot check, first deliveries: ${String(passed)} of ${String(lots.length)} accepted (${series.join(', ')}).`,
              600,
            ),
            width,
          ),
        ]),
  ];
}

function batchLines({ batch, deliveries, items }: LedgerBatch, width: number): readonly string[] {
  const head = ['Delivery', 'pages', 'critical', 'major', 'minor', 'note', 'corrected', 'open', 'new', 'not told'];
  const rows = deliveries.map(({ delivery, pages, severities, since }) =>
    [
      delivery,
      pages,
      severities.critical,
      severities.major,
      severities.minor,
      severities.note,
      since?.corrected ?? '-',
      since?.open ?? '-',
      since?.new ?? '-',
      since?.pending ?? '-',
    ].map(String),
  );
  const more = items.length - ITEMS;
  return [
    `Batch ${short(batch, 2 * NAME)}`,
    '',
    ...table([head, ...rows], new Set(head.keys())),
    '',
    ...deliveries.flatMap((delivery) => wrap(deliveryInWords(delivery), width, '  - ', '    ')),
    '',
    items.length === 0
      ? '  Nothing is open.'
      : `  Open after delivery ${String(deliveries.at(-1)?.delivery ?? 0)}: ${counted(items.length, 'item')}`,
    ...items
      .slice(0, ITEMS)
      .flatMap(({ severity, says, since, state, id }) =>
        wrap(
          `${severity}, since delivery ${String(since)}${state === 'pending' ? ', not seen again' : ''}: ${short(says, SENTENCE)} (${short(id, 80)})`,
          width,
          '  - ',
          '    ',
        ),
      ),
    ...(more > 0 ? [`  - and ${String(more)} more`] : []),
  ];
}

/** `Delivery 1, received 2031-03-01: advised return for rework; decided ... on day 9 of 21`. */
function deliveryInWords({ delivery, received, verdict, decision, review, samples }: LedgerDelivery): string {
  const came = received === null ? '' : `, received ${short(received, NAME)}`;
  const term = `${String(review.days)} ${review.dayKind === 'working' ? 'working' : 'calendar'} days`;
  const due = review.due === null ? `${term} of review; the day of receipt is not known` : `${term} of review, up to ${review.due}`;
  const decided =
    decision === null
      ? `not decided yet (${due})`
      : `${decision.decision === 'put-off' ? 'put off' : `decided ${DECISION_WORDS[decision.decision].toLowerCase()}`} by ${short(decision.by, NAME)} on ${decision.on}` +
        (review.used === null ? ` (${due})` : `, ${review.inTime === false ? 'late, ' : ''}${String(review.used)} of ${term} used`);
  const accepted = samples.filter((sample) => sample.accepted).length;
  const looked = samples.reduce((sum, sample) => sum + sample.drawn, 0);
  const wrong = samples.reduce((sum, sample) => sum + sample.wrong, 0);
  const checks =
    samples.length === 0
      ? ''
      : ` Spot check: ${String(accepted)} of ${counted(samples.length, 'lot')} accepted, ${String(wrong)} of ${String(looked)} looked at not as ordered.`;
  return `Delivery ${String(delivery)}${came}: the comparison says ${DECISION_WORDS[verdict].toLowerCase()}; ${decided}.${checks}`;
}

/** A row for each batch in the order in which they came, a column for each group of codes. */
function overTime({ batches, pages, faults }: LedgerVendor): readonly string[] {
  const groups = [...new Set(faults.map(({ group }) => group))];
  const firsts = batches.flatMap(({ batch, deliveries }) =>
    deliveries.filter(({ delivery }) => delivery === 1).map((one) => ({ ...one, batch })),
  );
  if (firsts.length === 0) return ['  No result of a first delivery was given.'];
  const rates = (list: readonly LedgerFault[], of: number): readonly string[] =>
    [null, ...groups].map((group) =>
      rate(
        list.filter((fault) => group === null || fault.group === group),
        of,
      ),
    );
  const rows = firsts.map((one) => [short(one.batch, NAME), String(one.pages), ...rates(one.faults, one.pages)]);
  const all = rows.length < 2 ? [] : [['all', String(pages), ...rates(faults, pages)]];
  const head = ['Batch', 'pages', 'all', ...groups];
  return table([head, ...rows, ...all], new Set([...head.keys()].slice(1)));
}

function byCode(faults: readonly LedgerFault[]): readonly string[] {
  const rows = faults.map(({ group, code, findings, frames, perThousand }) => [
    short(group, NAME),
    short(code, NAME),
    String(findings),
    String(frames),
    perThousand?.toFixed(2) ?? '-',
  ]);
  return table([['Group', 'code', 'findings', 'frames', 'per 1,000 pages'], ...rows], new Set([2, 3, 4]));
}

function rate(faults: readonly LedgerFault[], pages: number): string {
  const findings = faults.reduce((sum, fault) => sum + fault.findings, 0);
  return pages === 0 ? '-' : ((findings * 1000) / pages).toFixed(2);
}
