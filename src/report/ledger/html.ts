import type { Ledger } from '../../model/ledger.js';
import { html, type Markup } from '../html/markup.js';
import { inShell } from '../html/shell.js';
import { bullets, facts, table } from '../html/table.js';
import { counted, DECISION_WORDS } from '../words.js';
import { type BatchState, monthsOf, statesOf } from './overview.js';
import { monthPictures, rateBar } from './pictures.js';
import { groupsOf, rateOf, VENDOR_HEADS, vendorFigures, vendorName } from './vendors.js';

/** So many batches of one kind are shown; ledger.xlsx has them all. */
const SHOWN = 25;
/** So many kinds of faults are shown. */
const KINDS = 20;

/** The ledger as one HTML file for whoever answers for the contract: what is open, overdue, owed, and how the vendors do. It needs no script. */
export function ledgerHtml(ledger: Ledger): string {
  const states = statesOf(ledger);
  const body = html`${overview(ledger, states)}${libraryPart(states)}${vendorPart(states)}${beside(ledger)}${months(ledger)}${kinds(ledger)}${money(ledger)}${leftOut(ledger)}`;
  const parts = [
    ['library', 'To be answered'],
    ['vendor', 'Waiting for the vendor'],
    ['beside', 'Vendors'],
    ['months', 'Months'],
    ['kinds', 'Kinds of faults'],
    ['money', 'Money'],
    ['left', 'Left out'],
  ] as const;
  return inShell({
    title: `Ledger of ${ledger.on}`,
    heading: 'Ledger of deliveries',
    about: `As it stood on ${ledger.on}`,
    skip: { id: 'library', words: 'To what is to be answered' },
    parts: parts.filter(([id]) => body.markup.includes(`<h2 id="${id}">`)),
    contents: 'Parts of the page',
    body,
    data: null,
  });
}

const ofMove = (states: readonly BatchState[], wanted: BatchState['move']): readonly BatchState[] =>
  states.filter(({ move }) => move === wanted);
const batches = (count: number): string => `${String(count)} ${count === 1 ? 'batch' : 'batches'}`;

function overview({ vendors }: Ledger, states: readonly BatchState[]): Markup {
  const library = ofMove(states, 'library');
  const overdue = library.filter(({ last }) => last.review.overdue > 0);
  const longest = overdue[0]?.last.review.overdue ?? 0;
  const sums = vendors.flatMap(({ money: all }) => all);
  const amounts = (of: (one: (typeof sums)[number]) => string): string =>
    sums.flatMap((one) => (/^[0.]*$/.test(of(one)) ? [] : [`${of(one)} ${one.currency}`])).join('; ') || 'nothing';
  return html`<section aria-label="At a glance">
${facts([
  ['Batches', `${String(states.length)} of ${counted(vendors.length, 'vendor')}`],
  ['To be answered', batches(library.length)],
  ['Overdue', overdue.length === 0 ? 'nothing' : `${batches(overdue.length)}, the longest by ${counted(longest, 'day')}`],
  ['Waiting for the vendor', batches(ofMove(states, 'vendor').length)],
  ['Accepted', batches(ofMove(states, 'nobody').length)],
  ...(sums.length === 0
    ? []
    : ([
        ['Due and not released', amounts(({ owed }) => owed)],
        ['Claimed back', amounts(({ credit }) => credit)],
      ] as const)),
])}</section>
`;
}

function libraryPart(states: readonly BatchState[]): Markup {
  const mine = ofMove(states, 'library');
  const rows = mine
    .slice(0, SHOWN)
    .map(({ vendor, batch, last, items, advice }) => [
      batch,
      vendorName(vendor),
      last.delivery,
      last.received ?? 'not known',
      last.review.due ?? 'not known',
      last.review.overdue === 0 ? '' : html`<strong>${counted(last.review.overdue, 'day')}</strong>`,
      DECISION_WORDS[advice],
      items,
    ]);
  return html`<section><h2 id="library">To be answered by the library (${mine.length})</h2>
${
  mine.length === 0
    ? html`<p>Every delivery is answered.</p>`
    : table(
        { caption: 'The longest overdue first, then by the last day for the answer', numbers: [2, 7] },
        ['Batch', 'vendor', 'delivery', 'received', 'answer due', 'overdue', 'the comparison says', 'open findings'],
        rows,
      )
}${more(mine.length)}</section>
`;
}

function vendorPart(states: readonly BatchState[]): Markup {
  const theirs = ofMove(states, 'vendor');
  return html`<section><h2 id="vendor">Waiting for the vendor (${theirs.length})</h2>
${
  theirs.length === 0
    ? html`<p>No delivery has to come again.</p>`
    : table(
        { caption: 'Sent back, or accepted with corrections that are still to come', numbers: [2, 5] },
        ['Batch', 'vendor', 'delivery', 'decided', 'on', 'open findings'],
        theirs
          .toSorted((a, b) => ((a.last.decision?.on ?? '') < (b.last.decision?.on ?? '') ? -1 : 1))
          .slice(0, SHOWN)
          .map(({ vendor, batch, last, items }) => {
            const is = last.decision?.decision;
            return [
              batch,
              vendorName(vendor),
              last.delivery,
              is === undefined || is === 'put-off' ? '' : DECISION_WORDS[is],
              last.decision?.on ?? '',
              items,
            ];
          }),
      )
}${more(theirs.length)}</section>
`;
}

