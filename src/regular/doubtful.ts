import type { Doubtful } from '../model/record-problem.js';
import type { Code } from './item.js';

/** What each kind of problem leaves in doubt where the rule that finds it says nothing closer. A doubtful issue number excuses issue numbers, not a lost page. */
export const DOUBTFUL: Readonly<Record<Code, readonly Doubtful[]>> = {
  'date-impossible': ['date', 'edition'],
  'frame-numbers-broken': ['number', 'between'],
  'editions-unordered': ['edition'],
  'issue-contradicts-itself': ['title', 'date', 'edition', 'volume', 'issueNumber', 'page', 'order', 'section', 'documents'],
  'weekday-clash': ['date', 'edition'],
  'printed-date-misjudged': ['date', 'edition'],
  'gap-unexplained': ['absences', 'beside'],
  'pages-unaccounted': ['page', 'order', 'section', 'absences', 'beside'],
  'reels-overlap': ['delivered', 'documents'],
  'duplicate-unpaired': ['delivered', 'page', 'order'],
  'identifier-malformed': ['title'],
  'date-off-pattern': ['date', 'edition'],
  // A page more or less than usual may well be right, and which page it would be cannot be told.
  'page-count-unusual': [],
  'numbering-jumps': ['issueNumber'],
  'misprint-recurs': ['page'],
};
