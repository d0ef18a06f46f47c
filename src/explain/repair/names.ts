import type { DifferenceField, PairRef } from '../../model/difference.js';
import type { Copy } from '../../model/film.js';
import type { Repair } from '../../model/findings.js';
import { inSeries } from '../draft.js';
import { returnFrame, returnIssueOf, type Scene } from '../scene.js';
import type { WordedDifference } from '../worded.js';
import { inDocument } from './places.js';

/** The fact that a copy repeats, as differences call it. */
export const FIELD: Readonly<Record<string, DifferenceField>> = {
  frame: 'number',
  reel: 'reel',
  order: 'order',
  page: 'page',
  date: 'date',
  edition: 'edition',
  title: 'title',
  editionLabel: 'editionLabel',
  datePrinted: 'datePrinted',
  volume: 'volume',
  issueNumber: 'issueNumber',
  section: 'section',
};

/** Another place of the return that repeats a wrong reading, and so must be changed with it. */
export interface Repeated {
  readonly copy: Copy;
  /** The field of its step: fact and source. */
  readonly field: string;
}

/** What repeats the wrong reading of a document, or of a page: the names that are made of it, the manifest, a label. Where they say otherwise that is a difference of its own. */
export function repeatedBy(scene: Scene, difference: WordedDifference, ref: PairRef | null): readonly Repeated[] {
  const { field, given, expected, returnIssue } = difference;
  if (given === null || expected.length === 0) return [];
  const copies =
    ref !== null
      ? (returnFrame(scene, ref)?.copies ?? [])
      : [
          ...(returnIssueOf(scene, returnIssue)?.copies ?? []),
          ...difference.pairs.flatMap((pair) => returnFrame(scene, pair)?.copies ?? []),
        ];
  return (
    copies
      // the order of the pages in a document follows their places by itself
      .filter(
        ({ fact, source, value, beside }) =>
          beside === undefined && source !== 'structMap' && FIELD[fact] === field && (value === given.key || value === given.text),
      )
      .map((copy) => ({ copy, field: `${copy.fact} ${copy.source}` }))
  );
}

/** Steps by which what repeats a wrong reading follows it. */
export function followingSteps(scene: Scene, difference: WordedDifference, ref: PairRef | null): Repair[] {
  const right = difference.expected[0]?.text ?? null;
  return repeatedBy(scene, difference, ref).map(({ copy, field }) => ({
    do: 'set',
    ...inDocument(copy.place),
    field,
    from: copy.text,
    to: right === null ? null : inFormOf(copy.text, right),
  }));
}

/** One sentence on the places that steps change along with the documents themselves; null where there are none. */
export function alongInWords(steps: readonly Repair[]): string | null {
  const bySource = new Map<string, number>();
  for (const { field, do: act } of steps) {
    const [, fact = '', source] = /^(\S+) (.+)$/.exec(field ?? '') ?? [];
    // facts of reels have names of several words
    if (source !== undefined && fact in FIELD) bySource.set(source, (bySource.get(source) ?? 0) + (act === 'renumber' ? 2 : 1));
  }
  const names = [...bySource].map(([source, times]) => `the ${source}${times > 1 && source.endsWith(' name') ? 's' : ''}`);
  return names.length === 0 ? null : `Change ${inSeries(names)} to match.`;
}

/** A reading as it is written in a name: with as many digits as stand there now, a day without its hyphens where there are none. */
function inFormOf(now: string, reading: string): string {
  if (/^\d{8}$/.test(now)) return reading.replace(/^(\d{4})-(\d{2})-(\d{2})$/, '$1$2$3');
  const [, digits = '', rest = ''] = /^(\d+)(\D?.*)$/.exec(reading) ?? [];
  const width = /^0\d*/.exec(now)?.[0].length ?? 0;
  return digits === '' || /^\d{4}-/.test(reading) ? reading : digits.padStart(width, '0') + rest;
}
