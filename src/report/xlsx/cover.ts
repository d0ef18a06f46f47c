import type { Findings } from '../../model/findings.js';
import { bySeverity } from '../text/finding.js';
import { counted, DECISION_WORDS, forTheVendor, pagesInWords, whoActs } from '../words.js';

type Line = readonly [label: string, text: string];

const HOW_TO_READ: readonly string[] = [
  'The sheet "discrepancies" has one row for each thing to do, worst first. One row may stand for many frames with one cause. "your file" and "your frame" are the names and numbers of the delivery, "our frame" is the number in the library\'s record.',
  '"what is wrong" states the fact, "what to do" asks for one thing; both name frames by the number in the library\'s record. "in your files" says where and how to the letter, as far as it can be said, by your own numbers as they were delivered, before any of them is changed; what did not come is called "of the record". The sheet "all steps" has every step in a row of its own. "rescan" says whether film has to be scanned again, "who acts" whose turn it is.',
  'The reasons, other explanations and every place stand in report.html and, for programs, in discrepancies.xml and findings.json.',
];
const HOW_TO_ANSWER: readonly string[] = [
  'The vendor writes into "vendor answer", "fixed in delivery" (the number of the delivery) and "answered on" (a day such as 1999-12-31), and sends the workbook back. Rows may be sorted and filtered; the column "finding" ties an answer to its finding and must stay as it is.',
  'The library reads the answers with the option --answers, which takes this workbook as it came back. Nothing that is written here decides anything: what the library decides stands in a file of its own, rulings.xlsx.',
  'Every cell is text, so that page labels, numbers with zeros in front and old dates stay what they are. Paste as text only.',
];

/** The lines of the cover sheet: what was compared, with what result, and how the list is read and answered. */
export function coverLines(result: Findings): readonly Line[] {
  const { run, verdict, counts } = result;
  const listed = forTheVendor(result.findings);
  const severities = bySeverity(listed);
  const forVendor = listed.filter((finding) => whoActs(finding) === 'vendor').length;
  return [
    ['Discrepancies', "between what the vendor sent and the library's collation record"],
    ['Batch', run.batch],
    ['Delivery', String(run.delivery)],
    ['Received', run.received ?? 'not stated'],
    ...(run.reviewDay === undefined ? [] : [['The library decides by', run.reviewDay] as const]),
    ['Compared', run.at],
    ['Layout', run.profile],
    ['', ''],
    ['Verdict', DECISION_WORDS[verdict.decision]],
    ...labelled('Why', verdict.reasons),
    ['', ''],
    ['Rows in the list', `${String(listed.length)}${severities === '' ? '' : `: ${severities}`}`],
    ['For the vendor to do', String(forVendor)],
    ...labelled(
      'Titles',
      result.titles.map(({ id, name }) => (name === '' ? id : `${name} (${id})`)),
    ),
    ['Pages', pagesInWords(counts)],
    ...counts.reels.map(
      ({ reel, frames, returned, matched }): Line => [
        `Reel ${reel}`,
        `${counted(frames, 'frame')} in the record, ${String(returned)} in the return, ${String(matched)} matched`,
      ],
    ),
    ['', ''],
    ...labelled('How to read the list', HOW_TO_READ),
    ...labelled('How to answer it', HOW_TO_ANSWER),
  ];
}

/** Several texts under one label. */
function labelled(label: string, texts: readonly string[]): readonly Line[] {
  return texts.map((text, at) => [at === 0 ? label : '', text]);
}
