import { spanInWords } from '../catalogue/frame-words.js';
import type {
  Cause,
  Counts,
  Decision,
  Finding,
  Findings,
  FixityCounts,
  FrameRange,
  ReceivedCounts,
  ResultPlace,
  Run,
  Severity,
  Unchecked,
} from '../model/findings.js';
import { short } from './visible.js';

/** The verdict in words for people. */
export const DECISION_WORDS: Readonly<Record<Decision, string>> = {
  accept: 'Accept',
  'accept-with-corrections': 'Accept with corrections',
  'return-for-rework': 'Return for rework',
  'cannot-decide': 'Cannot decide',
};

/** Where the cause of a finding more likely lies, in words for people. */
export const CAUSE_WORDS: Readonly<Record<Cause, string>> = {
  'vendor-metadata': "the vendor's metadata",
  'vendor-image': "the vendor's scanning",
  film: 'the film',
  collation: 'the collation record',
  unclear: 'unclear',
};

/** The severities, worst first. */
export const SEVERITIES: readonly Severity[] = ['critical', 'major', 'minor', 'note'];

/** `1 page`, `3 pages`. */
export function counted(count: number, word: string): string {
  return `${String(count)} ${word}${count === 1 ? '' : 's'}`;
}

const enumeration = (names: readonly string[]): string =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;

/** Names such as `14:811`, `14:812`, `15:1` by their reels: `811 and 812 of reel 14, 1 of reel 15`. Names without a reel are just listed. */
function listInWords(names: readonly string[]): string {
  const byReel = new Map<string, string[]>();
  for (const name of names) {
    const colon = name.lastIndexOf(':');
    const reel = name.slice(0, Math.max(0, colon));
    byReel.set(reel, [...(byReel.get(reel) ?? []), name.slice(colon + 1)]);
  }
  return [...byReel].map(([reel, frames]) => enumeration(frames) + (reel === '' ? '' : ` of reel ${reel}`)).join(', ');
}

/** `frame 41`, `frames 42 to 812`, `frames 3, 9 and 12`; at most `limit` of a list are named one by one. */
export function framesInWords(range: FrameRange, limit = 12): string {
  const list = range.list ?? [];
  if (list.length > limit) return spanInWords(range);
  if (list.length > 1) return `frames ${listInWords(list)}`;
  return range.from === range.to ? `frame ${range.from}` : `frames ${range.from} to ${range.to}`;
}

/** Where something stands, such as `BATCH.xml, line 12` or `sheet frames, row 7`. */
export function placeInWords(place: ResultPlace): string {
  const parts = [
    place.document,
    place.element,
    place.line === undefined ? undefined : `line ${String(place.line)}`,
    place.sheet === undefined ? undefined : `sheet ${place.sheet}`,
    place.row === undefined ? undefined : `row ${String(place.row)}`,
  ];
  return parts.filter((part) => part !== undefined).join(', ');
}

/** True while a finding weighs: not ruled upon, or left to the vendor to correct. */
export function stillCounts(finding: Finding): boolean {
  return finding.ruling === null || finding.ruling.decision === 'vendor-corrects';
}

/** The findings worst first; equal ones keep the order of the result. */
export function worstFirst(findings: readonly Finding[]): readonly Finding[] {
  return findings.toSorted((a, b) => SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity));
}

/** What the vendor is told: all but the findings in which the record was wrong. */
export function forTheVendor(findings: readonly Finding[]): readonly Finding[] {
  return worstFirst(findings.filter((finding) => finding.ruling?.decision !== 'collation-wrong'));
}

/** True where the library has to rule first: the record is likelier wrong, or leaves in doubt what the finding rests on. */
export function needsRuling({ cause, doubts, ruling }: Finding): boolean {
  return ruling === null && (cause === 'collation' || doubts !== undefined);
}

/** Who has to do something about a finding. */
export function whoActs(finding: Finding): 'vendor' | 'library' | 'nobody' {
  if (!stillCounts(finding)) return 'nobody';
  if (finding.cause === 'collation' || needsRuling(finding)) return 'library';
  return finding.instruction === null ? 'nobody' : 'vendor';
}

/** `145 differences explained by 13 findings`; of a return in which nothing differs, that. */
export function differencesInWords({ differences, findings }: Counts): string {
  if (differences === 0 && findings === 0) return 'nothing differs from the record';
  return `${counted(differences, 'difference')} explained by ${counted(findings, 'finding')}`;
}

