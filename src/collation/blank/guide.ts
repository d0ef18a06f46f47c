import { RECORD_COLUMNS } from '../../catalogue/record-columns.js';
import type { BlankRecord } from '../../model/blank-record.js';
import { COMPANIONS } from '../../normalise/companion-sheets.js';
import { inSeries } from '../../normalise/in-series.js';
import type { BlankWish } from './wish.js';

type Lines = BlankRecord['guide'];

/** How the workbook is filled in, in words for somebody who sits at a film reader. `heads` are the columns of the sheet, `further` those that may be added. */
export function guideLines(
  { per, title, from, to, pages }: BlankWish,
  pattern: readonly string[],
  heads: readonly string[],
  further: readonly string[],
): Lines {
  const columns = RECORD_COLUMNS[per === 'issue' ? 'issue sheet' : 'frame sheet'];
  const described = heads.flatMap((head) => columns.find(({ name }) => name === head) ?? []);
  const usual = pages.length === 0 ? '' : ` An issue usually has ${inSeries(pages.map(String), 'or')} pages.`;
  return [
    [COMPANIONS.guide.first, ''],
    ['', ''],
    [
      'What it is for',
      'This record says what lies on the film, before it is scanned. What the scanning company sends back is held against it, frame by frame.',
    ],
    [
      'What is in it',
      `${title}, ${from} to ${to}: ${pattern.join('; ')}.${usual} Each issue that is to be expected has its ${per === 'issue' ? 'row' : 'rows'} already.`,
    ],
    ['', ''],
    ...(per === 'issue' ? OF_ISSUES : OF_FRAMES).map(([catchword, says]) => [catchword, says] as const),
    ['', ''],
    ...TO_ALL,
    ['', ''],
    ['The columns', 'What each column of the sheet holds; an example stands in brackets. Leave empty what you have nothing for.'],
    ...described.map(
      ({ name, means, example }) =>
        [
          name,
          `${means === '' ? '' : `${means[0]?.toUpperCase() ?? ''}${means.slice(1)}`}${example === '' ? '' : ` (${example})`}`,
        ] as const,
    ),
    ...(further.length === 0
      ? []
      : [['More columns', `Where you need them, add a column with one of these heads: ${further.join(', ')}.`] as const]),
  ];
}

const OF_ISSUES: Lines = [
  [
    'The issue is there',
    'Write what the camera saw into "pages", in the order of filming: 1-4. Choose it from the list of the cell or type it.',
  ],
  [
    '',
    'Write the number of the reel into "reel" where a reel begins, and the frame number of its first picture into "first frame". Below, both may stay empty: the frames count on.',
  ],
  [
    'The issue is not there',
    'Leave "pages" empty and answer "published": yes (it came out and is wanting), no (it did not come out) or unknown.',
  ],
  ['A page is not there', '1-4,[5],6-8: page 5 is not on the film. [5?] not known whether it was published, [5-] not published.'],
  [
    'A page was filmed twice',
    '1-3,x3,4: the second picture of page 3 is held back, not delivered. 1-3,d3,4: both are delivered, because each is torn elsewhere.',
  ],
  ['Wrong page number', '1-4,5(6),6-8: page 5 prints a 6. 1(-): nothing is printed.'],
  ['Pages of sections', 'A1-A4,B1-B4.'],
  [
    'No page at all',
    't is a target (a chart or a title card), _ a blank, v a spoilt picture: 1-4,_. Those that stand between two issues get a row of their own, with "pages" alone.',
  ],
  ['Numbers that jump', '1,@2A,2-7: page 1 lies alone, then two pages to a picture, 2A and 2B.'],
  [
    'One row too few',
    'A second edition, an extra, an issue on another day: insert a row and write its date. A second edition has 2 in "edition".',
  ],
  [
    'One row too many',
    'Two days in one issue: write the second day into "combined with" and delete the row of that day. A long gap: write its last day into "date to" of the first row, answer "published", and delete the other rows of the gap.',
  ],
];

const OF_FRAMES: Lines = [
  [
    'The page is there',
    'Write the frame number into "frame". The number of the reel goes into "reel" where a reel begins; below it may stay empty.',
  ],
  [
    'The page is not there',
    'Leave "frame" empty and answer "published": yes (it came out and is wanting), no (it did not come out) or unknown.',
  ],
  ['The issue is not there', 'Keep its first row, empty "page" and "order" in it, and answer "published". Delete its other rows.'],
  [
    'One row too few',
    'Insert a row for everything else on the film and give it its frame number: a page more, a blank, a target, a spoilt picture. "kind" says which it is; these have no date.',
  ],
  [
    'A page was filmed twice',
    'Insert a row for the second picture, with the same date and page, "deliver" no and the frame number of the first in "duplicate of". Where each is torn elsewhere "deliver" is yes, and both are delivered.',
  ],
  ['Wrong page number', '"page" is the page it ought to be, "page printed" what stands on the paper; - where nothing is printed.'],
  [
    'One row too many',
    'An issue with fewer pages: delete the rows of those that it never had. Two days in one issue: write the second day into "combined with" and delete the rows of that day.',
  ],
];

const TO_ALL: Lines = [
  [
    'Wrong date',
    '"date" is the day on which the issue really came out; the date on the paper, where it is another, goes into "date printed". "weekday of date" only helps to see a slip.',
  ],
  [
    'Cells stay text',
    'Every cell is text, so that 0012, 1-2 and days before 1900 stay what they are. Paste as text only. A day is written 1879-09-06.',
  ],
  [
    'The sheet calendar',
    'It colours itself: what is on the film, what is not, and what nobody has filled in yet. Nothing is written there.',
  ],
  [
    'Titles and reels',
    'The sheet titles says when the paper came out; add its name and language. Write each reel on a line of the sheet reels.',
  ],
  [
    'When it is done',
    'Save it as it is (XLSX or ODS) and run: reeltally collation check FILE. It reads the sheet and says what does not fit.',
  ],
];
