import type { Edit, How, What } from './edit.js';
import { FACTS } from './facts.js';
import type { Trace } from './shown.js';

type ByHow = Readonly<Partial<Record<How, readonly string[]>>> & { readonly all?: readonly string[] };

const all = (hows: readonly How[], codes: readonly string[]): ByHow => Object.fromEntries(hows.map((how) => [how, codes]));

/** Codes that name a slip of the vendor's rightly, by what was changed and how; `all` where it does not matter how. From the contract's table of codes. */
const OF_RETURN: Readonly<Record<What, ByHow>> = {
  number: {
    all: ['frame-number-wrong'],
    // the numbers of two pages exchanged are two pages that carry each other's place
    exchanged: ['frame-number-wrong', 'frames-reversed', 'halves-swapped', 'pages-swapped'],
    shifted: ['frame-number-wrong', 'frame-number-repeated'],
    constant: ['frame-number-repeated', 'frame-number-wrong'],
    // the number of the half before is the other letter
    repeated: ['frame-number-repeated', 'frame-number-wrong', 'halves-shifted'],
    // in the record they are numbers in each other's place: nothing was scanned backwards
    reversed: ['frames-reversed', 'halves-swapped', 'frame-number-wrong'],
  },
  reel: { all: ['reel-number-wrong'] },
  page: {
    all: ['page-number-differs'],
    shifted: ['page-number-differs', 'page-numbers-shifted'],
    repeated: ['page-number-differs', 'page-numbers-shifted'],
    // of two pages, and of three, backwards is two exchanged
    reversed: ['page-number-differs', 'pages-swapped'],
    // labels that were taken for places are all wrong by as much within an issue or a section
    exchanged: ['page-number-differs', 'pages-swapped', 'page-numbers-shifted'],
  },
  order: { all: ['page-order-differs'], exchanged: ['page-order-differs', 'pages-swapped'] },
  section: {
    all: ['section-differs'],
    missing: ['section-differs', 'sections-flattened'],
    constant: ['section-differs', 'sections-flattened'],
  },
  title: { all: ['title-differs'] },
  date: { all: ['date-differs'], repeated: ['date-differs', 'date-carried-over'], constant: ['date-differs', 'date-carried-over'] },
  datePrinted: {
    // one that stands where the agreement leaves printed dates out was not ordered, whatever it says
    all: ['printed-date-differs', 'printed-date-not-given', 'not-ordered'],
    other: ['printed-date-differs', 'not-ordered'],
    shifted: ['printed-date-differs', 'not-ordered'],
    missing: ['printed-date-not-given'],
  },
  edition: {
    all: ['edition-differs'],
    // of two issues of a day all of these are one exchange
    ...all(['exchanged', 'moved', 'reversed', 'repeated'], ['edition-differs', 'editions-swapped']),
  },
  editionLabel: { all: ['edition-label-differs'], exchanged: ['edition-label-differs', 'editions-swapped'] },
  volume: { all: ['volume-differs'] },
  issueNumber: { all: ['issue-number-differs'] },
  folderDate: { all: ['documents-disagree'] },
  folderEdition: { all: ['documents-disagree'] },
  manifestDate: { all: ['documents-disagree', 'manifest-disagrees'] },
  manifestEdition: { all: ['documents-disagree', 'manifest-disagrees'] },
  frame: { missing: ['frame-not-scanned'], repeated: ['frame-scanned-twice'] },
  delivery: {
    missing: ['page-not-delivered'],
    other: ['suppressed-frame-delivered', 'non-page-delivered', 'duplicate-delivered-as-page'],
    exchanged: ['wrong-take-delivered', 'delivery-inverted', 'retake-not-placed'],
    // a page that is described twice has one image under two pages, or came twice: both say to take one away
    repeated: ['same-image-twice', 'frame-scanned-twice'],
    moved: ['issue-boundary-moved'],
  },
  document: {
    missing: ['issue-not-delivered'],
    other: ['document-unreadable', 'file-missing', 'manifest-disagrees', 'issue-not-delivered'],
    repeated: ['issue-delivered-twice'],
    exchanged: ['date-differs', 'editions-swapped'],
    moved: ['reel-number-wrong', 'documents-disagree'],
    merged: ['issues-merged'],
    split: ['issue-split'],
  },
  file: { missing: ['file-missing'], repeated: ['same-image-twice'] },
  target: { missing: ['target-not-listed'] },
  absence: {
    missing: ['absence-not-stated'],
    other: ['absence-stated-wrongly'],
    moved: ['absence-stated-wrongly', 'absence-not-stated'],
    repeated: ['absence-stated-wrongly', 'page-not-delivered'],
  },
};

