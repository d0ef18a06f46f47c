import type { Finding, Findings } from '../../model/findings.js';
import { short } from '../visible.js';
import { classesInWords, counted, receivedInWords, SEVERITIES } from '../words.js';
import { table, wrap } from './wrap.js';

const NAME = 40;

function reelTable(result: Findings): readonly string[] {
  const head = ['Reel', 'frames in the record', 'returned', 'matched', 'unmatched', 'absent'];
  const numbers = result.counts.reels.map((reel) => [reel.frames, reel.returned, reel.matched, reel.unmatched, reel.absent]);
  const rows = result.counts.reels.map((reel, at) => [short(reel.reel, NAME), ...(numbers[at] ?? []).map(String)]);
  const sums = head.slice(1).map((_, column) => numbers.reduce((sum, row) => sum + (row[column] ?? 0), 0));
  return table([head, ...rows, ...(rows.length > 1 ? [['all', ...sums.map(String)]] : [])], new Set([1, 2, 3, 4, 5]));
}

/** What a kind of frame is called when there are several; a kind unknown here keeps its own name. */
const KIND_WORDS: ReadonlyMap<string, string> = new Map([
  ['page', 'pages'],
  ['blank', 'blanks'],
  ['target', 'targets'],
  ['void', 'voids'],
  ['other', 'other exposures'],
]);

/** The kinds of frames in the record, all reels together: a row each, delivered and held back. */
function kindTable(result: Findings): readonly string[] {
  const kinds = new Map<string, { deliver: number; heldBack: number }>();
  for (const { kind, deliver, count } of result.counts.reels.flatMap((reel) => reel.kinds)) {
    const known = kinds.get(kind) ?? { deliver: 0, heldBack: 0 };
    kinds.set(kind, known);
    known[deliver ? 'deliver' : 'heldBack'] += count;
  }
  const order = [...KIND_WORDS.keys()];
  const place = (kind: string): number => (order.includes(kind) ? order.indexOf(kind) : order.length);
  const rows = [...kinds]
    .toSorted(([a], [b]) => place(a) - place(b) || (a < b ? -1 : 1))
    .map(([kind, count]) => [KIND_WORDS.get(kind) ?? short(kind, NAME), String(count.deliver), String(count.heldBack)]);
  return rows.length === 0 ? [] : table([['In the record', 'to deliver', 'held back'], ...rows], new Set([1, 2]));
}

const wrapped = (text: string | null, width: number): readonly string[] => (text === null ? [] : wrap(text, width, '  ', '    '));

function classTable(result: Findings, width: number): readonly string[] {
  if (result.counts.classes.length === 0) return [];
  const rows = result.counts.classes.map((line) => [
    short(line.class, NAME),
    ...[line.record, line.returned, line.accepted, line.disputed].map(String),
  ]);
  return [
    '',
    ...table([['Price class', 'in the record', 'returned', 'accepted', 'disputed'], ...rows], new Set([1, 2, 3, 4])),
    ...wrapped(classesInWords(result.counts), width),
  ];
}

/** What was found by code, worst first, where there are too many findings to take in one by one. */
export function overview(findings: readonly Finding[]): readonly string[] {
  const codes = new Map<string, { severity: Finding['severity']; findings: number; frames: number }>();
  for (const finding of findings) {
    const key = `${String(SEVERITIES.indexOf(finding.severity))} ${finding.code}`;
    const line = codes.get(key) ?? { severity: finding.severity, findings: 0, frames: 0 };
    codes.set(key, { ...line, findings: line.findings + 1, frames: line.frames + finding.count });
  }
  const rows = [...codes]
    .toSorted(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, line]) => [line.severity, short(key.slice(2), NAME), String(line.findings), String(line.frames)]);
  return table([['Severity', 'code', 'findings', 'frames affected'], ...rows], new Set([2, 3]));
}

/** The counts: a table of the reels, what kinds of frames they hold, pages and price classes. */
export function countLines(result: Findings, width: number): readonly string[] {
  const { counts } = result;
  const received = receivedInWords(counts.received);
  return [
    ...reelTable(result),
    '',
    ...kindTable(result),
    '',
    ...wrapped(
      `${counted(counts.pagesReturned, 'page')} returned, ${String(counts.pagesMatched)} matched, ${String(counts.pagesUnmatched)} unmatched; ` +
        `${counted(counts.differences, 'difference')} explained by ${counted(counts.findings, 'finding')}.`,
      width,
    ),
    ...wrapped(received, width),
    ...classTable(result, width),
  ];
}