/** How many pages came, and how that adds up with what the record asks for: `109 pages came: 106 of the 107 that were to be delivered, and 3 that ...`. */
export function pagesInWords({ reels, pagesReturned, pagesMatched, pagesUnmatched }: Counts): string {
  const wanted = reels.flatMap(({ kinds }) => kinds.filter(({ deliver }) => deliver)).reduce((sum, { count }) => sum + count, 0);
  const besides =
    pagesUnmatched === 0
      ? ''
      : `, and ${String(pagesUnmatched)} that ${pagesUnmatched === 1 ? 'was' : 'were'} to be held back or ${pagesUnmatched === 1 ? 'is' : 'are'} not in the record`;
  return `${counted(pagesReturned, 'page')} came: ${String(pagesMatched)} of the ${String(wanted)} that were to be delivered${besides}`;
}

/** What came and how much of it was not compared, in one sentence; null where nothing was read from a folder. */
export function receivedInWords(received: ReceivedCounts): string | null {
  const classes = (['folder', 'document', 'section', 'file'] as const).map((word) => ({ word, ...received[`${word}s`] }));
  if (received.files.came === 0) return null;
  const came = enumeration(classes.filter((one) => one.came > 0).map((one) => counted(one.came, one.word)));
  const left = classes.filter((one) => one.unchecked > 0);
  const many = left.length > 1 || (left[0]?.unchecked ?? 0) > 1;
  const rest =
    left.length === 0
      ? 'none was passed over'
      : `${enumeration(left.map((one) => counted(one.unchecked, one.word)))} of them ${many ? 'were' : 'was'} not compared (see "Not checked")`;
  return `${came} came; ${rest}.${received.fixity === undefined ? '' : ` ${fixityInWords(received.fixity)}`}`;
}

/** Why the frames of the price classes are fewer than those of the record or of the return; null where they are not. */
export function classesInWords({ classes, unpriced }: Pick<Findings['counts'], 'classes' | 'unpriced'>): string | null {
  const free = (count: number, which: string): readonly string[] =>
    count === 0 ? [] : [`${counted(count, 'frame')} ${which} ${count === 1 ? 'is' : 'are'} in no price class.`];
  const says = [
    ...classes.flatMap(({ class: name, asPages = 0 }) =>
      asPages === 0
        ? []
        : [
            `${counted(asPages, 'frame')} of the class "${short(name, 40)}" came as ${asPages === 1 ? 'a page' : 'pages'} and ${asPages === 1 ? 'is' : 'are'} counted as such.`,
          ],
    ),
    ...free(unpriced?.duplicates ?? 0, 'held back as duplicates'),
    ...free(unpriced?.others ?? 0, (unpriced?.duplicates ?? 0) > 0 ? 'besides' : 'of the record'),
  ];
  return says.length === 0 ? null : says.join(' ');
}

/** How many files were held against what is stated of their bytes, how many differ, and for how many nothing is stated. */
function fixityInWords({ compared, differ, without }: FixityCounts): string {
  const were = compared === 1 ? 'was' : 'were';
  const held =
    compared === 0
      ? 'No digest or size is stated with which a file could be compared'
      : `${counted(compared, 'file')} ${were} held against the digests or sizes stated: ${differ === 0 ? 'none differs' : `${String(differ)} ${differ === 1 ? 'differs' : 'differ'}`}`;
  return `${held}; for ${without === 0 ? 'no file of a page' : counted(without, 'page file')} nothing is stated.`;
}

/** How many things stand under one entry of `unchecked`, with the first places: `12, such as a.txt and b.txt`. Empty where there is nothing to name. */
export function gapPlaces({ count, places }: Unchecked): string {
  const named = places
    .slice(0, 3)
    .map(placeInWords)
    .filter((text) => text !== '');
  if (named.length === 0) return count > 1 ? String(count) : '';
  if (count <= named.length) return enumeration(named);
  return `${String(count)}, such as ${enumeration(named)}`;
}

/** The last day for the library's answer, and whether it had passed when the comparison was made; null where nobody said when the delivery came in. */
export function answerDueInWords({ reviewDay, at }: Run): string | null {
  if (reviewDay === undefined) return null;
  return at.slice(0, 10) > reviewDay ? `The answer was due by ${reviewDay}: it is overdue.` : `The answer is due by ${reviewDay}.`;
}

/** What the vendor answered, on one line or in the lines as they were written, with the delivery in which it is said to be mended. */
export function answerInWords({ text, fixedIn }: NonNullable<Finding['answer']>, lines: 'one' | 'as-written' = 'one'): string {
  const line = lines === 'as-written' ? text : text.split(/\s*\n\s*/).join(' / ');
  const said = [
    ...(line === '' ? [] : [line]),
    ...(fixedIn === undefined ? [] : [`fixed in ${/^\d+$/.test(fixedIn) ? `delivery ${fixedIn}` : `"${fixedIn}"`}`]),
  ];
  return said.length === 0 ? 'nothing but the day' : said.join('; ');
}

/** A reason with a full stop at its end. */
export function asSentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
