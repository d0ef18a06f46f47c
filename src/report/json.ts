import type { Findings } from '../model/findings.js';
import { plainJson } from './json-escapes.js';

/** The objects of the published schema by their keys, each in the order of the schema. */
export const SHAPES: readonly (readonly string[])[] = [
  'format tool run agreement verdict counts titles reels findings sent corrected pending record unchecked catalogue',
  'changes',
  'name version',
  'decision reasons',
  'at received reviewDay replaced batch delivery profile inputs remarks',
  'document by',
  'role name sha256',
  'reels pagesReturned pagesMatched pagesUnmatched differences findings received classes unpriced',
  'duplicates others',
  'folders documents sections files fixity',
  'compared differ without',
  'came compared found unchecked',
  'reel frames kinds absent returned matched unmatched',
  'kind deliver count',
  'class charge record returned accepted disputed asPages',
  'id name patterns',
  'number absent frames',
  'title date combinedWith edition page published',
  'frame returned returnedKind state kind deliver title date combinedWith edition section page order condition sourceReel duplicateOf files findings follows',
  'use path',
  'id code severity weighs scope cause reel at frames count title date edition page field collation return says instruction evidence asSent alternatives repair corrections places rescan billable status doubts changed ruling answer',
  'id code severity says likely reel frames count title date edition evidence places explained',
  'class change',
  'decision note by on',
  'text fixedIn on',
  'from to list',
  'says cause instruction',
  'do document element reel frame numberedBy field from to',
  'reel frame action field from to',
  'document element line sheet row of',
  'what why frames places count required',
  'code group title why severity',
  'format library vendor policies tolerances severities required terms sampling',
  'pageNumber unnumberedPage printedDate absentPages absentIssues frameNumbers targets editionOrder splitExposures reelNumber files redelivery',
  'majorShare minorShare',
  'reviewDays reviewDayKind holidays currency payOn rounding classes',
  'plan level aql limitingQuality risk unit',
  'class kind deliver includes charge per net unitPrice',
  'from to days omitted usualPages frequency',
].map((keys) => keys.split(' '));

/** The keys of an object in one order: that of the first shape that has them all, else (a dictionary) by code unit. */
function keyOrder(keys: readonly string[]): readonly string[] {
  const shape = SHAPES.find((known) => keys.every((key) => known.includes(key)));
  return shape === undefined ? keys.toSorted() : keys.toSorted((a, b) => shape.indexOf(a) - shape.indexOf(b));
}

/** The same value with the keys of every object in the order that `order` gives them. */
export function ordered(value: unknown, order: (keys: readonly string[]) => readonly string[]): unknown {
  if (Array.isArray(value)) return value.map((item) => ordered(item, order));
  if (typeof value !== 'object' || value === null) return value;
  const entries: ReadonlyMap<string, unknown> = new Map(Object.entries(value));
  return Object.fromEntries(order([...entries.keys()]).map((key) => [key, ordered(entries.get(key), order)]));
}

/** A value as JSON with its keys as they stand: two spaces, every text whole, nothing in it that steers a terminal, a line break at the end. */
export function jsonText(value: unknown): string {
  return `${plainJson(JSON.stringify(value, null, 2))}\n`;
}

/** Of a long text so much is held at a time. */
const PIECE = 64 * 1024;
/** Deeper than this a value is written at once: no batch of a ledger is large. */
const DEEPEST = 4;

/** The text of `jsonText` in pieces, for values that would be long in memory beside their text. */
export function* jsonPieces(value: unknown): Generator<string> {
  let piece = '';
  for (const part of parts(value, '', 0)) {
    piece += part;
    if (piece.length < PIECE) continue;
    yield plainJson(piece);
    piece = '';
  }
  yield `${plainJson(piece)}\n`;
}

function* parts(value: unknown, indent: string, depth: number): Generator<string> {
  const entries = depth < DEEPEST && typeof value === 'object' && value !== null ? Object.entries(value) : [];
  const given: readonly (readonly [string, unknown])[] = Array.isArray(value) ? entries : entries.filter(([, one]) => one !== undefined);
  if (given.length === 0) {
    // texts hold no line break of their own (RFC 8259 section 7)
    yield JSON.stringify(value, null, 2).replaceAll('\n', `\n${indent}`);
    return;
  }
  const [open, close] = Array.isArray(value) ? ['[', ']'] : ['{', '}'];
  for (const [at, [key, one]] of given.entries()) {
    yield `${at === 0 ? open : ','}\n${indent}  ${Array.isArray(value) ? '' : `${JSON.stringify(key)}: `}`;
    yield* parts(one, `${indent}  `, depth + 1);
  }
  yield `\n${indent}${close}`;
}

/** The saved result as JSON: keys in one order, and otherwise as any value is written. */
export function renderJson(findings: Findings): string {
  return jsonText(ordered(findings, keyOrder));
}