const more = (count: number): Markup =>
  count > SHOWN ? html`<p>And ${count - SHOWN} more, which the sheet “open” of ledger.xlsx lists.</p>` : html``;

function beside(ledger: Ledger): Markup {
  const { vendors } = ledger;
  const groups = groupsOf(ledger);
  const columns = [null, ...groups];
  const most = Math.max(0, ...vendors.flatMap((vendor) => columns.map((group) => rateOf(vendor, group) ?? 0)));
  return html`<section><h2 id="beside">Vendor beside vendor</h2>
${table(
  { caption: 'How each vendor does', numbers: [1, 2, 3, 4, 5, 6] },
  ['Vendor', ...VENDOR_HEADS],
  vendors.map((vendor) => [vendorName(vendor.vendor), ...vendorFigures(vendor)]),
)}${table(
  { caption: 'Faults for each 1,000 pages in first deliveries, by kind', numbers: columns.map((_, at) => at + 1) },
  ['Vendor', 'all', ...groups],
  vendors.map((vendor) => [
    vendorName(vendor.vendor),
    ...columns.map((group) => {
      const rate = rateOf(vendor, group);
      return rate === null ? '–' : html`${rate.toFixed(2)} ${rateBar(rate, most)}`;
    }),
  ]),
)}<p class="quiet">A fault is a finding that counts and whose cause is not the film or the record; a bar is as long as its figure beside the highest of the table.</p></section>
`;
}

function months({ vendors }: Ledger): Markup {
  const all = vendors.map((vendor) => ({ name: vendorName(vendor.vendor), months: monthsOf(vendor) }));
  if (all.every(({ months: own }) => own.length === 0)) return html``;
  const named = [...new Set(all.flatMap(({ months: own }) => own.map(({ month }) => month)))].toSorted();
  const rows = named.map((month) => [
    month,
    ...all.map(({ months: own }) => {
      const found = own.find((one) => one.month === month);
      return found?.rate == null ? '–' : `${found.rate.toFixed(2)} (${counted(found.pages, 'page')})`;
    }),
  ]);
  return html`<section><h2 id="months">Month by month</h2>
<p>Faults for each 1,000 pages of the first deliveries that came in a month. All pictures have the same height for the same figure; a line is the mean of the vendor.</p>
${all.map(({ name, months: own }) =>
  monthPictures(
    name,
    own,
    all.flatMap((other) => other.months),
  ),
)}
<details><summary>The same in figures</summary>
${table(
  { caption: 'Faults for each 1,000 pages by month of receipt', numbers: all.map((_, at) => at + 1) },
  ['Month', ...all.map(({ name }) => name)],
  rows,
)}</details></section>
`;
}

function kinds(ledger: Ledger): Markup {
  const { vendors } = ledger;
  const codes = new Map<string, { readonly group: string; findings: number }>();
  for (const { faults } of vendors)
    for (const { code, group, findings } of faults) codes.set(code, { group, findings: (codes.get(code)?.findings ?? 0) + findings });
  const ordered = [...codes].toSorted(([a, x], [b, y]) => y.findings - x.findings || (a < b ? -1 : 1));
  if (ordered.length === 0) return html``;
  const rows = ordered.slice(0, KINDS).map(([code, { group, findings }]) => [
    code,
    group,
    findings,
    ...vendors.map(({ faults, pages }) => {
      const found = faults.find((fault) => fault.code === code);
      return pages === 0 ? '–' : (found?.perThousand ?? 0).toFixed(2);
    }),
  ]);
  return html`<section><h2 id="kinds">Kinds of faults</h2>
${table(
  {
    caption: 'In first deliveries, the commonest first: findings, and for each 1,000 pages of each vendor',
    numbers: [2, ...vendors.map((_, at) => at + 3)],
  },
  ['Code', 'group', 'findings', ...vendors.map(({ vendor }) => vendorName(vendor))],
  rows,
)}${ordered.length > KINDS ? html`<p>And ${ordered.length - KINDS} rarer kinds, which the sheet “faults” of ledger.xlsx lists.</p>` : ''}</section>
`;
}

function money({ vendors }: Ledger): Markup {
  const rows = vendors.flatMap(({ vendor, money: all }) =>
    all.map(({ currency, accounts, billed, due, released, owed, credit }) => [
      vendorName(vendor),
      currency,
      accounts,
      billed,
      due,
      released,
      owed,
      credit,
    ]),
  );
  return html`<section><h2 id="money">Money</h2>
${
  rows.length === 0
    ? html`<p>No account was given.</p>`
    : table(
        { caption: 'By the accounts of the orders, tax included', numbers: [2, 3, 4, 5, 6, 7] },
        ['Vendor', 'currency', 'orders', 'billed', 'due by decisions', 'released', 'due and not released', 'claimed back'],
        rows,
      )
}</section>
`;
}

function leftOut({ remarks }: Ledger): Markup {
  return remarks.length === 0 ? html`` : html`<section><h2 id="left">Left out</h2>\n${bullets(remarks)}</section>\n`;
}
