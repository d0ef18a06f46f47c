/** A column of the sheets of a collation record. */
export interface RecordColumn {
  readonly name: string;
  /** What stands there, and what an empty cell means where it means something. */
  readonly means: string;
  readonly example: string;
}

const column = (name: string, means: string, example = ''): RecordColumn => ({ name, means, example });

/** Columns that a frame sheet and an issue sheet may both have. */
const SHARED: readonly RecordColumn[] = [
  column('reel', 'number of the carrier; may be left out where the file holds one reel', '00417'),
  column('title', 'identifier of the title; empty: the only one', 'sn99018200'),
  column('date', 'the real day of publication', '1879-09-06'),
  column('weekday of date', 'its weekday, to see a slip in the day; it is not a fact of the record', 'Saturday'),
  column('combined with', 'the second day of an issue that stands for two', '1879-09-07'),
  column('date to', 'of what is not on the film: the last day of the gap', '1879-10-04'),
  column('date printed', 'the date on the paper, where it is another', '1879-09-31'),
  column('date printed judged', 'whether the printed date is right, wrong or unclear', 'wrong'),
  column('judged by', 'who said so', 'A. Tarn'),
  column('weekday printed', 'the word on the paper', 'Saturday'),
  column('title printed', 'the title on the paper, where it is another', 'The Evening Lantern'),
  column('edition', '1 for the first of the day; empty: 1', '2'),
  column('edition label', 'the words on the paper', 'Late edition'),
  column('volume', 'as printed', 'XII'),
  column('issue number', 'as printed', '614'),
  column('issue number intended', 'the number that it should have, where the printed one is wrong', '615'),
  column('source reel', 'the reel that was spliced in here', '00398'),
  column('supplement', 'yes or no', 'yes'),
  column('published', 'of what is not on the film: yes, no or unknown', 'yes'),
  column('note', 'for yourself; it never leaves the house', 'torn out before filming'),
];

/** What a frame sheet has besides. */
const OF_FRAMES: readonly RecordColumn[] = [
  column('frame', 'frame number; empty: not on the film', '12A'),
  column('kind', 'page, blank, target, void or other; empty: page', 'blank'),
  column('deliver', 'yes, or no for what is held back; empty: yes for pages, no for the rest', 'no'),
  column('section', 'label of the section', 'B'),
  column('page', 'the page label that you want', '3'),
  column('page printed', 'the label on the paper, where it is another; - where none is printed', '5'),
  column('order', 'place of the page in its issue, 1, 2, 3 ...', '3'),
  column('duplicate of', 'the frame that shows the same page', '415'),
  column('retake of', 'the frame that was filmed again', '00398:12'),
  column('position', 'how the pictures lie on the film, from here on: 1A, 1B, 2A or 2B', '2A'),
  column('reduction', 'from here on', '15x'),
  column('condition', 'words with , or ; between them', 'torn; stained'),
];

/** What an issue sheet has besides. */
const OF_ISSUES: readonly RecordColumn[] = [
  column('first frame', 'frame number of the first that `pages` lists; empty: it follows the row before', '2'),
  column('pages', 'what the camera saw, in the order of filming', '1-4'),
  column('condition', 'damage by page; without a page, of every page of the row', '3: torn, stained; 4: faded'),
];

/** The sheet of titles. */
const OF_TITLES: readonly RecordColumn[] = [
  column('id', 'identifier of the title, as in the column `title`', 'sn99018200'),
  column('name', 'its name', 'The Tolmouth Lantern'),
  column('language', 'three letters of ISO 639-2', 'eng'),
  column('reading direction', 'ltr or rtl', 'ltr'),
  column('calendar', 'gregorian, or julian-until and a day', 'gregorian'),
  column('from', 'first day of this row', '1879-01-04'),
  column('to', 'last day of it', '1884-12-31'),
  column('days', 'weekdays on which it came out, or none', 'wed sat'),
  column('omitted', 'days without an issue, of every year or of one', '12-25 1880-02-14'),
  column('usual pages', 'how many pages an issue has', '4 8'),
  column('frequency', 'code of MARC 21, field 008/18', 'c'),
  column('regularity', 'as in MARC 21, field 853 $y', 'pw sa'),
];

/** The sheet of reels. */
const OF_REELS: readonly RecordColumn[] = [
  column('number', 'number of the carrier', '00417'),
  column('carrier', 'film or print', 'film'),
  column('position', 'how the pictures lie on the film', '1A'),
  column('film base', '', 'polyester'),
  column('polarity', '', 'negative'),
  column('generation', '', 'second'),
  column('reduction', '', '15x'),
  column('box label', 'what stands on the box', 'Lantern 1879'),
  column('notes', '', 'spliced at 812'),
];

/** The columns of each sheet, in the order in which they are told. */
export const RECORD_COLUMNS: Readonly<Record<'frame sheet' | 'issue sheet' | 'titles' | 'reels', readonly RecordColumn[]>> = {
  'frame sheet': [...OF_FRAMES, ...SHARED],
  'issue sheet': [...OF_ISSUES, ...SHARED],
  titles: OF_TITLES,
  reels: OF_REELS,
};
