import type { Findings } from '../model/findings.js';

/** Keys in the order of the published schema, the whole file from top to bottom; keys it does not know follow by code unit. */
const KEY_ORDER = [
  'format tool run agreement verdict counts titles reels findings corrected unchecked catalogue',
  'role at received batch delivery profile inputs remarks',
  'library vendor policies tolerances severities required terms sampling columns',
  'pageNumber unnumberedPage printedDate absentPages absentIssues frameNumbers targets editionOrder splitExposures reelNumber files redelivery',
  'majorShare minorShare reviewDays reviewDayKind holidays currency rounding classes',
  'decision reasons',
  'id name version sha256 code group severity cause reel number frame returned returnedKind state kind deliver absent matched unmatched',
  'pagesReturned pagesMatched pagesUnmatched differences kinds class record accepted disputed',
  'frames count title date edition section page order field collation return says why instruction',
  'evidence alternatives corrections places rescan billable status ruling answer',
]
  .join(' ')
  .split(' ');

const RANK: ReadonlyMap<string, number> = new Map(KEY_ORDER.map((key, index) => [key, index]));

const byRank = (a: string, b: string): number => {
  const difference = (RANK.get(a) ?? RANK.size) - (RANK.get(b) ?? RANK.size);
  return difference !== 0 ? difference : a < b ? -1 : 1;
};

/** The same value with the keys of every object in one order. */
function ordered(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(ordered);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => byRank(a, b))
      .map(([key, inner]) => [key, ordered(inner)]),
  );
}

/** JSON.stringify leaves these raw; as escapes they mean the same and do nothing to a terminal (RFC 8259 section 7 allows any character to be escaped). */
const RAW_IN_JSON = /[\u007f-\u009f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb]|\udb40[\udc00-\udc7f]/g;

const escaped = (text: string): string =>
  [...Array(text.length).keys()].map((at) => `\\u${text.charCodeAt(at).toString(16).padStart(4, '0')}`).join('');

/** The saved result as JSON: keys in one order, two spaces, every text whole, a line break at the end. */
export function renderJson(findings: Findings): string {
  return `${JSON.stringify(ordered(findings), null, 2).replace(RAW_IN_JSON, escaped)}\n`;
}