/** Slips of the record that show as something else than the same slip of the vendor's would: what is left out there is too much here. */
const OF_RECORD: Readonly<Partial<Record<What, ByHow>>> = {
  frame: {
    missing: ['frame-scanned-twice', 'page-not-in-collation', 'issue-not-in-collation'],
    repeated: ['frame-not-scanned', 'page-not-delivered'],
  },
  // what the record has and the paper has not is left out in the return, and shows as that
  section: { other: ['section-differs', 'sections-flattened'], repeated: ['section-differs', 'sections-flattened'] },
  datePrinted: { other: ['printed-date-differs', 'printed-date-not-given'] },
  delivery: {
    missing: ['suppressed-frame-delivered', 'page-not-in-collation'],
    other: ['page-not-delivered'],
  },
  // where the record gives two issues one name, the second has a wrong date there
  document: { merged: ['issue-split', 'date-differs'], split: ['issues-merged'] },
  absence: {
    missing: ['absence-stated-wrongly'],
    moved: ['absence-stated-wrongly', 'absence-not-stated'],
    repeated: ['absence-not-stated', 'suppressed-frame-delivered', 'page-not-in-collation'],
  },
};

/** The codes that are right for an edit. */
export function rightCodes({ what, how, scope, side }: Edit, traces: readonly Trace[]): readonly string[] {
  const mirrored = side === 'record' ? OF_RECORD[what]?.[how] : undefined;
  const own = mirrored ?? OF_RETURN[what][how] ?? OF_RETURN[what].all ?? [];
  // nothing of an issue was scanned: that may be said of the issue too
  const whole = what === 'frame' && how === 'missing' && side === 'return' && scope === 'issue' ? ['issue-not-delivered'] : [];
  // the numbers of two whole issues in the place of one another are two documents in the place of one another
  const issues = what === 'number' && how === 'exchanged' && scope === 'issue' ? ['date-differs'] : [];
  // frames that were captured again and held back are numbers under which nothing came, and as many may as well have been passed over
  const passed =
    what === 'frame' && how === 'repeated' && side === 'return' && traces.every(({ field }) => field === 'number')
      ? ['frame-number-wrong']
      : [];
  // numbers that are too high from the first frame on may as well come of a frame too many before it
  const before =
    what === 'number' && how === 'shifted' && ['reel', 'title', 'batch'].includes(scope)
      ? ['frame-scanned-twice', 'frame-not-scanned']
      : [];
  // a record that gives two issues one name has one issue there, which came as two
  const joined = side === 'record' && what in FACTS && traces.some(({ key, field }) => key.startsWith('page ') && field === 'document');
  // where all that is wrong is that a section is not given it is lost, however that came
  const flattened =
    what === 'section' && traces.length > 0 && traces.every(({ field, silent }) => silent || field === 'page')
      ? ['sections-flattened']
      : [];
  // of an issue that is not on the film nothing came but the statement that it is not
  const absent = traces.length > 0 && traces.every(({ key }) => key.startsWith('absent'));
  return [
    ...own,
    ...whole,
    ...issues,
    ...before,
    ...passed,
    ...flattened,
    ...(joined ? ['issue-split'] : []),
    ...(absent ? ['absence-stated-wrongly', 'absence-not-stated'] : []),
  ];
}
