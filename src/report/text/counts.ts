import type { Finding, Findings } from '../../model/findings.js';
import { short } from '../visible.js';
import { classesInWords, differencesInWords, pagesInWords, receivedInWords, SEVERITIES } from '../words.js';
import { table, wrap } from './wrap.js';

const NAME = 40;

/** What is counted of a reel: frames, pages that came, those of them that were to be delivered and those that were not, and pages and issues that the record knows to be lacking. */
export const REEL_HEADS = ['frames recorded', 'pages returned', 'matched', 'unmatched', 'not on film'] as const;

function reelTable(result: Findings): readonly string[] {
  const head = ['Reel', ...REEL_HEADS];
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

/** A kind of frame with how many of it are to be delivered and how many are held back. */
interface KindLine {
  readonly name: string;
  readonly deliver: number;
  readonly heldBack: number;
}

/** The kinds of frames in the record, all reels together. */
function kindLines({ counts }: Findings): readonly KindLine[] {
  const kinds = new Map<string, { deliver: number; heldBack: number }>();
  for (const { kind, deliver, count } of counts.reels.flatMap((reel) => reel.kinds)) {
    const known = kinds.get(kind) ?? { deliver: 0, heldBack: 0 };
    kinds.set(kind, known);
    known[deliver ? 'deliver' : 'heldBack'] += count;
  }
  const order = [...KIND_WORDS.keys()];
  const place = (kind: string): number => (order.includes(kind) ? order.indexOf(kind) : order.length);
  return [...kinds]
    .toSorted(([a], [b]) => place(a) - place(b) || (a < b ? -1 : 1))
    .map(([kind, count]) => ({ name: KIND_WORDS.get(kind) ?? short(kind, NAME), ...count }));
}

function kindTable(result: Findings): readonly string[] {
  const rows = kindLines(result).map(({ name, deliver, heldBack }) => [name, String(deliver), String(heldBack)]);
  return rows.length === 0 ? [] : table([['In the record', 'to deliver', 'held back'], ...rows], new Set([1, 2]));
}

/** The kinds of frames in one sentence: `By the record, to be delivered: 107 pages; held back: 5 pages, 3 blanks.` Null where it has no frame. */
export function kindsInWords(result: Findings): string | null {
  const lines = kindLines(result);
  if (lines.length === 0) return null;
  const listed = (key: 'deliver' | 'heldBack'): string => {
    const parts = lines.flatMap((line) => (line[key] === 0 ? [] : [`${String(line[key])} ${line.name}`]));
    return parts.length === 0 ? 'nothing' : parts.join(', ');
  };
  return `By the record, to be delivered: ${listed('deliver')}; held back: ${listed('heldBack')}.`;
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
    ...wrapped(`${pagesInWords(counts)}; ${differencesInWords(counts)}.`, width),
    ...wrapped(received, width),
    ...classTable(result, width),
  ];
}
